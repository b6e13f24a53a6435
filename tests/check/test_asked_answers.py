"""Answers of the coach held against the board, and answers that the board gives itself."""

from __future__ import annotations

from player.script.faults import Fault
from player.script.follow import follow
from player.script.read import read
from player.script.told import ToldQuestion
from tests.check.checking import faults_of

HEAD = "script: 1\ntitle: Pins\ncoach: Ines Calder\n\n{e4} {e5} {Nf3} {Nc6} {Bb5} {d6}.\n\n"


def checked(block: str) -> tuple[tuple[Fault, ...], tuple[str, ...]]:
    source = f"{HEAD}question: {block}\n\nGood.\n"
    lesson, _ = read(source)
    told, _ = follow(lesson)
    asked = next((one for one in told.body if isinstance(one, ToldQuestion)), None)
    return faults_of(source), asked.answers if asked else ()


def test_the_board_answers_where_the_coach_does_not() -> None:
    faults, answers = checked("White to move. What is pinned?\n  ask: square")
    assert answers == ("c6",) and not faults
    faults, answers = checked("How many legal moves has the bishop on b5?\n  ask: count")
    assert answers == ("7",) and not faults


def test_an_answer_against_the_board_is_a_query_with_the_board_s_own() -> None:
    faults, answers = checked("What is pinned?\n  ask: square\n  answer: f3")
    assert answers == ("f3",)
    assert [(f.code, f.severity, f.fix) for f in faults] == [("answer-against-board", "query", "answer: c6")]
    assert faults[0].line == 9


def test_a_question_the_board_cannot_answer_is_the_coach_s() -> None:
    faults, answers = checked("Where does the knight dream of going?\n  ask: square\n  answer: d5")
    assert answers == ("d5",) and not faults
    faults, _ = checked("Where does the knight dream of going?\n  ask: square")
    assert [f.code for f in faults] == ["no-answer"]
