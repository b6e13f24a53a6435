"""The wrong bishop: a rook's pawn with a bishop of the other colour than its corner, held by a king there."""

from __future__ import annotations

from functools import lru_cache

import chess

from player.facts.kpk import white_wins

_KING = [list(chess.SquareSet(chess.BB_KING_ATTACKS[square])) for square in chess.SQUARES]
_HOME = (chess.A8, chess.B8, chess.A7, chess.B7)
State = tuple[bool, int, int, int, int]


def held_corner(board: chess.Board) -> bool:
    """Whether king, bishop and rook's pawn are proved unable to win against a king by the pawn's corner.

    True is a proof: there is a set of positions that the lone king never has to leave. False says nothing.
    """
    if chess.popcount(board.occupied) != 4 or chess.popcount(board.pawns) != 1 or not board.bishops:
        return False
    colour = bool(board.occupied_co[chess.WHITE] & board.pawns)
    if board.bishops & ~board.occupied_co[colour] or chess.popcount(board.bishops) != 1:
        return False
    own, other = board.king(colour), board.king(not colour)
    pawn, bishop = chess.lsb(board.pawns), chess.lsb(board.bishops)
    if own is None or other is None or pawn & 7 not in (0, 7):
        return False
    flip = (0 if colour else 56) ^ (7 if pawn & 7 else 0)
    pawn, bishop, own, other = pawn ^ flip, bishop ^ flip, own ^ flip, other ^ flip
    # The corner a8 is light: the wrong bishop is the dark one.
    if chess.BB_SQUARES[bishop] & chess.BB_LIGHT_SQUARES or other not in _HOME:
        return False
    return (board.turn == colour, own, other, bishop, pawn) in _held(pawn)


@lru_cache(maxsize=8)
def _held(pawn: chess.Square) -> frozenset[State]:
    """The positions with this pawn (White's, on the a-file) and a dark bishop that the lone king holds.

    Begins with all positions with the king at home and takes out, until none is left to take, those where the
    stronger side can leave the set and those where the lone king must.
    """
    further = frozenset[State]()
    for goal in _goals(pawn):
        further |= _held(goal) if goal >> 3 < 7 else frozenset()
    held = {
        (turn, own, other, bishop, pawn)
        for own in chess.SQUARES
        for other in _HOME
        for bishop in chess.SquareSet(chess.BB_DARK_SQUARES)
        for turn in (True, False)
        if _possible(turn, own, other, bishop, pawn)
    }
    while True:
        gone = {state for state in held if not _stays(state, held, further)}
        if not gone:
            return frozenset(held)
        held -= gone


def _possible(turn: bool, own: int, other: int, bishop: int, pawn: int) -> bool:
    if len({own, other, bishop, pawn}) < 4 or other in _KING[own]:
        return False
    return not turn or not _hits(own, bishop, pawn, other)


def _hits(own: int, bishop: int, pawn: int, square: int) -> bool:
    """Whether bishop or pawn attacks a square, with the lone king out of the way."""
    if chess.BB_PAWN_ATTACKS[chess.WHITE][pawn] & chess.BB_SQUARES[square]:
        return True
    if not chess.BB_RAYS[bishop][square] or bishop & 7 == square & 7 or bishop >> 3 == square >> 3:
        return False
    return not chess.between(bishop, square) & (chess.BB_SQUARES[own] | chess.BB_SQUARES[pawn])


def _goals(pawn: int) -> list[int]:
    return [pawn + 8, pawn + 16] if pawn >> 3 == 1 else [pawn + 8]


def _stays(state: State, held: set[State], further: frozenset[State]) -> bool:
    """Whether the lone king can stay in the set, or the stronger side cannot leave it, in one move."""
    turn, own, other, bishop, pawn = state
    return _strong_stays(state, held, further) if turn else _lone_stays(own, other, bishop, pawn, held)


def _lone_stays(own: int, other: int, bishop: int, pawn: int, held: set[State]) -> bool:
    steps = [step for step in _KING[other] if step not in _KING[own] and step != own]
    if pawn in steps and not _on_bishop_line(own, bishop, pawn):
        return True
    guarded = chess.BB_PAWN_ATTACKS[chess.WHITE][pawn] & chess.BB_SQUARES[bishop]
    if bishop in steps and not guarded and not white_wins(True, pawn, own, bishop):
        return True
    free = [step for step in steps if step not in (pawn, bishop) and not _hits(own, bishop, pawn, step)]
    if any((True, own, step, bishop, pawn) in held for step in free):
        return True
    return not free and bishop not in steps and not _hits(own, bishop, pawn, other)


def _strong_stays(state: State, held: set[State], further: frozenset[State]) -> bool:
    _, own, other, bishop, pawn = state
    for step in _KING[own]:
        if step in (bishop, pawn) or step in _KING[other]:
            continue
        if (False, step, other, bishop, pawn) not in held:
            return False
    taken = chess.BB_SQUARES[own] | chess.BB_SQUARES[pawn] | chess.BB_SQUARES[other]
    for to in chess.SquareSet(chess.BB_DARK_SQUARES & ~taken):
        diagonal = chess.BB_RAYS[bishop][to] and to & 7 != bishop & 7 and to >> 3 != bishop >> 3
        if not diagonal or chess.between(bishop, to) & taken:
            continue
        if (False, own, other, to, pawn) not in held:
            return False
    for goal in _goals(pawn):
        if goal in (own, other, bishop):
            break
        # A pawn that promotes is taken: no king can guard the corner beside a king at home.
        if goal >> 3 < 7 and (False, own, other, bishop, goal) not in further:
            return False
    return True


def _on_bishop_line(own: int, bishop: int, square: int) -> bool:
    aslant = chess.BB_RAYS[bishop][square] and bishop & 7 != square & 7 and bishop >> 3 != square >> 3
    return bool(aslant) and not chess.between(bishop, square) & chess.BB_SQUARES[own]
