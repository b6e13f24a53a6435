"""Playing and trying this machine with an engine, good or bad."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from tests.cli.running import moveteller

pytestmark = pytest.mark.skipif(os.name != "posix", reason="the engine of the test is a script")

SCRIPT = "title: T\ncoach: Ines Calder\n\n{Nf3}.\n\n{d5}.\n\nquestion: Which small step?\n\n{g3}. There.\n"


def engine(folder: Path, mode: str) -> Path:
    """An executable file that is the engine of the tests in this mode, on a path of its own."""
    fake = Path(__file__).parents[1] / "engine" / "fake_uci.py"
    path = folder / "bin" / "uci-engine"
    path.parent.mkdir()
    path.write_text(f'#!/bin/sh\nexec "{sys.executable}" "{fake}" {mode}\n', encoding="utf-8")
    path.chmod(0o755)
    return path


@pytest.mark.parametrize("mode", ["good", "crash", "illegal", "quits"])
def test_a_lesson_goes_on_with_any_engine(tmp_path: Path, mode: str) -> None:
    (tmp_path / "t.lesson").write_text(SCRIPT, encoding="utf-8")
    typed = "\n\n\na3\ng3\n\n\n\nquit\n"
    ran = moveteller(
        tmp_path, "play", "t", "--lines", "--fresh", "--engine", str(engine(tmp_path, mode)), typed=typed
    )
    assert ran.code == 0
    assert "Traceback" not in ran.out + ran.err
    assert "Try again, if you like." in ran.out, "the wrong move is answered"
    assert "There." in ran.out, "and the lesson goes on"
    assert (ran.out + ran.err).count("The engine uci-engine") <= 1


def test_ready_names_the_engine_or_its_trouble(tmp_path: Path) -> None:
    path = engine(tmp_path, "good")
    out = moveteller(tmp_path, "ready", env={"PATH": str(path.parent)}).out
    assert f"engine: works. Fake of the reading room, at {path}, may add its opinion." in out
    path.write_text("no program\n", encoding="utf-8")
    out = moveteller(tmp_path, "ready", env={"PATH": str(path.parent)}).out
    assert "engine: does not work. The engine uci-engine " in out and "engine: what to do: " in out
    out = moveteller(tmp_path, "ready", env={"PATH": ""}).out
    assert "engine: does not work. There is none; " in out
