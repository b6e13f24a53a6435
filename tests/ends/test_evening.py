"""The same evening on the screen and line by line, in processes of their own, past a kill and to the end."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import pytest

from tests.ends.evening import AFTER, BEFORE, LESSON, Evening, in_lines, on_the_screen, standing
from tests.stage.sheets import sheet_of

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
pytest.importorskip("pexpect")
pytest.importorskip("pyte")


@pytest.fixture(scope="module")
def screen(tmp_path_factory: pytest.TempPathFactory) -> Evening:
    return on_the_screen(tmp_path_factory.mktemp("screen"))


@pytest.fixture(scope="module")
def lines(tmp_path_factory: pytest.TempPathFactory) -> Evening:
    return in_lines(tmp_path_factory.mktemp("lines"))


def test_a_screen_is_played_to_the_end_of_the_lesson(screen: Evening) -> None:
    tries = [(one["grade"], one["meant"]) for one in screen.before + screen.after if one["kind"] == "attempt"]
    assert tries == [
        ("wrong", "c2c4"),
        ("wrong", "e2e3"),
        ("wrong", "b1d2"),
        ("right", "g2g3"),
        ("wrong", "a2a3"),
        ("told", ""),
        ("right", "e8g8"),
    ]
    assert [one["kind"] for one in screen.after[-2:]] == ["over", "quit"]
    assert screen.state.over


def test_a_killed_screen_goes_on_at_the_very_step(screen: Evening) -> None:
    sheet = sheet_of(LESSON)
    step = sheet.steps[sheet.questions[1]]
    assert screen.reached == step.key
    first = screen.after[:3]
    assert [one["kind"] for one in first] == ["board", "note", "put"]
    assert "Back at the question" in first[1]["text"]
    assert first[2]["ask"] == (step.ask.key if step.ask is not None else "")
    assert first[0]["fen"] == step.before.fen
    assert not any(one["kind"] == "reached" and one["step"] == step.key for one in screen.after)


def test_both_skins_have_the_same_happen(screen: Evening, lines: Evening) -> None:
    assert screen.before == lines.before
    assert screen.after == lines.after
    assert screen.reached == lines.reached


def test_both_journals_lead_to_the_same_state(screen: Evening, lines: Evening) -> None:
    assert standing(screen.state) == standing(lines.state)


@pytest.mark.large
def test_another_word_typed_is_another_evening(lines: Evening, tmp_path: Path) -> None:
    """That the comparison can fail: one wrong try is another one, and one aside is heard to its end."""
    tried = [replace(turn, typed="a4" if turn.typed == "a3" else turn.typed) for turn in BEFORE]
    heard = [turn for turn in AFTER if turn.typed != "skip"]
    other = in_lines(tmp_path, tried, heard)
    assert other.before != lines.before
    assert other.after != lines.after
    assert other.reached == lines.reached
