"""Where men could look or come to on a board with nobody else on it."""

from __future__ import annotations

import chess


def view(kind: int, square: int, moves: int = 1) -> chess.SquareSet:
    """What a man of this kind, of either side, looks at from a square of an empty board, or from one that it
    comes to with so many moves less one.
    """
    out = chess.SquareSet()
    for color in chess.COLORS:
        empty = chess.Board(None)
        empty.set_piece_at(square, chess.Piece(kind, color))
        out |= empty.attacks(square)
    for one in list(out) if moves > 1 else ():
        out |= view(kind, one, moves - 1)
    return out
