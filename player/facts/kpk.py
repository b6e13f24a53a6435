"""King and pawn against king: an exact table."""

from __future__ import annotations

import zlib
from functools import lru_cache
from pathlib import Path

import chess

DATA = Path(__file__).with_name("kpk.zlib")


def index(turn: bool, pawn: chess.Square, white: chess.Square, black: chess.Square) -> int:
    """The place in the table: White has the pawn, on files a to d; `turn` is True when White is to move."""
    return (((int(turn) * 24 + (pawn & 7) * 6 + (pawn >> 3) - 1) * 64) + white) * 64 + black


@lru_cache(maxsize=1)
def _table() -> bytes:
    return zlib.decompress(DATA.read_bytes())


def pawn_wins(board: chess.Board) -> bool | None:
    """Whether the pawn's side wins with best play; None where this is not king and pawn against king."""
    if chess.popcount(board.occupied) != 3 or chess.popcount(board.pawns) != 1:
        return None
    pawn = chess.lsb(board.pawns)
    colour = bool(board.occupied_co[chess.WHITE] & board.pawns)
    own, other = board.king(colour), board.king(not colour)
    if own is None or other is None:
        return None
    turn = board.turn == colour
    flip = 0 if colour else 56
    if pawn & 7 > 3:
        flip ^= 7
    return white_wins(turn, pawn ^ flip, own ^ flip, other ^ flip)


def white_wins(turn: bool, pawn: chess.Square, white: chess.Square, black: chess.Square) -> bool:
    """Whether White wins with this pawn, on files a to d; the squares must make a possible position."""
    place = index(turn, pawn, white, black)
    return bool(_table()[place >> 3] >> (place & 7) & 1)
