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
        if kept is None or kept.over or last in ("over", ""):
            continue
        checked += 1
        # What was printed last is the step, unless the kill came between the journal's line and the print.
        assert kept.reached == taken_up.step or taken_up.step not in audible or kept.over
        since = [
            line.partition(b'["reached","')[2][:-3].decode() for line in journal.read_bytes().splitlines(True)
        ]
        steps = [key for key in since if key]
        if number % 4 != 3:
            assert last in steps[-6:], "no step is lost that the learner has been told"
            following = steps[len(steps) - 1 - steps[::-1].index(last) + 1 :]
            assert not [key for key in following[:-1] if key in audible]
    assert checked > count // 2


def tear(journal: Path, chance: random.Random) -> None:
    """Cut the last line short, as a kill in the middle of its write does."""
    data = journal.read_bytes()
    start = data[:-1].rfind(b"\n") + 1
    if start:
        journal.write_bytes(data[: chance.randrange(start, len(data))])


def test_kills_at_any_moment(tmp_path: Path) -> None:
    kills(tmp_path, 25)


@pytest.mark.large
def test_many_kills_at_any_moment(tmp_path: Path) -> None:
    kills(tmp_path, 200)
