"""The endings of the demo series against published results of king and pawn against king.

Sources: key squares, opposition, the square of the pawn, the rook's pawn and the wrong bishop are standard
results of every handbook of the endgame; each value here was checked with Gaviota tablebases when the list
was made. The positions are looked for in the demo lesson as it is told.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import chess
import pytest

from player.cues.compile import compile_lesson
from player.script.follow import follow
from player.script.read import read
from tests.cues.compiled import turns
from tests.facts.claimed import kind

WINS, DRAW = "White wins with best play", "the position is drawn"
LESSON = next((Path(__file__).parent.parent.parent / "demo_lessons").glob("4-*.lesson"))

PUBLISHED = [
    # The square of the pawn: a king on f4 to move steps inside; one on g4 does not.
    ("8/8/8/8/P4k2/8/8/7K b", DRAW, "Ke5 Ke4"),
    ("8/8/8/8/P5k1/8/8/7K b", WINS, ""),
    # Direct opposition with the pawn behind: a mutual zugzwang.
    ("8/4k3/8/4K3/4P3/8/8/8 w", DRAW, ""),
    ("8/4k3/8/4K3/4P3/8/8/8 b", WINS, ""),
    # King on the sixth rank in front of his pawn: won even without the opposition.
    ("4k3/8/4K3/4P3/8/8/8/8 w", WINS, "Kd6 Kf6"),
    # The pawn goes to the seventh without check, or with it.
    ("4k3/8/3KP3/8/8/8/8/8 w", WINS, "e7"),
    ("4k3/8/3KP3/8/8/8/8/8 b", DRAW, "Kd8"),
    ("3k4/8/3KP3/8/8/8/8/8 w", DRAW, ""),
    # The rook's pawn and a king in the corner.
    ("k7/8/K7/P7/8/8/8/8 w", DRAW, ""),
]


@cache
def places() -> dict[str, chess.Board]:
    """Every position of the lesson, asides and imagined ones among them, by its men and its turn."""
    lesson, _ = read(LESSON.read_text(encoding="utf-8"))
    told, _ = follow(lesson)
    found = {}
    for step in compile_lesson(told).steps:
        for place in (step.before, step.after, *(turn.after for turn in turns(step))):
            board = place.board()
            found[" ".join(board.fen().split()[:2])] = board
    return found


@pytest.mark.parametrize(("fen", "result", "only"), PUBLISHED)
def test_the_lesson_tells_the_published_position_and_result(fen: str, result: str, only: str) -> None:
    board = places()[fen]
    assert kind(board, result) == "true"
    if not only:
        return
    keeping = set()
    for move in board.legal_moves:
        after = board.copy()
        after.push(move)
        if not after.pawns & after.occupied_co[chess.WHITE]:
            continue
        if kind(after, result) == "true":
            keeping.add(board.san(move))
    assert keeping == set(only.split())


# Two ranks ahead of a pawn on the second to fourth rank; one and two ranks ahead of one on the fifth.
KEYS_SAID = {"e4": "d6 e6 f6", "d5": "c6 d6 e6 c7 d7 e7"}


@pytest.mark.parametrize(("pawn", "keys"), KEYS_SAID.items())
def test_the_key_squares_that_the_lesson_names_are_the_published_ones(pawn: str, keys: str) -> None:
    script = LESSON.read_text(encoding="utf-8")
    if pawn == "e4":
        assert "{show d6, e6, f6 as keys" in script
    else:
        assert "Six: c6, d6, e6, and behind them c7, d7, e7." in script
    for square in keys.split():
        for turn in "wb":
            board = chess.Board(None)
            board.turn = turn == "w"
            board.set_piece_at(chess.parse_square(pawn), chess.Piece.from_symbol("P"))
            board.set_piece_at(chess.parse_square(square), chess.Piece.from_symbol("K"))
            board.set_piece_at(chess.H1, chess.Piece.from_symbol("k"))
            assert kind(board, WINS) == "true"


def test_the_winning_bishop_is_the_one_that_sees_the_corner() -> None:
    # a8 is a light square: with the dark bishop and the king in the corner it is a draw (the wrong bishop).
    assert chess.BB_LIGHT_SQUARES & chess.BB_A8
    light = next(board for fen, board in places().items() if fen.startswith("1k6/8/K7/P2B4/"))
    dark = next(board for fen, board in places().items() if fen.startswith("1k6/8/K7/P1B5/"))
    assert light.bishops & chess.BB_LIGHT_SQUARES and dark.bishops & chess.BB_DARK_SQUARES
    assert kind("k7/8/1K6/P7/8/8/8/2B5 w - - 0 1", DRAW) == "true"
    assert kind(dark, WINS) != "true"
