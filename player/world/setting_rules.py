"""What each setting may be, in a form that says so to a person."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

from player.world.clean import clean_line


class Unfit(ValueError):
    """A value that a setting may not have. The message goes on after the name: "must be yes or no"."""


class Rule(Protocol):
    """Decides what a setting may be."""

    def check(self, value: object) -> object:
        """The value in the type of the setting, or raise Unfit."""


@dataclass(frozen=True)
class Number:
    """A number between two others, both allowed; a whole one where `whole`, and `word` too where given."""

    low: float
    high: float
    whole: bool = False
    word: str = ""
    zero: bool = False

    def check(self, value: object) -> float | int | str:
        if self.word and value == self.word:
            return self.word
        if isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value):
            fits = self.low <= value <= self.high or (self.zero and value == 0)
            if fits and not (self.whole and value != int(value)):
                return int(value) if self.whole else float(value)
        kind = "a whole number" if self.whole else "a number"
        also = f', or "{self.word}"' if self.word else ", or 0" if self.zero else ""
        raise Unfit(f"must be {kind} from {self.low:g} to {self.high:g}{also}")


@dataclass(frozen=True)
class Choice:
    """One of a few words."""

    words: tuple[str, ...]

    def check(self, value: object) -> str:
        if isinstance(value, str) and value in self.words:
            return value
        listed = " or ".join(f'"{word}"' for word in self.words)
        raise Unfit(f"must be {listed}")


@dataclass(frozen=True)
class YesOrNo:
    """True or false."""

    def check(self, value: object) -> bool:
        if isinstance(value, bool):
            return value
        raise Unfit("must be true or false")


@dataclass(frozen=True)
class Name:
    """A short text on one line, which may be empty."""

    longest: int = 200

    def check(self, value: object) -> str:
        if isinstance(value, str) and len(value) <= self.longest and clean_line(value) == value:
            return value
        raise Unfit(f"must be a name of at most {self.longest} letters on one line")


RULES: dict[str, Rule] = {
    "speed": Number(0.5, 3),
    "silence_scale": Number(0.3, 10),
    "think": Number(1, 3600, word="wait"),
    "voice": Name(),
    "volume": Number(0, 1),
    "mute": YesOrNo(),
    "ear": YesOrNo(),
    "dress": Choice(("plain", "high contrast")),
    "view": Choice(("lesson", "white", "black")),
    "line_width": Number(20, 400, whole=True, zero=True),
    "key_again": YesOrNo(),
    "engine": Name(),
}
