"""Testing oneself: a lesson's questions alone, any game, and a model game that fades."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from tests.cli.running import moveteller

PGN = """[White "Ann {Example}"]
[Black "?"]
[Result "1-0"]

1. e4 e5 (1... c5 2. Nf3) 2. Qh5 {a comment} Nc6 3. Bc4 Nf6 4. Qxf7# 1-0

[White "Second"]
[SetUp "1"]
[FEN "4k3/8/8/8/8/8/4P3/4K3 b - - 0 1"]

1... Kd7 2. e4 *
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "g.pgn").write_text(PGN, encoding="utf-8")
    return tmp_path


def rows(folder: Path, query: str) -> list[tuple[object, ...]]:
    return sqlite3.connect(next(folder.rglob("record.sqlite3"))).execute(query).fetchall()


def test_every_move_of_one_side_is_asked_and_truly_answered(folder: Path) -> None:
    typed = "e4\n\nQh5\n\nNf3\nBc4\n\n\nQxf7\n\n\nquit\n"
    ran = moveteller(folder, "selftest", "--game", "g.pgn", "--lines", typed=typed)
    assert ran.code == 0 and "Ann Example against Black" in ran.out
    assert "Question 4 of 4" in ran.out and "White won." in ran.out
    assert "Yes, at the second try: Bc4." in ran.out
    assert "Board: " in ran.out.split("> Nf3")[1].split("> Bc4")[0]
    kept = rows(folder, "SELECT mode, grade, number FROM tries ORDER BY id")
    assert ("self-test", "wrong", 1) in kept and ("self-test", "right", 2) in kept


def test_a_games_questions_do_not_come_back_on_later_days(folder: Path) -> None:
    moveteller(folder, "selftest", "--game", "g.pgn", "--lines", typed="d4\ne4\n\nquit\n")
    with sqlite3.connect(next(folder.rglob("record.sqlite3"))) as record:
        record.execute("UPDATE tries SET at = '2001-01-01T00:00:00.000+00:00'")
    assert "Nothing waits" in moveteller(folder, "revisit", "--lines").out


def test_the_other_side_and_another_game(folder: Path) -> None:
    out = moveteller(folder, "selftest", "--game", "g.pgn", "--side", "black", "--lines").out
    assert "What does Black play?" in out and "has 3 questions" in out
    out = moveteller(folder, "selftest", "--game", "g.pgn", "--number", "2", "--side", "both", "--lines").out
    assert "has 2 questions" in out and "What does Black play?" in out


def test_a_lessons_questions_without_its_telling(folder: Path) -> None:
    out = moveteller(folder, "selftest", "1", "--lines", typed="O-O\n\nquit\n").out
    assert "Question 1 of 8" in out and "Good evening" not in out
    assert rows(folder, "SELECT mode, grade FROM tries") == [("self-test", "right")]


def test_tell_me_gives_the_answer_and_the_coach_s_next_words(folder: Path) -> None:
    out = moveteller(folder, "selftest", "1", "--lines", typed="tell me\nquit\n").out
    before, _, after = out.partition("> tell me\n")
    assert "White: king e1" in before  # the whole position, for who cannot see it
    assert "The answer is O-O." in after and "Ines: We castle" in after


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ([], "Name a lesson, or a game"),
        (["1", "--game", "g.pgn"], "one of them"),
        (["--game", "none.pgn"], "not there"),
        (["--game", "g.pgn", "--number", "9"], "no game number 9"),
        (["--game", "empty.pgn"], "no game number 1"),
        (["--game", "rubbish.pgn"], "no moves"),
    ],
)
def test_what_cannot_be_asked_is_told(folder: Path, arguments: list[str], told: str) -> None:
    (folder / "empty.pgn").write_text("", encoding="utf-8")
    (folder / "rubbish.pgn").write_text('[Event "x"]\n\nno moves here\n', encoding="utf-8")
    ran = moveteller(folder, "selftest", *arguments, "--lines")
    assert ran.code == 2 and told in ran.err


def test_a_model_game_asks_more_every_time(folder: Path) -> None:
    first = moveteller(folder, "play", "3", "--fade", "auto", "--lines")
    assert "No move of the game will be asked" in first.err
    moveteller(folder, "play", "3", "--at-once", "--fresh")
    second = moveteller(folder, "play", "3", "--fade", "auto", "--lines")
    assert "One move of the game will be asked" in second.err
    whole = moveteller(folder, "play", "3", "--fade", "all", "--lines").err
    assert int(whole.removeprefix("Lesson: ").split()[0]) >= 10
    refused = moveteller(folder, "play", "4", "--fade", "all", "--lines")
    assert refused.code in (0, 2)


def test_each_step_of_the_fading_keeps_a_place_of_its_own(folder: Path) -> None:
    moveteller(folder, "play", "3", "--lines", typed="\n\n\n")
    faded = moveteller(folder, "play", "3", "--fade", "all", "--lines", typed="\n\n")
    assert "script has changed" not in faded.out and "goes on where you stopped" not in faded.out
    assert "goes on where you stopped" in moveteller(folder, "play", "3", "--lines").out
