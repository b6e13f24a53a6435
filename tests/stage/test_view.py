"""Whose side the board is seen from: as the lesson says, as the learner chose, or turned."""

from __future__ import annotations

import pytest

from player.stage.advance import advance, begin
from player.stage.happenings import Board
from player.stage.inputs import Did
from player.stage.state import Telling, View
from tests.stage.sheets import sheet_of

BLACK_THEN_WHITE = """\
title: Both Chairs
side: black

part: Here

So {e4}.

part: There
side: white

And {e5}.
"""


def flips(view: View, *given: Did) -> list[bool]:
    """How the board of the beginning and of the second part lies, after these inputs."""
    sheet = sheet_of(BLACK_THEN_WHITE)
    state = begin(sheet, Telling(view=view, at_once=True))
    seen = []
    for one in (Did("start"), *given, Did("go to", "part 2")):
        state, happened = advance(state, one)
        seen += [state.flipped]
        assert all(board.flip == state.flipped for board in happened[-1:] if isinstance(board, Board))
    return [seen[-2], seen[-1]]


@pytest.mark.parametrize(
    ("view", "lies"), [("lesson", [True, False]), ("white", [False, False]), ("black", [True, True])]
)
def test_the_view_holds_or_goes_with_the_lesson(view: View, lies: list[bool]) -> None:
    assert flips(view) == lies
    assert flips(view, Did("turn")) == [not one for one in lies]


@pytest.mark.parametrize("view", ["white", "black"])
def test_a_fixed_view_draws_no_board_anew(view: View) -> None:
    sheet = sheet_of(BLACK_THEN_WHITE)
    state, _ = advance(begin(sheet, Telling(view=view, at_once=True)), Did("start"))
    _, happened = advance(state, Did("go to", "part 2"))
    boards = [one for one in happened if isinstance(one, Board)]
    assert {one.flip for one in boards} == {view == "black"}
