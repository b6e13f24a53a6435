from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any, cast

import pytest

from player.voice.process import WorkerGone, WorkerProcess
from player.voice.sound import NoSound
from player.voice.spoken import GRUDGE_MS, SpokenVoice, is_silent
from player.wording.pace import word_times
from player.world.clock import RealClock, VirtualClock
from tests.voice.standins import noise

ROOT = Path(__file__).resolve().parents[2]


class Answers:
    """In place of a worker: answers from a list of what should happen, and then as it should."""

    def __init__(self, *script: Callable[[dict[str, Any]], tuple[dict[str, Any], bytes]]) -> None:
        self.script = list(script)
        self.asked: list[dict[str, Any]] = []

    def ask(self, request: dict[str, Any], timeout_s: float) -> tuple[dict[str, Any], bytes]:
        self.asked.append(request)
        return self.script.pop(0)(request) if self.script else well(request)

    def close(self) -> None:
        return


def well(request: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    if request["do"] == "voices":
        return {"ok": True, "version": "fake 1", "voices": [["Anna", "en"]]}, b""
    onsets, ms = word_times(request["text"], request["speed"])
    return {"ok": True, "rate_hz": 8_000, "word_frames": [at * 8 for at in onsets]}, noise(ms, rate_hz=8_000)


def gone(request: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    raise WorkerGone("The voice stopped working.")


def no(request: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    raise NoSound("Not that.")


def voice(answers: Answers, clock: VirtualClock | None = None, name: str = "") -> SpokenVoice:
    return SpokenVoice(cast(WorkerProcess, answers), clock or VirtualClock(), name=name)


def test_the_sound_has_the_engines_times() -> None:
    sound = voice(Answers()).make("Rook to e1.", 1.0)
    onsets, ms = word_times("Rook to e1.")
    assert (sound.ms, sound.word_ms, sound.measured, sound.rate_hz) == (ms, onsets, True, 8_000)
    assert sound.audible and len(sound.frames()) == ms * 16


def test_a_long_text_is_asked_for_in_pieces_and_joined() -> None:
    answers = Answers()
    spoken = "The rook goes on. " * 2500
    sound = voice(answers).make(spoken, 2.0)
    assert len(answers.asked) == pytest.approx(len(spoken) / 3000, rel=0.3)
    assert len(sound.word_ms) == 10_000
    assert list(sound.word_ms) == sorted(sound.word_ms)
    assert sound.ms == pytest.approx(word_times(spoken, 2.0)[1], rel=0.01)


def test_identity_has_engine_version_and_voice() -> None:
    assert voice(Answers(), name="Anna").identity == "fake 1 Anna"
    assert voice(Answers()).identity == "fake 1"
    assert voice(Answers()).voices()[0].name == "Anna"


def test_a_lost_worker_is_tried_once_more() -> None:
    answers = Answers(gone)
    assert voice(answers).make("Rook to e1.", 1.0).audible
    assert len(answers.asked) == 2


def test_a_text_that_ends_two_workers_is_left_alone_for_a_minute() -> None:
    clock = VirtualClock()
    answers = Answers(gone, gone)
    speaker = voice(answers, clock)
    with pytest.raises(NoSound):
        speaker.make("poison", 1.0)
    clock.sleep(31_000)
    with pytest.raises(NoSound, match="sentence"):
        speaker.make("poison", 1.0)
    assert len(answers.asked) == 2
    assert speaker.make("another", 1.0).audible
    clock.sleep(GRUDGE_MS)
    assert speaker.make("poison", 1.0).audible


def test_a_voice_that_keeps_failing_rests_longer_and_longer_and_comes_back() -> None:
    clock = VirtualClock()
    answers = Answers(*[gone] * 40)
    speaker = voice(answers, clock)
    tries = []
    for text in range(3000):
        before = len(answers.asked)
        try:
            speaker.make(f"text {text}", 1.0)
            break
        except NoSound:
            if len(answers.asked) > before:
                tries.append(clock.now_ms())
        clock.sleep(100)
    gaps = [late - early for early, late in pairwise(tries)]
    assert gaps == sorted(gaps)
    assert 500 <= gaps[0] <= 5000 and gaps[-1] <= 30_100


def test_a_refusal_is_no_reason_to_rest() -> None:
    answers = Answers(no, no, no)
    speaker = voice(answers)
    for text in ("one", "two", "three"):
        with pytest.raises(NoSound, match="Not that"):
            speaker.make(text, 1.0)
    assert speaker.make("four", 1.0).audible


def body(content: bytes, **head: object) -> Callable[[dict[str, Any]], tuple[dict[str, Any], bytes]]:
    return lambda request: ({"ok": True, "rate_hz": 8_000, "word_frames": None, **head}, content)


@pytest.mark.parametrize(
    "answer",
    [
        body(b""),
        body(bytes(16_000)),
        body(b"\1\0" * 8_000),
        body(noise(30, rate_hz=8_000)),
        body(noise(900, rate_hz=8_000)[:-1]),
        body(noise(900, rate_hz=8_000), rate_hz=0),
        body(noise(900, rate_hz=8_000), rate_hz="8000"),
        body(noise(900, rate_hz=8_000), word_frames=[0]),
        body(noise(900, rate_hz=8_000), word_frames=[0, 9, 4]),
        body(noise(900, rate_hz=8_000), word_frames=[-1, 3, 4]),
        body(noise(900, rate_hz=8_000), word_frames=[0, 3, 900_000]),
        body(noise(900, rate_hz=8_000), word_frames=[0, None, 4]),
    ],
)
def test_a_sound_that_cannot_be_true_is_not_believed(
    answer: Callable[[dict[str, Any]], tuple[dict[str, Any], bytes]],
) -> None:
    with pytest.raises(NoSound, match=r"^The voice .*\.$"):
        voice(Answers(answer)).make("Rook to e1.", 1.0)


def test_an_engine_without_times_has_its_words_fitted() -> None:
    sound = voice(Answers(body(noise(1_500, rate_hz=8_000)))).make("Rook to e1.", 1.0)
    assert not sound.measured
    assert sound.ms == 1_500 and sound.word_ms[0] == 0 and 300 < sound.word_ms[2] < 1_200


def test_a_text_without_letters_may_be_silent() -> None:
    assert voice(Answers(body(bytes(8_000)))).make("— …", 1.0).ms == 500


def test_faint_hiss_counts_as_silence() -> None:
    assert is_silent(b"") and is_silent(bytes(100)) and is_silent(b"\x40\0\xc0\xff" * 50)
    assert not is_silent(bytes(100) + b"\x41\0")


@pytest.fixture
def rude() -> Iterator[SpokenVoice]:
    process = WorkerProcess("tests.voice.rude:RudeEngine", folders=[ROOT])
    spoken = SpokenVoice(process, RealClock(), answer_s=0.5)
    yield spoken
    spoken.close()


@pytest.mark.parametrize("text", ["empty", "silent", "short text", "mad one", "refuse", "crash"])
def test_a_misbehaving_engine_in_a_real_worker_ends_in_a_sentence(rude: SpokenVoice, text: str) -> None:
    assert rude.make("Well then.", 1.0).audible
    with pytest.raises(NoSound, match=r"^[A-Z].*\.$"):
        rude.make(text, 1.0)


def test_a_hanging_engine_is_given_up_and_the_next_text_is_heard(rude: SpokenVoice) -> None:
    assert rude.make("Well then.", 1.0).audible
    begun = time.monotonic()
    with pytest.raises(NoSound):
        rude.make("hang", 1.0)
    assert time.monotonic() - begun < 4
    time.sleep(1.05)
    assert rude.make("Well then.", 1.0).audible
