"""Where the board goes and what it shows, in words."""

from __future__ import annotations

import chess
import pytest

from player.facts.place import Place
from player.wording import announce

MATE = Place().then("f2f3", "e7e5", "g2g4", "d8h4")


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (Place(), ""),
        (Place().then("g1f3"), "knight to f3"),
        (Place("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1").then("e1c1"), "castling queenside"),
        (Place().then("0000"), "a pass"),
        (Place("4k3/8/8/8/8/8/R7/4K3 w - - 0 1").then("a2a8"), "rook to a8"),
        (Place("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2").then("e5d6"), "e-pawn takes pawn on d6 en passant"),
    ],
)
def test_the_last_move(place: Place, words: str) -> None:
    assert announce.last_move(place) == words


def test_the_state_of_a_game() -> None:
    assert announce.state_of(chess.Board()) == "White to move"
    assert announce.state_of(MATE.board()) == "checkmate"
    assert announce.state_of(chess.Board("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1")) == "stalemate"
    assert announce.state_of(chess.Board("4k3/8/8/8/8/8/4R3/4K3 b - - 0 1")) == "Black to move, in check"
    assert announce.state_of(chess.Board("8/8/8/8/8/8/8/8 b - - 0 1")) == "Black to move"


def test_a_return_says_where() -> None:
    assert announce.returning("aside", "", MATE) == "Back to the lesson, after queen to h4; checkmate."
    assert announce.returning("retell", "instead", Place()) == "Back to the aside; White to move."
    assert announce.returning("aside", "imagine", Place()) == "Back to the imagined position; White to move."
    assert announce.returning("imagine", "aside", Place()) == "The board is as it was; White to move."


@pytest.mark.parametrize(
    ("after", "words"),
    [
        ("4k3/8/8/8/8/8/4P3/4K3 b - - 0 1", "Imagined: Black to move."),
        ("4k3/8/8/8/4P3/8/8/4K3 w - - 0 1", "Imagined: the white pawn from e2 on e4, White to move."),
        ("4k3/8/8/8/8/8/4n3/4K3 w - - 0 1", "Imagined: a black knight on e2, White to move."),
        ("4k3/8/8/8/8/8/8/4K3 w - - 0 1", "Imagined: no pawn on e2, White to move."),
        ("4P3/8/8/8/8/8/8/4K3 w - - 0 1", "Imagined: the white pawn from e2 on e8, White to move."),
    ],
)
def test_an_imagined_position_by_what_differs(after: str, words: str) -> None:
    before = chess.Board("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1")
    assert announce.imagining(before, chess.Board(after)) == words


def test_marks_in_words() -> None:
    assert announce.showing([("square", "e4", "")]) == "Shown: the square e4."
    marks = [("square", "e4", ""), ("square", "d5", ""), ("hit", "d5", "c4"), ("hit", "d5", "e4")]
    assert announce.showing(marks, "plan") == "Shown as plan: the squares e4 and d5; from d5 to c4 and e4."


def test_men_that_hit_the_same_square_are_said_together() -> None:
    marks = [("hit", "d5", "e4"), ("hit", "f6", "e4"), ("line", "g2", "b7")]
    assert announce.showing(marks) == "Shown: the line from g2 to b7; from d5 and f6 to e4."


def test_a_part_says_where_its_title_begins() -> None:
    for language in ("en", "de", "es", "fr"):
        text, start = announce.part_title("Why?", language)
        assert text[start:] == "Why?"
    assert announce.part_title("Doors") == ("Part: Doors.", 6)


def test_the_opening() -> None:
    assert announce.lesson_opening("", "", 100, 0) == "It takes about 1 minute and has no questions."
    assert (
        announce.lesson_opening("Why?", "", 600_000, 2)
        == "Why? It takes about 10 minutes and has 2 questions."
    )
