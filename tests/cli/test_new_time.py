"""A lesson begun, checked, timed and played, all from the command line."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from player.script.model import Beat
from player.script.read import read
from tests.cli.running import moveteller

SCRIPT = """\
# A comment that stays.
title: Timed
coach: Ines Calder

White begins {Nf3}, Black takes {d5}.

question: White to move. What now?
  nudge: A pawn.
{g3}. And {Nf6}.

aside: If not
  {c4} and so on.

pause: 2s

[9:59] The end of it.
"""


def test_a_new_lesson_checks_clean_and_plays(tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "new", "first-steps")
    path = tmp_path / "first-steps.lesson"
    assert ran.code == 0 and ran.out == f"{path}\n"
    assert len(path.read_text(encoding="utf-8").splitlines()) == 5
    assert moveteller(tmp_path, "check", "first-steps").out.endswith("no faults.\n")
    played = moveteller(tmp_path, "play", "first-steps", "--lines", typed="g3\n\n")
    assert played.code == 0 and "Yes: g3." in played.out


@pytest.mark.parametrize("name", ["{odd} name", "a: b", "dir/sub/deep.lesson", "näme", "question", "x.y"])
def test_any_name_makes_a_clean_lesson(tmp_path: Path, name: str) -> None:
    ran = moveteller(tmp_path, "new", name)
    assert ran.code == 0
    checked = moveteller(tmp_path, "check", ran.out.strip())
    assert checked.code == 0 and ": fault:" not in checked.out


def test_a_lesson_that_is_there_is_not_overwritten(tmp_path: Path) -> None:
    (tmp_path / "mine.lesson").write_text("mine", encoding="utf-8")
    ran = moveteller(tmp_path, "new", "mine")
    assert ran.code == 2 and "there already" in ran.err
    assert (tmp_path / "mine.lesson").read_text(encoding="utf-8") == "mine"


def test_timing_writes_stamps_and_nothing_else(tmp_path: Path) -> None:
    path = tmp_path / "timed.lesson"
    path.write_bytes(SCRIPT.replace("\n", "\r\n").encode())
    ran = moveteller(tmp_path, "time", "timed", "--estimate")
    assert ran.code == 0 and "stamps written" in ran.out
    text = path.read_bytes().decode()
    assert text.count("\r\n") == SCRIPT.count("\n")
    before, after = read(SCRIPT)[0], read(text)[0]
    stamped = [one.stamp_ms for one in after.body if isinstance(one, Beat) and one.stamp_ms is not None]
    assert stamped[0] == 0 and stamped == sorted(set(stamped)) and len(stamped) == 3
    assert stamped[-1] < 120_000, "a stamp that was there is renewed"
    assert re.sub(r"\[\d+:\d\d\.\d{3}\] ", "", text).replace("\r\n", "\n") == SCRIPT.replace("[9:59] ", "")
    assert [type(one) for one in before.body] == [type(one) for one in after.body]
    again = moveteller(tmp_path, "time", "timed", "--estimate")
    assert again.code == 0 and path.read_bytes().decode() == text, "timing twice changes nothing"


def test_a_lesson_with_faults_or_a_recording_is_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "x.lesson"
    for text in ("title: x\n\nSo {Ke4}.\n", "title: x\nrecording: r.wav\n\n[0:01] So {e4}. And {e5}.\n"):
        path.write_text(text, encoding="utf-8")
        ran = moveteller(tmp_path, "time", "x", "--estimate")
        assert ran.code == 2
        assert path.read_text(encoding="utf-8") == text


def test_a_lesson_that_may_not_be_written_stays(tmp_path: Path) -> None:
    path = tmp_path / "x.lesson"
    path.write_text("title: x\n\nSo {e4}. And {e5}.\n", encoding="utf-8")
    path.chmod(0o444)
    if os.access(path, os.W_OK):
        pytest.skip("this user may write everything")
    assert moveteller(tmp_path, "time", "x", "--estimate").code == 2
