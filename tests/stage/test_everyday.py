"""Hints, repeats and the like, asked for as people ask in passing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from player.stage.registry import BY_NAME
from player.stage.state import Asked, Frame, State, Telling
from player.stage.understand import understand
from tests.stage.sheets import LESSON, sheet_of


def state() -> State:
    sheet = sheet_of(LESSON)
    step = next(step for step in sheet.steps if step.ask is not None)
    frame = Frame("lesson", sheet.steps, 0, len(sheet.steps), step.before, doing="asked")
    assert step.ask is not None
    return State(sheet, Telling(), (replace(frame, asked=Asked(step.ask)),))


@pytest.mark.parametrize(
    ("words", "verb"),
    [
        ("give me a hint", "nudge"),
        ("Another hint, please?", "nudge"),
        ("I don\u2019t know", "nudge"),
        ("um, no idea", "nudge"),
        ("what's the answer?", "tell me"),
        ("Pardon?", "repeat"),
        ("repeat the question please", "repeat"),
        ("what?", "repeat"),
        ("slower please", "slower"),
        ("a bit faster, please", "faster"),
        ("show me the board", "look"),
        ("how long is left?", "where"),
        ("take that back", "undo"),
        ("hold on a moment", "hold"),
        ("shut up!", "pause"),
        ("how do I quit?", "help"),
    ],
)
def test_what_people_say_in_passing_is_understood(words: str, verb: str) -> None:
    assert understand(state(), words).verb == verb
    assert verb in BY_NAME


@pytest.mark.parametrize("words", ["uh knight to f3 please", "a4", "a4 please", "bishop a4", "no", "a rook"])
def test_an_answer_stays_an_answer(words: str) -> None:
    assert understand(state(), words).verb == "say"


def test_a_choice_of_the_question_comes_first() -> None:
    standing = state()
    asked = standing.frames[0].asked
    assert asked is not None
    choosing = replace(asked, ask=replace(asked.ask, choices=("No idea", "Not sure")))
    offered = replace(standing, frames=(replace(standing.frames[0], asked=choosing),))
    assert understand(offered, "no idea").verb == "say"
    assert understand(standing, "no idea").verb == "nudge"
