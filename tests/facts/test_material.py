"""Counting men."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.facts.material import VALUES, counts, surplus, value


def test_the_first_position() -> None:
    board = chess.Board()
    assert counts(board, chess.WHITE) == {1: 8, 2: 2, 3: 2, 4: 2, 5: 1, 6: 1}
    assert surplus(board) == {}
    assert value(board, chess.BLACK) == 39


@pytest.mark.parametrize(
    ("fen", "more"),
    [
        ("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1", {chess.PAWN: 1}),
        ("4k2r/8/8/8/8/8/8/B3K3 w - - 0 1", {chess.BISHOP: 1, chess.ROOK: -1}),
        ("8/8/8/8/8/8/8/K7 w - - 0 1", {}),
    ],
)
def test_who_has_more(fen: str, more: dict[int, int]) -> None:
    assert surplus(chess.Board(fen)) == more


@given(
    st.lists(st.tuples(st.integers(0, 63), st.sampled_from(chess.PIECE_TYPES), st.booleans()), max_size=20)
)
def test_surplus_and_value_agree(men: list[tuple[int, int, bool]]) -> None:
    board = chess.Board(None)
    for square, kind, colour in men:
        board.set_piece_at(square, chess.Piece(kind, colour))
    difference = value(board, chess.WHITE) - value(board, chess.BLACK)
    assert sum(VALUES[kind] * number for kind, number in surplus(board).items()) == difference
    assert sum(sum(counts(board, colour).values()) for colour in chess.COLORS) == len(board.piece_map())
