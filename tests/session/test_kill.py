"""A lesson that is killed is taken up on the very step, however and whenever it was killed."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from player.cues.sheet import Sheet
from player.session.journal import Journal
from tests.session.sessions import Playing
from tests.stage.sheets import LESSON, sheet_of

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.skipif(os.name != "posix", reason="kill -9 is a POSIX signal")


def told_and_killed(journal: Path, seed: int, after_s: float) -> list[str]:
    """What a process printed until it was killed, so long after it had opened the lesson."""
    run = subprocess.Popen(
        [sys.executable, "-m", "tests.session.telling", str(journal), str(seed)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert run.stdout is not None
    assert run.stdout.readline() == "open\n"
    lines: list[str] = []
    reading = threading.Thread(target=lambda: lines.extend(run.stdout or ()), daemon=True)
    reading.start()
    time.sleep(after_s)
    run.send_signal(signal.SIGKILL)
    run.wait()
    reading.join()
    return [line.strip() for line in lines]


def kills(folder: Path, count: int) -> None:
    chance = random.Random(count)
    journal = folder / "killed.log"
    sheet = sheet_of(LESSON)
    audible = {step.key for step in sheet.steps if step.say is not None and not step.ear_only}
    last, checked = "", 0
    for number in range(count):
        printed = told_and_killed(journal, number, chance.uniform(0.0, 0.25))
        last = next((one for one in reversed(printed) if one != "open"), last)
        if number % 4 == 3:
            tear(journal, chance)
        kept, damaged = Journal(journal).look()
        assert not damaged, "a kill leaves at most one line cut short"
        copy = folder / "copy.log"
        copy.write_bytes(journal.read_bytes())
        taken_up = Playing(journal=copy)
        step = taken_up.step
        taken_up.session.close()
        if kept is None or kept.over or last in ("over", ""):
            continue
        checked += 1
        # The journal names the step before anybody is told of it; the steps between are those that are
        # told without a word, and came with it.
        assert not between(sheet, kept.reached, step) & audible
        if number % 4 != 3:
            assert not between(sheet, last, step) & audible, (last, step)
    assert checked > count // 2


def between(sheet: Sheet, first: str, last: str) -> set[str]:
    """The steps after the first and before the last; the whole lesson where they stand the other way."""
    one, two = sheet.index(first), sheet.index(last)
    assert one is not None and two is not None
    return {step.key for step in (sheet.steps[one + 1 : two] if one <= two else sheet.steps)}


def tear(journal: Path, chance: random.Random) -> None:
    """Cut the last line short, as a kill in the middle of its write does."""
    data = journal.read_bytes()
    start = data[:-1].rfind(b"\n") + 1
    if start:
        journal.write_bytes(data[: chance.randrange(start, len(data))])


def test_kills_at_any_moment(tmp_path: Path) -> None:
    kills(tmp_path, 12)


@pytest.mark.large
def test_many_kills_at_any_moment(tmp_path: Path) -> None:
    kills(tmp_path, 200)
