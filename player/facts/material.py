"""What stands on the board: how many of each, and who has more."""

from __future__ import annotations

from collections.abc import Mapping

import chess

# The usual values (common practice): pawn 1, knight and bishop 3, rook 5, queen 9; a king has none.
VALUES: Mapping[chess.PieceType, int] = {
    chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0,
}  # fmt: skip


def counts(board: chess.Board, colour: chess.Color) -> dict[chess.PieceType, int]:
    """How many men of each kind a side has."""
    return {kind: chess.popcount(board.pieces_mask(kind, colour)) for kind in chess.PIECE_TYPES}


def surplus(board: chess.Board) -> dict[chess.PieceType, int]:
    """White's men less Black's, kind by kind; only where they differ, and without the kings."""
    white, black = counts(board, chess.WHITE), counts(board, chess.BLACK)
    return {kind: white[kind] - black[kind] for kind in chess.PIECE_TYPES[:-1] if white[kind] != black[kind]}


def value(board: chess.Board, colour: chess.Color) -> int:
    """What a side's men are worth together, in pawns."""
    return sum(VALUES[kind] * number for kind, number in counts(board, colour).items())
