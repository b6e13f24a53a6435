"""Checking from the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from player.cli.lessons import demo_scripts
from tests.cli.running import moveteller
from tests.golden import Golden

BAD = """\
title: A slip
coach: Ines Calder

White begins {Nf3}, Black takes {d5}, and now {Bg2}.

question: What now?
  nudge: Look around.

And {nonsense here}.
"""


@pytest.fixture
def bad(tmp_path: Path) -> Path:
    path = tmp_path / "bad.lesson"
    path.write_text(BAD, encoding="utf-8")
    return path


def test_faults_point_at_their_place(bad: Path, tmp_path: Path, golden: Golden) -> None:
    ran = moveteller(tmp_path, "check", "bad")
    assert ran.code == 1
    golden("faults.txt", ran.out.replace(str(tmp_path), ""))


def test_as_json_there_is_one_object_a_fault(bad: Path, tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "check", "bad", "--json")
    found = [json.loads(line) for line in ran.out.splitlines()]
    assert ran.code == 1
    assert {"lesson", "line", "column", "width", "severity", "code", "message", "fix"} == set(found[0])
    (first,) = [one for one in found if one["severity"] == "fault"]
    assert first["line"] == 4
    assert BAD.splitlines()[3][first["column"] - 1 :].startswith(("{Bg2}", "Bg2"))


def test_the_worst_of_several_decides(bad: Path, tmp_path: Path) -> None:
    good = tmp_path / "good.lesson"
    good.write_text("title: x\n\nSo {e4}. And {e5}.\n", encoding="utf-8")
    assert moveteller(tmp_path, "check", "good").code == 0
    assert moveteller(tmp_path, "check", "good", "bad").code == 1
    ran = moveteller(tmp_path, "check", "bad", "nowhere", "good")
    assert ran.code == 2
    assert "good.lesson: no faults" in ran.out, "the others are checked all the same"


def test_the_demo_lessons_have_no_fault(tmp_path: Path) -> None:
    for path in demo_scripts():
        ran = moveteller(tmp_path, "check", str(path))
        assert ran.code == 0, ran.out
