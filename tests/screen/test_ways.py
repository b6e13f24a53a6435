"""What stands round the board in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from player.facts.place import Place
from player.screen.ways import captions, doing, last_move, material, ways, where
from player.script.told import Mark, Shown
from player.stage.advance import advance, begin
from player.stage.inputs import Did, Finished
from player.stage.state import State, Telling
from player.wording.pace import clock
from tests.screen.playing import LESSON
from tests.stage.sheets import sheet_of

MATE = Place().then("f2f3", "e7e5", "g2g4", "d8h4")


def lesson(telling: Telling | None = None) -> State:
    return begin(sheet_of(LESSON), telling or Telling(voice=False))


def at_question() -> State:
    state = advance(lesson(Telling(at_once=True)), Did("start"))[0]
    for _ in range(100):
        if state.top.doing == "asked":
            return state
        state = advance(state, Finished(state.top.saying, 1))[0]
    raise AssertionError("no question came")


@pytest.mark.parametrize(
    ("place", "said"),
    [
        (Place(), "Material is equal"),
        (Place("4k3/8/8/8/8/8/8/R3K3 w - - 0 1"), "White has a rook more"),
        (Place("4k3/pp6/8/8/8/8/8/4KN2 w - - 0 1"), "White has a knight more, Black has two pawns more"),
        (Place("4k3/qr6/8/8/8/8/8/4K3 w - - 0 1"), "Black has a queen and a rook more"),
    ],
)
def test_material_is_said_in_words(place: Place, said: str) -> None:
    assert material(place) == said


def test_the_last_move_has_its_number() -> None:
    assert last_move(Place()) == ""
    assert last_move(Place().then("e2e4")) == "1. e4"
    assert last_move(MATE) == "2... Qh4#"
    assert last_move(Place().then("0000")) == ""


def test_captions_begin_with_who_moves() -> None:
    assert captions(MATE, Shown(()))[0] == "Checkmate. Last: 2... Qh4#."
    marks = Shown((Mark("square", "e4"),), "seat")
    assert captions(Place(), marks) == [
        "White to move.",
        "Material is equal.",
        "Seat: the square e4.",
    ]
    assert " ".join(captions(Place(), Shown(()), brief=True)) == "White to move. Equal."


def test_impossible_boards_are_told_too() -> None:
    empty = Place("8/8/8/8/8/8/8/8 w - - 0 1")
    assert captions(empty, Shown(())) == ["White to move.", "Material is equal."]


def test_what_goes_on_is_one_short_line() -> None:
    state = lesson()
    assert doing(state) == "telling 1.0x"
    assert doing(replace(state, telling=Telling(speed=1.25))) == "telling 1.25x"
    assert doing(at_question()) == "White to move: your move?"
    held = advance(at_question(), Did("pause"))[0]
    assert doing(held) == "paused: Enter goes on"


def test_where_names_the_time_and_the_part() -> None:
    said = where(at_question())
    assert said.endswith("|  By the window")
    assert " of " in said


@pytest.mark.parametrize("lines", range(9))
def test_the_ways_on_take_no_more_lines_than_there_are(lines: int) -> None:
    said = ways(at_question(), lines)
    assert len(said) <= lines
    if lines >= 3:
        assert any(one.startswith("aside 1, ") and one.endswith(": If Black comes nearer") for one in said)
        assert "part 2: The other side" in said


def test_times_are_minutes_and_seconds() -> None:
    assert [clock(ms) for ms in (0, 59_600, 200_000, 3_725_000)] == ["0:00", "1:00", "3:20", "1:02:05"]
