"""Words put together piece by piece, with the places in them where something happens."""

from __future__ import annotations

from dataclasses import dataclass, field

from player.script.model import Spot
from player.script.told import Deed, Shown, Text, Turn

_CLOSING = ".,;:!?)]"


@dataclass(frozen=True, slots=True)
class Landing:
    """A told move in a text being made: where its saying begins, and where the words after it begin."""

    turn: Turn
    start: int
    end: int


@dataclass(slots=True)
class TextMaker:
    """Builds a `Text`: blanks between pieces never double, and none stays where something unspoken stood."""

    shown: str = ""
    landings: list[Landing] = field(default_factory=list)
    _gap: bool = False
    _silent: bool = False
    _deeds: list[tuple[int, Turn | Shown, Spot, int | None, bool]] = field(default_factory=list)

    @property
    def at(self) -> int:
        """Where the next words will begin."""
        return len(self.shown) + (1 if self._gap and self.shown else 0)

    def say(self, text: str) -> None:
        """More words."""
        words = text.strip(" ")
        self._gap = self._gap or text.startswith(" ")
        if not words:
            return
        tight = self._silent and words[0] in _CLOSING and not words.startswith("..")
        if tight:
            end = len(self.shown)
            self._deeds = [(min(at, end), *rest) for at, *rest in self._deeds]  # type: ignore[misc]
        elif self._gap and self.shown:
            self.shown += " "
        self.shown += words
        self._gap = text.endswith(" ")
        self._silent = False

    def part(self, text: str) -> None:
        """Keep these words, which are about to be said, from growing together with the last ones."""
        self._gap = self._gap or (self.shown[-1:].isalnum() and text[:1].isalnum())

    def hush(self) -> None:
        """Something that is not spoken stands here."""
        self._silent = True

    def do(
        self, at: int, what: Turn | Shown, spot: Spot, stamp_ms: int | None, after_word: bool = False
    ) -> None:
        """Something happens when this character is reached; `after_word` puts it past punctuation."""
        self._deeds.append((at, what, spot, stamp_ms, after_word))

    def text(self) -> Text:
        """What has been put together."""
        return Text(
            self.shown,
            tuple(
                Deed(self._settled(at, after_word), what, spot, stamp_ms)
                for at, what, spot, stamp_ms, after_word in self._deeds
            ),
        )

    def _settled(self, at: int, after_word: bool) -> int:
        at = min(at, len(self.shown))
        while after_word and at < len(self.shown) and self.shown[at] in _CLOSING:
            at += 1
        return at
