"""What makes sound from text, as a protocol, and the voice that only estimates."""

from __future__ import annotations

from typing import Protocol

from player.voice.sound import Sound
from player.wording.pace import word_times


class Voice(Protocol):
    """Makes the sound of a spoken text. Slow: asked from a thread of its own, never from the one that
    draws.
    """

    @property
    def identity(self) -> str:
        """Everything besides text, speed and language that changes the sound: engine, version, voice.

        May start the engine to ask it; NoSound where it cannot be started.
        """

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        """The sound, or NoSound with a plain sentence. `speed` is 0.5 to 3.0, 1.0 being the voice's own
        pace.
        """

    def close(self) -> None:
        """Release what it holds; a `make` under way in another thread ends at once with NoSound."""


class EstimatedVoice:
    """No sound at all: silences as long as the words would take."""

    identity = "estimate"

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        onsets, ms = word_times(spoken, speed)
        return Sound(None, ms, onsets, measured=False, rate_hz=0)

    def close(self) -> None:
        return
