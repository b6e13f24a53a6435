"""A speaker with a voice, an output that captures, and a clock that waits for nobody."""

from __future__ import annotations

from collections.abc import Callable

from player.stage.inputs import Heard
from player.voice.mixer import FADE_MS
from player.voice.output import RATE_HZ, CaptureOutput
from player.voice.speaker import SpeakerEvent
from player.voice.speaking import SoundSpeaker
from player.world.clock import VirtualClock
from tests.voice.standins import NoiseVoice, listen, utter, where

SENTENCE = "White begins knight to f3, Black takes space with d5, and now a pawn moves."
COUNT = len(SENTENCE.split())
PERIOD_MS = 20
PERIOD = RATE_HZ * PERIOD_MS // 1000
FADE = RATE_HZ * FADE_MS // 1000


def word_number(number: int) -> Callable[[SpeakerEvent], bool]:
    return lambda event: isinstance(event, Heard) and event.word == number


class Stage:
    """A speaker with a voice, an output that captures, and a clock that waits for nobody."""

    def __init__(self, voice: NoiseVoice | None = None, *, threaded: bool = False) -> None:
        self.clock = VirtualClock()
        self.voice = voice or NoiseVoice()
        self.output = CaptureOutput(self.clock)
        self.speaker = SoundSpeaker(self.voice, self.output, self.clock, threaded=threaded)

    def tell(
        self,
        saying: int,
        spoken: str = SENTENCE,
        *,
        speed: float = 1.0,
        until: Callable[[SpeakerEvent], bool] | None = None,
        from_word: int = 0,
        from_ms: int | None = None,
    ) -> list[tuple[int, SpeakerEvent]]:
        self.speaker.say(saying, utter(spoken), speed=speed, from_word=from_word, from_ms=from_ms)
        if until is None:
            return listen(self.speaker, self.clock)
        return listen(self.speaker, self.clock, until=until)

    def heard_at_ms(self, pcm: bytes, frame: int, size: int = 60) -> float:
        """When this very place of a sound was heard, by the capture."""
        found = where(pcm[2 * frame : 2 * (frame + size)], self.output.captured)
        assert found >= 0, "this stretch was never heard"
        return found * 1000 / RATE_HZ
