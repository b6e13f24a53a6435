"""The whole way of an answer for real: our own voice, a microphone made of it, the recogniser, the lesson."""

from __future__ import annotations

import importlib.util
import queue
import time
from collections.abc import Iterator

import pytest

from player.aloud import hearing
from player.aloud.ears import SERVES, RealEars
from player.aloud.talk import SAY_NO
from player.stage.inputs import Typed
from player.voice.choose import ESPEAK
from player.voice.ears.heard import Doubt, Heard
from player.voice.ears.microphone import Microphone
from player.voice.ears.waves import FRAME_BYTES, at_our_rate
from player.voice.ears.worker import Report
from player.voice.process import WorkerProcess
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock
from tests.aloud.test_hand import at_question
from tests.aloud.test_talk import Speaking

pytest.importorskip("pocketsphinx")

PATIENCE_S = 20.0
SILENCE = bytes(FRAME_BYTES)


class Recorded(Microphone):
    """A microphone that hears what it is given."""

    def __init__(self) -> None:
        super().__init__()
        self.given: queue.SimpleQueue[bytes] = queue.SimpleQueue()
        self.why: str | None = None

    def start(self) -> None:
        return

    def stop(self) -> None:
        return

    def frame(self, timeout_s: float = 1.0) -> bytes | None:
        try:
            return self.given.get(timeout=timeout_s)
        except queue.Empty:
            return None

    def notice(self) -> str | None:
        return self.why

    def hears(self, pcm: bytes) -> None:
        quiet = SILENCE * 25
        pcm = quiet + pcm + quiet
        for at in range(0, len(pcm) - FRAME_BYTES + 1, FRAME_BYTES):
            self.given.put(pcm[at : at + FRAME_BYTES])


@pytest.fixture(scope="module")
def voice() -> Iterator[SpokenVoice]:
    made = SpokenVoice(WorkerProcess(ESPEAK), RealClock(), name="en-us")
    yield made
    made.close()


def report(ears: RealEars) -> Report:
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
        found = ears.report()
        if found is not None:
            return found
        time.sleep(0.01)
    raise AssertionError("nothing was heard")


@pytest.mark.skipif(importlib.util.find_spec("pyttsx3") is None, reason="no voice to answer with")
def test_a_spoken_move_is_said_back_refused_said_again_and_counts(voice: SpokenVoice) -> None:
    microphone = Recorded()
    ears = RealEars(headphones=False, microphone=microphone)
    one = Speaking(at_question())

    def says(words: str) -> None:
        sound = voice.make(words, 1.0)
        ears.listen_for(hearing.wanted(one.talk, one.state))
        ears.mode("shut")
        ears.mode("open")
        microphone.hears(at_our_rate(sound.frames(), sound.rate_hz))
        verdict = report(ears)
        assert isinstance(verdict, Heard | Doubt), verdict
        one.hear(verdict)
        if isinstance(verdict, Doubt) and one.talk.stage == "confirm":
            one.wait(1_200)
            says("yes")

    try:
        says("bishop to Gustav two")
        assert one.said[-1] == f"Bishop to g2. {SAY_NO}" or one.fed[-1] == Typed("f1g2")
        if one.talk.busy:
            one.wait(1_200)
            says("no")
            assert one.grades == []
            one.wait(2_000)
            says("bishop to Gustav two")
            one.wait(5_000)
        assert one.grades == ["right"]
    finally:
        ears.close()


def test_a_microphone_that_is_missing_is_told_of_in_plain_words() -> None:
    microphone = Recorded()
    microphone.why = "No microphone was found, so answers are typed; the lesson goes on."
    ears = RealEars(headphones=False, microphone=microphone)
    assert ears.trouble() == f"No microphone was found. {SERVES}"
    ears.close()
