"""Leaving the screen by every door: the terminal is given back, one line is said, and the place is kept."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.ends.evening import home_in
from tests.ends.terminal import Terminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
pytest.importorskip("pexpect")
pytest.importorskip("pyte")

Start = Callable[..., Terminal]
KEPT = "Goodbye. The lesson keeps your place."


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    runs = []

    def run(*arguments: str, **more: Any) -> Terminal:
        runs.append(Terminal(*arguments, folder=tmp_path, **more))
        return runs[-1]

    yield run
    for one in runs:
        one.close()


def plain(text: str) -> str:
    """Words without the sequences that put a terminal's ways back."""
    import re

    return re.sub(r"\x1b\[[<>?0-9;]*[a-zA-Z]", "", text).strip()


def larger(*doors: str | int) -> list[Any]:
    """Doors that lead through what others lead through already: tried in a larger run."""
    return [pytest.param(door, marks=pytest.mark.large) for door in doors]


@pytest.mark.parametrize(
    "door", ["\x03", "quit\r", signal.SIGTERM, *larger("\x11", signal.SIGHUP, signal.SIGINT)]
)
def test_a_lesson_is_left_in_order(tmp_path: Path, start: Start, door: str | int) -> None:
    home_in(tmp_path)
    run = start("play", "gate.lesson")
    run.sees("White begins Nf3")
    if isinstance(door, str):
        run.presses(door)
    else:
        os.kill(run.pid, door)
    assert run.ends() == 0
    assert plain(run.afterwards) == KEPT
    assert b"\x1b[?1000l" in run.raw.rpartition(b"\x1b[?1000h")[2]  # the mouse is the shell's again


def test_ctrl_c_says_nothing_of_its_own_while_a_page_is_read(tmp_path: Path, start: Start) -> None:
    home_in(tmp_path)
    run = start("play", "gate.lesson")
    run.sees("White begins Nf3")
    run.presses("\x1bOP")  # F1
    run.until(lambda one: "What you can say here" in " ".join(one.display), "the help")
    run.presses("\x03")
    run.sees("White begins Nf3")
    run.presses("\x03")
    assert run.ends() == 0
    assert plain(run.afterwards) == KEPT


@pytest.mark.parametrize("door", ["\x03", *larger("\x1b", signal.SIGTERM)])
def test_the_shelf_is_left_without_a_word(start: Start, door: str | int) -> None:
    run = start()
    run.until(lambda one: "Which lesson shall it be?" in " ".join(one.display), "the shelf")
    if isinstance(door, str):
        run.presses(door)
    else:
        os.kill(run.pid, door)
    assert run.ends() == 0
    assert plain(run.afterwards) == ""


def test_enter_leads_from_one_lesson_to_the_next(tmp_path: Path, start: Start) -> None:
    home_in(tmp_path)
    for number, title in enumerate(("Gate", "Garden"), 1):
        text = f"title: {title}\nseries: Club, {number} of 2\n\nThe {title.lower()}. So {{e4}}.\n"
        (tmp_path / f"{number}.lesson").write_text(text, encoding="utf-8")
    run = start("play", "1")
    run.sees("Enter goes on with the next one, Garden.")
    run.stands("the lesson is told: Enter")
    run.types("")
    run.sees("The garden.", "Type quit to leave")
    run.presses("\x03")
    assert run.ends() == 0
    assert plain(run.afterwards) == "Goodbye."
