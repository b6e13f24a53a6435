"""What makes sound from text, as a protocol."""

from __future__ import annotations

from typing import Protocol

from player.voice.sound import Sound


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
