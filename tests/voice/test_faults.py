"""More than fifty faults: the text goes on within three seconds, one notice, and the sound comes back."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest
from _pytest.mark import ParameterSet

from player.stage.inputs import Finished, Heard
from player.voice.cache import CachedVoice
from player.voice.output import CaptureOutput
from player.voice.speaker import Notice
from player.voice.speaking import SoundSpeaker
from player.world.clock import VirtualClock
from tests.voice.faults import Build, Rig, quick, real
from tests.voice.standins import utter

TEXTS = ["Knight to f3.", "Black answers d5.", "A pawn moves.", "Castles.", "Rook e1.", "The knight is back."]
MOMENTS = ("before the first word", "in the middle of a sentence", "between two sentences")
WAIT_MS = 3_000
_RECOVERY = 40
EVERY_RUN = {"device stops asking", "engine crash", "engine killed"}


def say(rig: Rig, speaker: SoundSpeaker, saying: int, text: str, strike_at: int = -1) -> list[str]:
    """Say a text to its end, every word of it once and none late; the notices there were."""
    notices: list[str] = []
    last = rig.clock.now_ms()
    told = 0
    speaker.say(saying, utter(text), speed=1.0 if isinstance(rig.clock, VirtualClock) else 3.0)
    while True:
        for event in speaker.poll():
            if isinstance(event, Notice):
                notices.append(event.sentence)
                continue
            assert event.saying == saying
            assert rig.clock.now_ms() - last <= WAIT_MS, f"nothing for {rig.clock.now_ms() - last} ms"
            last = rig.clock.now_ms()
            if isinstance(event, Heard):
                told += 1
                assert event.word == told
                if told == strike_at:
                    rig.strike()
            elif isinstance(event, Finished):
                assert told == len(text.split())
                return notices
        assert rig.clock.now_ms() - last <= WAIT_MS, f"nothing for {rig.clock.now_ms() - last} ms"
        rig.clock.sleep(max(1, speaker.due_ms() or 0))


def is_heard(rig: Rig, speaker: SoundSpeaker, saying: int, notices: list[str]) -> bool:
    if isinstance(rig.output, CaptureOutput):
        rig.output.catch_up()
    before = len(rig.given) // 2
    notices += say(rig, speaker, saying, f"And on it goes, number {saying}.")
    return rig.loud_after(before)


def endure(rig: Rig, moment: str) -> None:
    """Tell on through the fault, and until the sound is back."""
    threaded = not isinstance(rig.clock, VirtualClock)
    speaker = SoundSpeaker(rig.voice, rig.output, rig.clock, threaded=threaded)
    notices: list[str] = []
    try:
        for number, text in enumerate(TEXTS):
            at = -1
            if number == 2 and moment != MOMENTS[1]:
                rig.strike()
            if moment == MOMENTS[0] and number < 2:
                continue
            if number == 2 and moment == MOMENTS[1]:
                at = 1
            if number in (2, 3) and rig.bad_text:
                text = f"{text[:-1]} {rig.bad_text}."
            notices += say(rig, speaker, number, text, at)
        if isinstance(rig.voice, CachedVoice):
            speaker.close()
            speaker = SoundSpeaker(rig.voice, rig.output, rig.clock, threaded=threaded)
            for number, text in enumerate(TEXTS, start=50):
                notices += say(rig, speaker, number, text)
            assert is_heard(rig, speaker, 60, notices)
        rig.mend()
        assert any(is_heard(rig, speaker, 100 + number, notices) for number in range(_RECOVERY))
        assert len(notices) == int(rig.silent), notices
        for sentence in notices:
            assert sentence.endswith("The lesson goes on in text, and the sound comes back when it can.")
    finally:
        speaker.close()
        rig.close()


def _named(faults: Iterable[tuple[str, Build, str]]) -> list[ParameterSet]:
    """The few of the faults in real time that every run takes have no mark."""
    marks = [pytest.mark.large]
    slow = {name for name, _, _ in real()} - EVERY_RUN
    return [
        pytest.param(build, kind, id=name, marks=marks if name in slow else ())
        for name, build, kind in faults
    ]


@pytest.mark.parametrize("moment", MOMENTS)
@pytest.mark.parametrize(("build", "kind"), _named(quick()))
def test_a_fault_costs_one_notice_at_most(build: Build, kind: str, moment: str, tmp_path: Path) -> None:
    endure(build(kind, tmp_path), moment)


@pytest.mark.parametrize(("build", "kind"), _named(real()))
def test_a_fault_in_real_time_costs_one_notice_at_most(build: Build, kind: str, tmp_path: Path) -> None:
    endure(build(kind, tmp_path), MOMENTS[1])


def test_there_are_more_than_fifty() -> None:
    assert len(list(quick())) * len(MOMENTS) + len(list(real())) >= 50
