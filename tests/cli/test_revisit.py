"""A revisit from the command line."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from tests.cli.running import moveteller

LESSON = """title: Small
coach: Ines Calder

So {e4 e5}.

question: White to move. Which knight attacks the pawn?
  about: development
  reply Nc3: That one guards e4 and leaves e5 alone.

{Nf3}. It hits the pawn on e5.

question: Black to move. Which man guards it?
  about: defence

{Nc6}. Guarded.
"""


@pytest.fixture
def met(tmp_path: Path) -> Path:
    """A folder with a lesson whose two questions were answered, one of them wrongly, long ago."""
    (tmp_path / "small.lesson").write_text(LESSON, encoding="utf-8")
    moveteller(tmp_path, "play", "small", "--lines", typed="\n\nNc3\nNf3\n\n\nNc6\n\n\n")
    long_ago(tmp_path)
    return tmp_path


def record(folder: Path) -> sqlite3.Connection:
    return sqlite3.connect(next(folder.rglob("record.sqlite3")))


def long_ago(folder: Path) -> None:
    with record(folder) as connection:
        connection.execute("UPDATE tries SET at = replace(at, '20', '19')")


def tries(folder: Path) -> list[tuple[str, str, str, int]]:
    return record(folder).execute("SELECT mode, given, grade, number FROM tries ORDER BY id").fetchall()


def test_nothing_waits_for_who_has_met_nothing(tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "revisit", "--lines")
    assert ran.code == 0 and "Nothing waits yet" in ran.out


def test_what_waits_is_asked_and_kept(met: Path) -> None:
    assert len(tries(met)) == 3
    ran = moveteller(met, "revisit", "--lines", typed="Nf3\nNc6\n\nNf3\nNc6\n\nNf3\n\n")
    assert ran.code == 0
    assert "From Small." in ran.out and "Question 2 of 2" in ran.out
    kept = [one for one in tries(met) if one[0] == "revisit"]
    assert len(kept) >= 2 and {one[2] for one in kept} <= {"right", "wrong", "seen"}
    again = moveteller(met, "revisit", "--lines")
    assert "Question" not in again.out and "comes back" in again.out


def test_every_position_is_told_whole_in_lines(met: Path) -> None:
    long_ago(met)
    out = moveteller(met, "revisit", "--lines", "--width", "40", typed="\n" + "tell me\n\n" * 9).out
    assert max(map(len, out.splitlines())) <= 40
    asked = out.replace("\n", " ").split("Question ")[:-1]
    assert asked and all("White: king" in part for part in asked)


def test_one_idea_alone(met: Path) -> None:
    ran = moveteller(met, "revisit", "--lines", "--idea", "Development", typed="Nf3\n\n")
    assert "Question 1 of 1" in ran.out
    ran = moveteller(met, "revisit", "--lines", "--idea", "nonsense")
    assert "Nothing about 'nonsense' waits" in ran.out


def test_going_to_the_lesson_and_back_makes_it_seen(met: Path) -> None:
    typed = "take me to it\nquit\nNf3\n\nquit\n"
    ran = moveteller(met, "revisit", "--lines", "--idea", "development", typed=typed)
    assert ran.out.count("Which knight attacks the pawn?") >= 2
    assert ("revisit", "Nf3", "seen", 1) in tries(met)


def test_a_lesson_that_has_gone_is_told(met: Path) -> None:
    (met / "small.lesson").unlink()
    ran = moveteller(met, "revisit", "--lines")
    assert ran.code == 0 and "small.lesson is not where it was" in ran.err


def test_a_changed_answer_is_a_new_question(met: Path) -> None:
    text = LESSON.replace("{Nf3}. It hits", "{Qh5}. It hits").replace("{Nc6}", "{d6}")
    (met / "small.lesson").write_text(text, encoding="utf-8")
    ran = moveteller(met, "revisit", "--lines")
    assert "has changed" in ran.err and "Question" not in ran.out


def test_edited_prose_loses_nothing(met: Path) -> None:
    text = LESSON.replace("It hits the pawn on e5.", "Now e5 hangs in the air.").replace("So ", "Well, ")
    (met / "small.lesson").write_text(text, encoding="utf-8")
    assert "Question 2 of 2" in moveteller(met, "revisit", "--lines", typed="Nf3\nNc6\n\n\nNf3\nNc6\n\n").out


def test_how_it_went_plans_the_next_time(met: Path) -> None:
    typed = "Nf3\nat once\n\nquit\n"
    out = moveteller(met, "revisit", "--lines", "--idea", "development", typed=typed).out
    assert "at once, with effort, or a guess?" in out
    efforts = record(met).execute("SELECT given, effort FROM tries WHERE mode = 'revisit'").fetchall()
    assert efforts == [("Nf3", "at once")]


def test_how_it_went_may_be_left_open_or_said_strangely(met: Path) -> None:
    typed = "Nf3\nbanana\n\n\nquit\n"
    out = moveteller(met, "revisit", "--lines", "--idea", "development", typed=typed).out
    assert out.count("at once, with effort, or a guess?") == 2
    assert record(met).execute("SELECT effort FROM tries WHERE mode = 'revisit'").fetchall() == [(None,)]


def test_five_minutes_need_no_keys(met: Path) -> None:
    """Hands-free, each question leaves its silence and passes; silence is no wrong answer."""
    ran = moveteller(met, "revisit", "--lines", "--hands-free", "--minutes", "5", "--mute")
    assert ran.code == 0 and "It hits the pawn" in ran.out and "Guarded." in ran.out
    kept = [one for one in tries(met) if one[0] == "revisit"]
    assert {one[2] for one in kept} == {"passed"}


def test_the_shelf_says_what_waits(met: Path) -> None:
    assert "2 questions wait for today. Ask them with: moveteller revisit" in moveteller(met).out
