"""The whole series told with the real voice: every move against its word, found in the samples.

The tolerances are published ones for picture and sound (EBU R 37, ITU-R BT.1359-1); tests/voice/acoustics.py
says which and how they are read.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from player.stage.state import Telling
from player.voice.choose import ESPEAK
from player.voice.output import RATE_HZ, CaptureOutput
from player.voice.process import WorkerProcess
from player.voice.speaking import SoundSpeaker
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock, VirtualClock
from tests.voice.acoustics import Landing, figures, find, heard, heard_word, verdict
from tests.voice.telling import DEMO, Remembering, sheet_of, tell

pytest.importorskip("espeakng_loader")
pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="eSpeak NG is the voice of Linux here"
)

_PIECE = 250 * RATE_HZ // 1000
_REACH = RATE_HZ // 2


def landings_of(lesson: Path, speed: float) -> list[Landing]:
    """Every move of a lesson, told on a virtual clock into memory."""
    clock = VirtualClock()
    voice = Remembering(SpokenVoice(WorkerProcess(ESPEAK), RealClock()))
    output = CaptureOutput(clock)
    speaker = SoundSpeaker(voice, output, clock, threaded=False)
    telling = Telling(speed=speed, silence=0.2, think=0.01, wait=False)
    landed, notices = tell(sheet_of(lesson.read_text(encoding="utf-8")), speaker, clock, telling)
    output.catch_up()
    captured = heard(output.captured)
    landings = []
    for one in landed:
        sound, alone = voice.made[one.what.spoken], voice.make(one.rest, speed)
        rendered = heard(sound.frames())
        onset_ms = heard_word(rendered, RATE_HZ, sound.word_ms[one.word], heard(alone.frames()))
        first = max(0, round(onset_ms * RATE_HZ / 1000))
        around = one.at_ms * RATE_HZ // 1000
        at, alike = find(captured, rendered[first : first + _PIECE], around - _REACH, around + _REACH)
        assert alike > 0.9, f"{one.rest[:40]} was not heard near its move ({alike:.2f})"
        landings.append(Landing(one.rest[:20], one.at_ms - at * 1000 / RATE_HZ))
    speaker.close()
    assert notices == []
    print(f"{lesson.stem} at {speed}x:", figures(landings))
    return landings


def test_the_moves_of_the_first_lesson_land_on_their_words() -> None:
    assert verdict(landings_of(DEMO[0], 1.0)) == ""


@pytest.mark.large
@pytest.mark.parametrize("speed", [0.75, 1.0, 1.5])
def test_the_moves_of_the_whole_series_land_on_their_words(speed: float) -> None:
    assert verdict([one for lesson in DEMO for one in landings_of(lesson, speed)]) == ""
