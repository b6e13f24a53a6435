"""A measured lesson is as long as it is really told, and its beats begin when their stamps say."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from player.cli.time import stamps_for
from player.cues.sheet import Sheet
from player.script.write import stamped
from player.session.session import Session, Told
from player.session.speakers import Voices
from player.stage.advance import begin
from player.stage.happenings import Attempt, Say
from player.stage.state import Telling
from player.voice.choose import ESPEAK
from player.voice.measure import measure
from player.voice.output import NullOutput
from player.voice.process import WorkerProcess
from player.voice.speaking import SoundSpeaker
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock, VirtualClock
from tests.voice.telling import DEMO, Remembering, sheet_of

pytest.importorskip("espeakng_loader")
if not sys.platform.startswith("linux"):
    pytest.skip("eSpeak NG is the voice of Linux here", allow_module_level=True)

BEAT_MS = 50
LENGTH_SHARE = 0.01


def rest_before(sheet: Sheet, key: str) -> int:
    """The silences that the script asks for between a question and this step, in ms."""
    at = next(index for index, step in enumerate(sheet.steps) if step.key == key)
    rest = 0
    for step in reversed(sheet.steps[:at]):
        if step.ask is not None or (step.say is not None and not step.ear_only):
            return rest
        rest += step.rest_ms if step.kind == "rest" else 0
    return rest


def check(lesson: Path) -> None:
    """Measure a lesson, stamp it, tell it for real on a virtual clock, and compare."""
    source = lesson.read_text(encoding="utf-8")
    sheet = sheet_of(source)
    voice = Remembering(SpokenVoice(WorkerProcess(ESPEAK), RealClock()))
    said = [step.say for step in sheet.steps if step.say and not (step.ear_only or step.extra)]
    lengths = [one.ms for one in measure(said, voice)]
    timed = sheet_of(stamped(source, stamps_for(sheet, source, lengths)))
    stamps = {step.key: step.stamp_ms for step in timed.steps if step.stamp_ms is not None}
    clock = VirtualClock()
    speaker = SoundSpeaker(voice, NullOutput(), clock, threaded=False)
    begun: dict[str, int] = {}
    keys = {step.key for step in timed.steps if not step.extra}
    aside_ms, passed_ms = 0, list[int]()

    def note(one: Told) -> None:
        """The answer, told because nobody gave it, is no part of the lesson's own time."""
        nonlocal aside_ms
        if isinstance(one, Attempt):
            passed_ms[:] = [clock.now_ms()]
        elif isinstance(one, Say) and one.step in keys and one.role not in ("because", "note"):
            if passed_ms:
                aside_ms += clock.now_ms() - passed_ms.pop() - rest_before(timed, one.step)
            begun.setdefault(one.step, clock.now_ms() - aside_ms)

    telling = Telling(wait=False)
    session = Session(begin(timed, telling), Voices(clock, lambda: (speaker, "")), clock, listener=note)
    session.start()
    while (due := session.due_ms()) is not None:
        clock.sleep(due)
        session.tick()
    speaker.close()
    off = {key: begun[key] - stamp for key, stamp in stamps.items() if key in begun}
    assert len(off) > 10
    worst = max(off.values(), key=abs)
    last = max(stamps, key=lambda key: stamps[key])
    length = begun[last] / max(1, stamps[last])
    print(f"{lesson.stem}: {len(off)} beats, the worst {worst:+d} ms off; length {length - 1:+.3%}")
    assert abs(worst) <= BEAT_MS, max(off.items(), key=lambda item: abs(item[1]))
    assert abs(length - 1) <= LENGTH_SHARE


def test_the_first_lesson_begins_its_beats_at_their_stamps() -> None:
    check(DEMO[0])


@pytest.mark.large
@pytest.mark.parametrize("lesson", DEMO, ids=lambda lesson: lesson.stem)
def test_every_lesson_begins_its_beats_at_their_stamps(lesson: Path) -> None:
    check(lesson)
