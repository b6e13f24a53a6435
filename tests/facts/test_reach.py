"""How men move, against what python-chess makes of the same board."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.facts.reach import attack_step, path, shape_reaches


@given(
    st.sampled_from(chess.PIECE_TYPES),
    st.booleans(),
    st.integers(0, 63),
    st.integers(0, 63),
)
def test_on_an_empty_board_every_shape_but_a_pawns_is_an_attack(
    kind: int, colour: bool, origin: int, target: int
) -> None:
    board = chess.Board(None)
    board.set_piece_at(origin, chess.Piece(kind, colour))
    if kind == chess.PAWN:
        ahead = 8 if colour else -8
        first = origin >> 3 == (1 if colour else 6)
        straight = {origin + ahead} | ({origin + 2 * ahead} if first else set())
        assert shape_reaches(board, origin, target) == (target in board.attacks(origin) or target in straight)
    else:
        assert shape_reaches(board, origin, target) == (target in board.attacks(origin))


@given(
    st.lists(st.tuples(st.integers(0, 63), st.sampled_from(chess.PIECE_TYPES), st.booleans()), max_size=14)
)
def test_a_clear_path_of_the_right_shape_is_a_pseudo_legal_move(men: list[tuple[int, int, bool]]) -> None:
    board = chess.Board(None)
    for square, kind, colour in men:
        if kind != chess.PAWN or square >> 3 not in (0, 7):
            board.set_piece_at(square, chess.Piece(kind, colour))
    for origin in chess.SquareSet(board.occupied_co[chess.WHITE]):
        for target in chess.SquareSet(~board.occupied_co[chess.WHITE]):
            pawn = board.piece_type_at(origin) == chess.PAWN
            aslant = pawn and origin & 7 != target & 7
            clear = all(board.piece_at(square) is None for square in path(board, origin, target))
            free = (
                shape_reaches(board, origin, target)
                and clear
                and (not aslant or board.piece_at(target) is not None)
            )
            promotion = chess.QUEEN if pawn and target >> 3 == 7 else None
            assert free == board.is_pseudo_legal(chess.Move(origin, target, promotion))


def test_the_path_goes_from_the_origin_on() -> None:
    board = chess.Board("4k3/8/8/8/8/8/4P3/R3K3 w - - 0 1")
    assert [chess.square_name(s) for s in path(board, chess.A1, chess.D1)] == ["b1", "c1"]
    assert [chess.square_name(s) for s in path(board, chess.E2, chess.E4)] == ["e3", "e4"]


@pytest.mark.parametrize(
    ("fen", "pinned", "pinner"),
    [
        ("4k3/8/8/8/1b6/2N5/8/4K3 w - - 0 1", "c3", "b4"),
        ("4r2k/8/8/4B3/8/8/8/4K3 w - - 0 1", "e5", "e8"),
        ("7k/8/8/4B3/8/8/8/4K3 w - - 0 1", "e5", None),
        ("4r2k/4P3/8/4B3/8/8/8/4K3 w - - 0 1", "e5", None),
        ("4r2k/8/8/8/8/8/3B4/4K3 w - - 0 1", "d2", None),
    ],
)
def test_who_pins_a_man_to_its_king(fen: str, pinned: str, pinner: str | None) -> None:
    board = chess.Board(fen)
    king = board.king(chess.WHITE)
    assert king is not None
    found = attack_step(board, king, chess.parse_square(pinned))
    assert found == (None if pinner is None else chess.parse_square(pinner))


def test_nobody_reaches_anything_from_an_empty_square() -> None:
    assert not shape_reaches(chess.Board(), chess.E4, chess.E5)
    assert not shape_reaches(chess.Board(), chess.G1, chess.G1)
