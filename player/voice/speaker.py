"""The protocol between a running lesson and whatever says it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from player.stage.inputs import Finished, Heard
from player.wording.utterance import Utterance


@dataclass(frozen=True, slots=True)
class Notice:
    """One plain sentence for the learner about the voice ("No sound here; the lesson goes on in text.")."""

    sentence: str


SpeakerEvent = Heard | Finished | Notice


class Speaker(Protocol):
    """Says one utterance at a time and reports how much of it has been heard.

    No method blocks for longer than a few milliseconds, and none raises for want of a voice or a device: the
    telling goes on at an estimated pace and one `Notice` says so.
    """

    def say(
        self, saying: int, what: Utterance, *, speed: float, from_word: int = 0, from_ms: int | None = None
    ) -> None:
        """Begin this utterance now, hushing any other.

        `speed` is 0.5 to 3.0, 1.0 being the voice's own pace. `from_ms` is a position in the sound that
        `hush` gave for the same text at the same speed; else it begins at word number `from_word`.
        """

    def hush(self) -> Heard | None:
        """Be silent at once; how far the current saying was heard, or None where nothing was being said."""

    def ahead(self, coming: Sequence[Utterance], *, speed: float) -> None:
        """What will probably be said next, in order; the latest call replaces the earlier ones."""

    def tone(self) -> None:
        """A soft tone: the thinking time is nearly over."""

    def poll(self) -> Sequence[SpeakerEvent]:
        """What has happened since the last call, in order: a `Heard` as each word begins, then `Finished`."""

    def due_ms(self) -> int | None:
        """Milliseconds until `poll` may have something new; None while nothing is being said."""

    def close(self) -> None:
        """Release the device and the worker."""
