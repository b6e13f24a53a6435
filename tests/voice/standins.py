"""What the tests of the voice share: utterances, voices that obey or misbehave, hearing a capture."""

from __future__ import annotations

import array
import math
import random
import threading
from collections.abc import Callable, Sequence

from player.stage.inputs import Finished, Heard
from player.voice.output import RATE_HZ, CaptureOutput
from player.voice.sound import NoSound, Sound
from player.voice.speaker import Notice, Speaker, SpeakerEvent
from player.wording.pace import word_times
from player.wording.utterance import Utterance
from player.world.clock import Clock


def utter(spoken: str) -> Utterance:
    """An utterance shown as it is spoken."""
    pairs = []
    at = 0
    for word in spoken.split():
        at = spoken.index(word, at)
        pairs.append((at, at + len(word)))
        at += len(word)
    return Utterance(spoken, spoken, tuple(pairs))


def noise(ms: int, seed: int = 1, rate_hz: int = RATE_HZ) -> bytes:
    """Sound that resembles no other part of itself, so that a stretch of it can be found again to the
    frame.
    """
    frames = ms * rate_hz // 1000
    full = int.from_bytes(random.Random(seed).randbytes(frames * 2), "little")
    return (full & int.from_bytes(b"\xff\x1f" * frames, "little")).to_bytes(frames * 2, "little")


class NoiseVoice:
    """Says every text as noise of its own at the estimated pace, as if measured."""

    identity = "noise 1"

    def __init__(self, rate_hz: int = RATE_HZ) -> None:
        self.rate_hz = rate_hz
        self.asked: list[str] = []
        self.closed = False

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        self.asked.append(spoken)
        onsets, ms = word_times(spoken, speed)
        # A measured line that differs from the estimated one, as every real one does.
        onsets = tuple(onset * 10 // 9 for onset in onsets)
        seed = sum(map(ord, spoken)) + 10_007 * round(100 * speed)
        pcm = noise(ms * 10 // 9 + 40, seed=seed, rate_hz=self.rate_hz)
        return Sound(None, ms * 10 // 9 + 40, onsets, True, self.rate_hz, pcm)

    def close(self) -> None:
        self.closed = True


class FailingVoice(NoiseVoice):
    """Fails for as long as it is told to."""

    def __init__(self, why: str = "The voice is broken.") -> None:
        super().__init__()
        self.why: str | None = why

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        if self.why is not None:
            self.asked.append(spoken)
            raise NoSound(self.why)
        return super().make(spoken, speed, language)


class GatedVoice(NoiseVoice):
    """Makes nothing while its gate is shut."""

    def __init__(self) -> None:
        super().__init__()
        self.gate = threading.Event()

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        self.gate.wait(20)
        if self.closed:
            raise NoSound("The voice has been closed.")
        return super().make(spoken, speed, language)

    def close(self) -> None:
        super().close()
        self.gate.set()


def listen(
    speaker: Speaker,
    clock: Clock,
    *,
    until: Callable[[SpeakerEvent], bool] = lambda event: isinstance(event, Finished),
    most_ms: int = 60_000,
) -> list[tuple[int, SpeakerEvent]]:
    """Poll a speaker as a session does, until an event or the end; each event with its time by the clock."""
    heard: list[tuple[int, SpeakerEvent]] = []
    begun = clock.now_ms()
    while clock.now_ms() - begun <= most_ms:
        for event in speaker.poll():
            heard.append((clock.now_ms(), event))
            if until(event):
                return heard
        due = speaker.due_ms()
        if due is None:
            return heard
        clock.sleep(max(1, due))
    raise AssertionError(f"nothing came to an end in {most_ms} ms: {heard[-3:]}")


def words(events: Sequence[tuple[int, SpeakerEvent]]) -> list[int]:
    return [event.word for _, event in events if isinstance(event, Heard)]


def notices(events: Sequence[tuple[int, SpeakerEvent]]) -> list[str]:
    return [event.sentence for _, event in events if isinstance(event, Notice)]


def samples(pcm: bytes | bytearray) -> array.array[int]:
    found = array.array("h")
    found.frombytes(bytes(pcm))
    return found


def where(stretch: bytes, captured: bytes | bytearray) -> int:
    """The frame at which this very stretch of sound was heard; -1 where it was not."""
    at = bytes(captured).find(stretch)
    while at >= 0 and at % 2:
        at = bytes(captured).find(stretch, at + 1)
    return -1 if at < 0 else at // 2


def last_loud_ms(output: CaptureOutput) -> float:
    """When the last thing was heard that is more than silence, from the making of the output."""
    sound = samples(output.captured)
    for frame in range(len(sound) - 1, -1, -1):
        if abs(sound[frame]) > 64:
            return frame * 1000 / output.rate_hz
    return -math.inf
