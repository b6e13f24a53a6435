"""Checking from the command line."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from player.cli.lessons import demo_scripts
from tests.check.series_made import ten_short
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


def test_json_is_the_same_with_and_without_what_is_kept(tmp_path: Path) -> None:
    folder = tmp_path / "series"
    folder.mkdir()
    ten_short(folder)
    (folder / "11.lesson").write_text(BAD, encoding="utf-8")
    anew = moveteller(tmp_path, "check", "series", "--json", "--anew")
    cold = moveteller(tmp_path, "check", "series", "--json")
    warm = moveteller(tmp_path, "check", "series", "--json")
    assert anew == cold == warm
    assert warm.code == 1 and warm.out
    assert list((tmp_path / "home" / "cache").iterdir())


def test_a_warm_check_loads_no_chess(tmp_path: Path) -> None:
    folder = tmp_path / "series"
    folder.mkdir()
    ten_short(folder)
    script = (
        "import sys; from player.cli.main import main; sys.argv = ['moveteller', 'check', sys.argv[1]]; "
        "code = main(); print([name for name in ('chess', 'lark', 'rapidfuzz') if name in sys.modules])"
    )
    env = {**os.environ, "MOVETELLER_HOME": str(tmp_path / "home")}
    command = [sys.executable, "-c", script, str(folder)]
    cold, warm = (
        subprocess.run(command, env=env, capture_output=True, text=True, check=True).stdout.splitlines()
        for _ in range(2)
    )
    assert "chess" in cold[-1] and warm[-1] == "[]"
    assert cold[:-1] == warm[:-1]


def test_conflicting_advice_over_several_scripts(tmp_path: Path) -> None:
    ten_short(tmp_path)
    ran = moveteller(tmp_path, "check", "01.lesson", "02.lesson")
    assert ran.code == 0
    assert "the same position stands in 01.lesson, line 6" in ran.out
    assert ran.out.splitlines()[-1].startswith("In 2 lessons: no faults, ")


def test_real_games(tmp_path: Path, golden: Golden) -> None:
    ten_short(tmp_path)
    pgn = "1. Nf3 d5 2. g3 c6 *\n\n1. Nf3 d5 2. g3 c6 3. Bg2 *\n\n1. Nf3 Kxe4 *\n\n1. g3 d5 2. Nf3 Bf5 *\n"
    (tmp_path / "games.pgn").write_text(pgn, encoding="utf-8")
    ran = moveteller(tmp_path, "check", "05.lesson", "--against", "games.pgn")
    assert ran.code == 0
    golden("against.txt", (ran.out + ran.err).replace(str(tmp_path), ""))
    ran = moveteller(tmp_path, "check", "05.lesson", "--json", "--against", "games.pgn")
    found = [json.loads(line) for line in ran.out.splitlines() if '"against"' in line]
    assert found[-1] == {"against": "games.pgn", "games": 4, "skipped": found[-1]["skipped"]}
    assert [one["game"] for one in found[-1]["skipped"]] == [3]
    assert {"move": "c6", "times": 2} in [
        {"move": one["san"], "times": one["times"]} for met in found[:-1] for one in met["untold"]
    ]


def test_games_that_are_not_there(tmp_path: Path) -> None:
    ten_short(tmp_path)
    ran = moveteller(tmp_path, "check", "01.lesson", "--against", "nowhere.pgn")
    assert ran.code == 2
    assert ran.err.endswith("nowhere.pgn is not there.\n")


@pytest.mark.skipif(os.name != "posix", reason="the engine of the test is a script")
@pytest.mark.parametrize("mode", ["good", "crash", "quits"])
def test_an_engine_gives_its_opinion_or_is_told_of_in_a_sentence(tmp_path: Path, mode: str) -> None:
    fake = Path(__file__).parents[1] / "engine" / "fake_uci.py"
    engine = tmp_path / "engine"
    engine.write_text(f'#!/bin/sh\nexec "{sys.executable}" "{fake}" {mode}\n', encoding="utf-8")
    engine.chmod(0o755)
    path = tmp_path / "a.lesson"
    path.write_text(
        "title: T\ncoach: Ines\n\n{e4} {d5}.\n\nquestion: What now?\n  reply exd5: No.\n\n{d3}. So.\n",
        encoding="utf-8",
    )
    without = moveteller(tmp_path, "check", "a.lesson")
    ran = moveteller(tmp_path, "check", "a.lesson", "--engine", str(engine))
    assert ran.code == without.code
    if mode == "good":
        assert "An engine thinks more of exd5" in ran.out and not ran.err
    else:
        assert ran.out == without.out
        assert ran.err.count("\n") == 1 and ran.err.startswith("moveteller: The engine engine ")
    assert moveteller(tmp_path, "check", "a.lesson", "--engine", "none") == without
