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
        raise Unfit("must be true or false, yes or no")


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
    "naming": Choice(("letters", "fide", "alphabet")),
    "depth": Choice(("move", "gist", "pieces")),
    "listen": YesOrNo(),
    "headphones": YesOrNo(),
    "hands_free_waits": YesOrNo(),
}

ABOUT: dict[str, str] = {
    "speed": "The pace of the voice, 1 being its own: 0.5 to 3.",
    "silence_scale": "Times every silence of a lesson, thinking silences too: 0.3 to 10.",
    "think": 'Seconds that a question waits, or "wait" for ever; hands-free "wait" is the usual time.',
    "voice": "The voice that speaks, by its name; empty for the first that works.",
    "volume": "How loud the voice is, from 0 to 1.",
    "mute": "No voice at all.",
    "ear": "Have everything announced in words.",
    "dress": "How the screen looks: plain or high contrast.",
    "view": "Whose side the board is seen from: lesson, white or black.",
    "line_width": "The longest line of the line-by-line telling, in columns; 0 for the terminal's.",
    "key_again": "Ask a lesson's key questions once more later in it.",
    "engine": 'The chess engine that may add its opinion; empty for one that is found, "none" for none.',
    "naming": "How squares are said: letters, fide (Anna, Bella, ...) or alphabet (alfa, bravo, ...).",
    "depth": 'Where "plainer" begins: the move, the gist of the position, or all its pieces.',
    "listen": "Hands-free, take answers by voice where a microphone works.",
    "headphones": "Hands-free, keep listening while the voice speaks; only with headphones on.",
    "hands_free_waits": "Hands-free, have every question wait for an answer instead of passing.",
}
"""What each setting is for, in one line."""

_YES = {"yes": True, "on": True, "true": True, "no": False, "off": False, "false": False}


def value_of(name: str, text: str) -> object:
    """The value of a setting that was typed as text. Unfit where it is none; KeyError for no setting."""
    rule, plain = RULES[name], text.strip()
    if isinstance(rule, Number):
        try:
            return rule.check(float(plain.replace(",", ".")))
        except ValueError:
            return rule.check(plain.casefold())
    if isinstance(rule, YesOrNo):
        return rule.check(_YES.get(plain.casefold(), plain))
    return rule.check(plain.casefold() if isinstance(rule, Choice) else plain)


def typed_as(value: object) -> str:
    """A value as it is typed: yes or no, a bare number, a word; nothing for an empty name."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}" if isinstance(value, float) else str(value)
