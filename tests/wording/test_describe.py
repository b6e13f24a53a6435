"""A position in words: short enough to be said, complete where it must be, true of boards without kings
too.
"""

from __future__ import annotations

import re

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.wording.describe import Depth, changed, describe, examine, where
from player.wording.languages import codes
from player.wording.say import Naming
from tests.wording.positions import positions

NO_KINGS = chess.Board("8/8/3n4/8/4P3/8/1R6/8 w - - 0 1")
EMPTY = chess.Board(None)


def _boards() -> list[chess.Board]:
    return [
        chess.Board(),
        NO_KINGS,
        EMPTY,
        chess.Board("QQQQ4/8/8/8/8/8/8/qqrrbbnn w - - 0 1"),
        *positions(40, 17),
    ]


def test_the_gist_is_at_most_twenty_words() -> None:
    for board in _boards():
        gist = describe(board, "gist")
        assert 3 <= len(gist.split()) <= 20, gist


@pytest.mark.parametrize(
    ("fen", "gist"),
    [
        (chess.STARTING_FEN, "White to move. Material is equal, 32 men. Kings e1 and e8."),
        ("4k3/8/8/8/8/8/4P3/4K3 b - - 0 1", "Black to move. White is up a pawn. Kings e1 and e8."),
        ("4k2r/8/8/8/8/8/8/B3K3 w - - 0 1",
         "White to move. Black has a rook for a bishop. Kings e1 and e8."),
        ("4k3/4r3/8/8/8/8/8/4K3 w - - 0 1", "White to move, in check. Black is up a rook. Kings e1 and e8."),
        ("6kR/6pp/8/8/8/8/8/K7 b - - 0 1",
         "Black to move, in check. White has a rook for two pawns. Kings a1 and g8."),
        ("6rk/5Npp/8/8/8/8/8/K7 b - - 0 1",
         "Checkmate; White has won. Black has a rook and two pawns for a knight."
         " Kings a1 and h8."),
        ("8/8/8/8/8/5k2/5p2/5K2 w - - 0 1", "White is stalemated. Black is up a pawn. Kings f1 and f3."),
        ("8/8/3n4/8/4P3/8/1R6/8 w - - 0 1",
         "White to move. White has a rook and a pawn for a knight. No kings."),
        ("8/8/8/8/8/8/8/8 w - - 0 1", "White to move. The board is empty. No kings."),
    ],
)  # fmt: skip
def test_the_gist(fen: str, gist: str) -> None:
    assert describe(chess.Board(fen), "gist") == gist


@pytest.mark.parametrize("naming", ["letters", "fide", "alphabet"])
def test_every_man_is_named_king_first_and_within_thirty_seconds(naming: Naming) -> None:
    for board in _boards():
        text = describe(board, "pieces", naming=naming)
        for colour, side in ((chess.WHITE, "White"), (chess.BLACK, "Black")):
            part = re.search(rf"{side}: (.*?)\.", text)
            men = chess.SquareSet(board.occupied_co[colour])
            if naming == "letters":
                named = set(re.findall(r"\b[a-h][1-8]\b", part.group(1))) if part else set()
                assert named == {chess.square_name(square) for square in men}
            if board.king(colour) is not None:
                assert part and part.group(1).startswith("king ")
        # 175 words a minute for half a minute is 87 words, a square counted as two.
        spoken = re.sub(r"\b([a-h])([1-8])\b", r"\1 \2", text)
        assert len(spoken.split()) <= 87, text


def test_the_start_position_man_by_man() -> None:
    assert describe(chess.Board(), "pieces").startswith(
        "White: king e1; queen d1; rooks a1, h1; bishops c1, f1; knights b1, g1; pawns a2, b2,"
    )


@pytest.mark.parametrize(
    ("depth", "about", "text"),
    [
        ("square", "f3", "f3, a light square, is empty."),
        ("square", "around g1", "On g1, a dark square, stands a white knight."),
        ("square", "e four", "e4, a light square, is empty."),
        ("square", "", "Name a square, such as f3."),
        ("square", "z9", "Name a square, such as f3."),
        ("line", "the e-file", "From e1 to e8: white king e1, white pawn e2, black pawn e7, black king e8."),
        ("line", "e file", "From e1 to e8: white king e1, white pawn e2, black pawn e7, black king e8."),
        ("line", "rank 4", "From a4 to h4 the line is empty."),
        ("line", "the fourth rank", "From a4 to h4 the line is empty."),
        ("line", "g2-b7", "From g2 to b7: white pawn g2, black pawn b7."),
        ("line", "from b7 to g2", "From b7 to g2: black pawn b7, white pawn g2."),
        ("line",
         "the long light diagonal",
         "From h1 to a8: white rook h1, white pawn g2, black pawn b7, black rook a8."),
        ("line", "a1 b3", "Name a line, such as the e-file, rank 4, or g2 to b7."),
        ("line", "nothing", "Name a line, such as the e-file, rank 4, or g2 to b7."),
        ("around",
         "a1", "On a1, a dark square, stands a white rook. Next to it: white pawn a2, white pawn b2,"
         " white knight b1."),
        ("around", "e5", "e5, a dark square, is empty. All the squares next to it are empty."),
        ("around",
         "f3", "f3, a light square, is empty. Next to it: white pawn g2, white pawn f2, white pawn e2."
         " Empty: f4, g4, g3, e3, e4."),
    ],
)  # fmt: skip
def test_a_square_its_surroundings_and_a_line(depth: Depth, about: str, text: str) -> None:
    assert describe(chess.Board(), depth, about=about) == text


@pytest.mark.parametrize(
    ("fen", "square", "text"),
    [
        (chess.STARTING_FEN, "g1",
         "The white knight stands on g1. Nothing attacks it. It is guarded by the rook on h1."
         " It can go to f3 and h3."),
        (chess.STARTING_FEN, "d8",
         "The black queen stands on d8. Nothing attacks it. It is guarded by the king on e8."
         " With the move it would have no way to go."),
        (chess.STARTING_FEN, "e4", "Nobody stands on e4. Nothing attacks it."),
        (chess.STARTING_FEN, "f3",
         "Nobody stands on f3. White attacks it with the knight on g1, the pawn on e2 and"
         " the pawn on g2."),
        ("4k3/8/8/8/1b6/2N5/8/4K3 w - - 0 1", "c3",
         "The white knight stands on c3. It is attacked by the bishop on b4. Nothing guards it."
         " It is pinned to the king and cannot move."),
        ("4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "a1",
         "The white rook stands on a1. Nothing attacks it. Nothing guards it. It can go to b1, c1, d1,"
         " a2, a3, a4,"
         " a5, a6, a7 and a8."),
        ("8/8/3n4/8/4P3/8/1R6/8 w - - 0 1", "e4",
         "The white pawn stands on e4. It is attacked by the knight on d6. Nothing guards it."),
        ("4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "e4",
         "The white pawn stands on e4. It is attacked by the pawn on d5. Nothing guards it. It can take"
         " on d5 and go to e5."),
    ],
)  # fmt: skip
def test_examining_a_square(fen: str, square: str, text: str) -> None:
    assert examine(chess.Board(fen), chess.parse_square(square)) == text


@pytest.mark.parametrize(
    ("fen", "said", "text"),
    [
        (chess.STARTING_FEN, "where are the knights?",
         "White's knights are on b1 and g1. Black's knights are on b8 and g8."),
        (chess.STARTING_FEN, "where is the white queen", "White's queen is on d1."),
        (chess.STARTING_FEN, "where's my king?", "White's king is on e1."),
        (chess.STARTING_FEN, "the black rooks", "Black's rooks are on a8 and h8."),
        (chess.STARTING_FEN, "where are black's bishops", "Black's bishops are on c8 and f8."),
        ("4k3/8/8/8/8/8/8/4K3 w - - 0 1", "where are the queens", "White has no queen. Black has no queen."),
        (chess.STARTING_FEN, "where am I", "Name a kind of man, such as the knights or the white queen."),
    ],
)  # fmt: skip
def test_where_men_are(fen: str, said: str, text: str) -> None:
    assert where(chess.Board(fen), said) == text


@pytest.mark.parametrize(
    ("before", "after", "text"),
    [
        (chess.STARTING_FEN, chess.STARTING_FEN, "Nothing has changed."),
        (chess.STARTING_FEN, "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1",
         "White's pawn went from e2 to e4. Black is to move."),
        ("4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "4k3/8/8/3P4/8/8/8/4K3 b - - 0 1",
         "White's pawn took the pawn on d5, coming from e4. Black is to move."),
        ("4k3/8/8/8/8/8/8/R3K3 w Q - 0 1", "4k3/8/8/8/8/8/8/2KR4 b - - 0 1",
         "White castled queenside. Black is to move."),
        ("8/3P4/8/8/8/8/k7/2K5 w - - 0 1", "3Q4/8/8/8/8/8/k7/2K5 b - - 0 1",
         "White's pawn went from d7 to d8 and became a queen. Black is to move."),
        ("8/8/8/2k5/3Pp3/8/8/4K3 b - d3 0 1", "8/8/8/2k5/8/3p4/8/4K3 w - - 0 2",
         "Black's pawn took the pawn on d4 en passant, going from e4 to d3. White is to move."),
        (chess.STARTING_FEN, "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKB1R w KQkq - 0 1",
         "White's knight on g1 is gone."),
        ("8/8/8/8/8/8/8/8 w - - 0 1", "8/8/8/8/3k4/8/8/8 w - - 0 1", "Black's king has come to d4."),
        ("4k3/8/8/8/8/8/8/R3K3 w Q - 0 1",
         "4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "White may no longer castle queenside."),
    ],
)  # fmt: skip
def test_what_has_changed(before: str, after: str, text: str) -> None:
    assert changed(chess.Board(before), chess.Board(after)) == text


@given(st.sampled_from(positions(12, 23)), st.sampled_from(positions(12, 24)))
def test_any_change_can_be_told(before: chess.Board, after: chess.Board) -> None:
    text = changed(before, after)
    assert text.endswith(".")
    assert ("Nothing has changed" in text) == (before.fen().split()[:3] == after.fen().split()[:3])


@pytest.mark.parametrize("code", codes())
def test_every_language_describes(code: str) -> None:
    assert "e1" in describe(chess.Board(), "pieces", language=code)
    assert describe(chess.Board(), "square", about="e4", language=code).startswith("e4")


@pytest.mark.parametrize(
    "fen", [chess.STARTING_FEN, "8/3k4/8/4K3/4P3/8/8/8 w - - 0 1", "8/8/8/8/8/8/8/8 w - - 0 1"]
)
def test_the_whole_says_nothing_twice(fen: str) -> None:
    said = describe(chess.Board(fen), "whole")
    assert said.endswith(describe(chess.Board(fen), "pieces"))
    assert said.count("to move") <= 1 and "Kings" not in said
