"""Real-time truth: a PulseAudio server with a null sink, and a recording of its monitor."""

from __future__ import annotations

import signal
import time
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from player.stage.inputs import Finished, Heard
from player.voice.device import DeviceOutput
from player.voice.fitting import loud_spans
from player.voice.sound import Sound
from player.voice.speaker import Notice
from player.voice.speaking import SoundSpeaker
from player.world.clock import RealClock
from tests.voice.server import IS_HERE, SKIP, Server, serve
from tests.voice.standins import NoiseVoice, listen, samples, utter, words

RATE = 44_100
SENTENCE = "White begins knight to f3, Black takes space with d5, and now a pawn moves."

pytestmark = [
    pytest.mark.large,
    pytest.mark.skipif(not IS_HERE, reason=SKIP),
]


@pytest.fixture
def server(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Server]:
    yield from serve(tmp_path, monkeypatch, RATE)


class Clicks(NoiseVoice):
    """Each word is one click where it begins."""

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        sound = super().make(spoken, speed, language)
        pcm = bytearray(len(sound.pcm))
        for ms in sound.word_ms:
            at = 2 * round(ms * self.rate_hz / 1000)
            pcm[at : at + 8] = (20_000).to_bytes(2, "little") * 4
        return Sound(None, sound.ms, sound.word_ms, True, sound.rate_hz, bytes(pcm))


def test_words_are_reported_as_they_are_really_heard(server: Server) -> None:
    clock = RealClock()
    speaker = SoundSpeaker(Clicks(), DeviceOutput(), clock)
    reports = []
    for saying in range(3):
        speaker.say(saying, utter(SENTENCE), speed=1.0)
        events = listen(speaker, clock)
        assert words(events) == list(range(1, 16))
        reports += [at / 1000 for at, event in events if isinstance(event, Heard)]
    time.sleep(0.3)
    speaker.close()
    sound = samples(server.heard)
    loud = [at for at, sample in enumerate(sound) if sample > 6000]
    clicks = [at for before, at in pairwise([-RATE, *loud]) if at - before > 900]
    assert len(clicks) == len(reports) == 45
    early = [server.at_s(click) - report for click, report in zip(clicks, reports, strict=True)]
    # The project's figures: no more than 60 ms before and 40 ms after the sound.
    print("sound after report, ms:", sorted(round(1000 * lead) for lead in early))
    assert all(-0.040 <= lead <= 0.060 for lead in early), [round(1000 * lead) for lead in early]


def test_hush_is_really_silent_within_150_ms(server: Server) -> None:
    clock = RealClock()
    speaker = SoundSpeaker(NoiseVoice(), DeviceOutput(), clock)
    for saying in range(3):
        speaker.say(saying, utter(SENTENCE), speed=1.0)
        listen(speaker, clock, until=lambda event: isinstance(event, Heard) and event.word == 4)
        hushed = time.monotonic()
        speaker.hush()
        time.sleep(0.8)
        sound = samples(server.heard)
        last = next(at for at in range(len(sound) - 1, -1, -1) if abs(sound[at]) > 64)
        assert server.at_s(last) - hushed <= 0.150
    speaker.close()


def test_a_pause_loses_nothing_of_the_sound(server: Server) -> None:
    clock = RealClock()
    voice = NoiseVoice()
    speaker = SoundSpeaker(voice, DeviceOutput(), clock)
    speaker.say(0, utter(SENTENCE), speed=1.0)
    listen(speaker, clock, until=lambda event: isinstance(event, Heard) and event.word == 7)
    stopped = speaker.hush()
    assert stopped is not None
    time.sleep(0.7)
    speaker.say(1, utter(SENTENCE), speed=1.0, from_ms=stopped.ms)
    listen(speaker, clock)
    time.sleep(0.3)
    speaker.close()
    spans = loud_spans(bytes(server.heard), RATE)
    assert len(spans) == 2
    heard_ms = sum(stop - start for start, stop in spans)
    assert abs(heard_ms - voice.make(SENTENCE, 1.0).ms) <= 40


@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGSTOP])
def test_a_server_that_dies_in_mid_word_is_told_once_and_the_telling_goes_on(
    server: Server, how: signal.Signals
) -> None:
    clock = RealClock()
    voice = NoiseVoice()
    speaker = SoundSpeaker(voice, DeviceOutput(), clock)
    speaker.say(0, utter(SENTENCE), speed=1.0)
    events = listen(speaker, clock, until=lambda event: isinstance(event, Heard) and event.word == 4)
    server.process.send_signal(how)
    dead = clock.now_ms()
    events += listen(speaker, clock)
    assert words(events) == list(range(1, 16))
    told = [at for at, event in events if isinstance(event, Notice)]
    assert len(told) == 1 and told[0] - dead <= 1000
    assert isinstance(events[-1][1], Finished)
    first = next(at for at, event in events if isinstance(event, Heard))
    assert abs(events[-1][0] - first - voice.make(SENTENCE, 1.0).ms) <= 300
    begun = time.monotonic()
    speaker.close()
    assert time.monotonic() - begun < 2
