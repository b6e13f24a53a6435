"""The voice that is always there: it makes no sound, and takes the time that the words would take."""

from __future__ import annotations

from player.voice.sound import Sound
from player.wording.pace import word_times


class EstimatedVoice:
    """No sound at all: silences as long as the words would take."""

    identity = "estimate"

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        onsets, ms = word_times(spoken, speed)
        return Sound(None, ms, onsets, measured=False, rate_hz=0)

    def close(self) -> None:
        return
