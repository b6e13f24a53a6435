"""Answer sheets written by learners and merged by the coach."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.running import moveteller

LESSON = """title: Small
coach: Ines Calder

So {e4 e5}.

question: White to move. Which knight attacks the pawn?
  reply Nc3: That one guards e4 and leaves e5 alone.

{Nf3}. It hits the pawn on e5.
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "small.lesson").write_text(LESSON, encoding="utf-8")
    return tmp_path


def learner(folder: Path, number: int, typed: str) -> Path:
    home = folder / f"home{number}"
    env = {"MOVETELLER_HOME": str(home)}
    moveteller(folder, "play", "small", "--lines", typed=typed, env=env)
    file = folder / "sheets" / f"s{number}.txt"
    file.parent.mkdir(exist_ok=True)
    assert moveteller(folder, "answers", "small", str(file), "--yes", env=env).code == 0
    return file


def test_a_sheet_is_anonymous_shown_first_and_can_be_struck(folder: Path) -> None:
    moveteller(folder, "play", "small", "--lines", typed="\n\nNc3\nNf3\n\n\n\n")
    ran = moveteller(folder, "answers", "small", typed="4\n\n", terminal=True)
    assert "wrong b1c3, right g1f3" in ran.out
    text = (folder / "small.answers.txt").read_text(encoding="utf-8")
    assert "b1c3" not in text and text.startswith("answer sheet: 1\nlesson: Small\n")
    assert "2026" not in text and str(folder) not in text


def test_no_writes_nothing_and_the_head_stays(folder: Path) -> None:
    moveteller(folder, "play", "small", "--lines", typed="\n\nNc3\nNf3\n\n\n\n")
    ran = moveteller(folder, "answers", "small", typed="1\nrubbish\nno\n", terminal=True)
    assert "have to stay" in ran.out and "by their numbers" in ran.out and "Nothing is written" in ran.out
    assert not (folder / "small.answers.txt").exists()
    assert moveteller(folder, "answers", "small", "--strike", "2", "--yes").code == 2


def test_a_lesson_not_played_has_no_sheet(folder: Path) -> None:
    assert "not played Small yet" in moveteller(folder, "answers", "small", "--yes").out


def test_a_class_is_merged(folder: Path) -> None:
    for number in range(5):
        learner(folder, number, "\n\nBc4\nNf3\n\n\n\n")
    for number in range(5, 7):
        learner(folder, number, "\n\nNf3\n\n\n\n")
    (folder / "sheets" / "broken.txt").write_text("nonsense", encoding="utf-8")
    ran = moveteller(folder, "group", "sheets")
    assert "broken.txt is no answer sheet" in ran.err
    assert "Small: 7 answer sheets." in ran.out
    assert "Right at the first try 2 of 7" in ran.out
    assert "Commonest wrong answer: Bc4, by 5" in ran.out
    drafted = next(line for line in ran.out.splitlines() if line.strip().startswith("reply Bc4:"))
    text = LESSON.replace("  reply Nc3", f"{drafted}\n  reply Nc3")
    (folder / "small.lesson").write_text(text, encoding="utf-8")
    assert moveteller(folder, "check", "small").code == 0
    again = moveteller(folder, "group", "sheets").out
    assert "has changed since" in again and "The script has a reply to it." in again


def test_few_sheets_say_nothing(folder: Path) -> None:
    learner(folder, 1, "\n\nBc4\nNf3\n\n\n\n")
    ran = moveteller(folder, "group", "sheets")
    assert "Nothing is said from fewer than 5." in ran.out and "Bc4" not in ran.out


def test_no_sheet_at_all_is_told(folder: Path) -> None:
    ran = moveteller(folder, "group", "small.lesson", "missing.txt")
    assert ran.code == 2 and "no answer sheet" in ran.err


def test_many_files_that_are_no_sheets_are_counted_after_the_first_ones(folder: Path) -> None:
    (folder / "notes").mkdir()
    for number in range(9):
        (folder / "notes" / f"{number}.txt").write_text("tea at move twelve", encoding="utf-8")
    ran = moveteller(folder, "group", "notes")
    assert ran.code == 2 and ran.err.count("its first line is not") == 3
    assert "6 more cannot be read as answer sheets." in ran.err
