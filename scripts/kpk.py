"""Works out king and pawn against king by going backwards from the end; writes player/facts/kpk.zlib.

One bit for each turn, pawn (files a to d, ranks 2 to 7), pawn's king and other king: 1 where the pawn wins.
"""

from __future__ import annotations

import sys
import zlib
from pathlib import Path

import chess

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from player.facts.kpk import DATA, index

_KING = [list(chess.SquareSet(chess.BB_KING_ATTACKS[square])) for square in chess.SQUARES]
_UNKNOWN, _DRAWN, _WON, _IMPOSSIBLE = range(4)
_PAWNS = [chess.square(file, rank) for file in range(4) for rank in range(1, 7)]


def solved() -> bytearray:
    """For every index of the table: won, drawn, or impossible."""
    table = bytearray(2 * 24 * 64 * 64)
    waiting: list[tuple[int, bool, int, int, int]] = []
    for turn in (True, False):
        for pawn in _PAWNS:
            for white in chess.SQUARES:
                for black in chess.SQUARES:
                    place = index(turn, pawn, white, black)
                    table[place] = _at_once(turn, pawn, white, black)
                    if table[place] == _UNKNOWN:
                        waiting.append((place, turn, pawn, white, black))
    while True:
        left = []
        for one in waiting:
            place, turn, pawn, white, black = one
            table[place] = _by_moves(table, turn, pawn, white, black)
            if table[place] == _UNKNOWN:
                left.append(one)
        if len(left) == len(waiting):
            break
        waiting = left
    return table


def _at_once(turn: bool, pawn: int, white: int, black: int) -> int:
    if white == black or black in _KING[white] or pawn in (white, black):
        return _IMPOSSIBLE
    hit = chess.BB_PAWN_ATTACKS[chess.WHITE][pawn]
    if turn:
        if hit & chess.BB_SQUARES[black]:
            return _IMPOSSIBLE
        goal = pawn + 8
        if (
            pawn >> 3 == 6
            and goal not in (white, black)
            and (goal not in _KING[black] or goal in _KING[white])
        ):
            return _WON
        return _UNKNOWN
    held = chess.BB_KING_ATTACKS[white]
    steps = chess.BB_KING_ATTACKS[black] & ~held & ~hit
    if not steps or steps & chess.BB_SQUARES[pawn]:
        return _DRAWN
    return _UNKNOWN


def _by_moves(table: bytearray, turn: bool, pawn: int, white: int, black: int) -> int:
    if turn:
        reached = [table[index(False, pawn, step, black)] for step in _KING[white]]
        if pawn >> 3 < 6 and pawn + 8 not in (white, black):
            reached.append(table[index(False, pawn + 8, white, black)])
            if pawn >> 3 == 1 and pawn + 16 not in (white, black):
                reached.append(table[index(False, pawn + 16, white, black)])
        if _WON in reached:
            return _WON
        return _UNKNOWN if _UNKNOWN in reached else _DRAWN
    reached = [
        table[index(True, pawn, white, step)]
        for step in _KING[black]
        if step not in _KING[white] and not chess.BB_PAWN_ATTACKS[chess.WHITE][pawn] & chess.BB_SQUARES[step]
    ]
    if _DRAWN in reached:
        return _DRAWN
    return _UNKNOWN if _UNKNOWN in reached else _WON


def bits() -> bytes:
    """The table as the file has it, before it is packed."""
    table = solved()
    won = bytearray(len(table) // 8)
    for place, value in enumerate(table):
        if value == _WON:
            won[place >> 3] |= 1 << (place & 7)
    return bytes(won)


if __name__ == "__main__":
    DATA.write_bytes(zlib.compress(bits(), 9))
