"""What speaks against a move on the face of the board, the most telling first; every one is exact."""

from __future__ import annotations

from typing import get_args

import chess

from player.facts.exchange import Nodes, settled
from player.facts.pawns import neighbours
from player.facts.replies.deeds import CENTRE, Moved, at_home
from player.facts.replies.finding import Drawback, DrawbackKind

_ORDER = {kind: rank for rank, kind in enumerate(get_args(DrawbackKind))}


def drawbacks(made: Moved, nodes: Nodes) -> tuple[Drawback, ...]:
    """What speaks against the move. Raises OutOfNodes."""
    board = made.board
    if board.is_castling(made.move):
        return ()
    found = [*_castling(made), *_unguards(made), *_shuts(made), *_retaken(made)]
    if made.man == chess.PAWN:
        found += _pawn(made)
    elif made.man != chess.KING:
        found += _piece(made) + _chased(made, nodes)
    return tuple(sorted(found, key=lambda one: (_ORDER[one.kind], one.square)))


def _castling(made: Moved) -> list[Drawback]:
    before, after = (bool(one.castling_rights & _rank(made.us)) for one in (made.board, made.after))
    return [Drawback("castling gone")] if before and not after else []


def _rank(us: chess.Color) -> int:
    return chess.BB_RANK_1 if us else chess.BB_RANK_8


def _unguards(made: Moved) -> list[Drawback]:
    """Own men, or squares of the centre, that the other side attacks and only the moved man guarded."""
    board, after, us = made.board, made.after, made.us
    left = board.attacks(made.move.from_square)
    found: list[Drawback] = []
    for square in (
        left & (after.occupied_co[us] | sum(chess.BB_SQUARES[one] for one in CENTRE)) & ~after.kings
    ):
        if square == made.move.to_square or after.is_attacked_by(us, square):
            continue
        if after.is_attacked_by(not us, square) and after.color_at(square) != (not us):
            found.append(Drawback("unguards", square))
    return sorted(found, key=lambda one: after.color_at(one.square) is None)[:1]


def _shuts(made: Moved) -> list[Drawback]:
    """An own bishop or rook that had open squares, and loses at least two and half of them."""
    board, after, us = made.board, made.after, made.us
    if board.is_capture(made.move):
        return []
    found: list[Drawback] = []
    for slider in chess.SquareSet(after.occupied_co[us] & (after.bishops | after.rooks)):
        if slider == made.move.to_square:
            continue
        had = len(board.attacks(slider) & ~chess.SquareSet(board.occupied))
        has = len(after.attacks(slider) & ~chess.SquareSet(after.occupied))
        if had - has >= 2 and has * 2 <= had:
            found.append(Drawback("shuts", slider))
    return found[:1]


def _retaken(made: Moved) -> list[Drawback]:
    """The cheapest man that can take back."""
    if not made.board.is_capture(made.move):
        return []
    takers = {
        reply.from_square
        for reply in made.after.generate_legal_captures(to_mask=chess.BB_SQUARES[made.move.to_square])
    }
    if not takers:
        return []
    cheapest = min(takers, key=lambda square: (made.after.piece_type_at(square) or 9, square))
    return [Drawback("retaken", made.move.to_square, cheapest)]


def _pawn(made: Moved) -> list[Drawback]:
    board, after, us, move = made.board, made.after, made.us, made.move
    found: list[Drawback] = []
    king = after.king(us)
    heavy = after.queens & after.occupied_co[not us]
    castled = king is not None and king >> 3 == (0 if us else 7) and king & 7 in (0, 1, 2, 6, 7)
    first = move.from_square >> 3 == (1 if us else 6)
    if heavy and castled and king is not None and first and abs((move.from_square & 7) - (king & 7)) <= 1:
        found.append(Drawback("before king", move.from_square, king))
    own = after.pawns & after.occupied_co[us] & ~chess.BB_SQUARES[move.to_square]
    if _retaken(made):
        return found
    if move.from_square & 7 != move.to_square & 7 and own & chess.BB_FILES[move.to_square & 7]:
        found.append(Drawback("doubles", move.to_square))
    before = board.pawns & board.occupied_co[us] & ~chess.BB_SQUARES[move.from_square]
    alone = not own & neighbours(move.to_square)
    if not move.promotion and alone and before & neighbours(move.from_square):
        found.append(Drawback("isolates", move.to_square))
    return found


def _piece(made: Moved) -> list[Drawback]:
    board, after, us, move = made.board, made.after, made.us, made.move
    found: list[Drawback] = []
    swap = made.man == chess.BISHOP and board.piece_type_at(move.to_square) == chess.KNIGHT
    if swap and _retaken(made):
        found.append(Drawback("gives bishop", move.to_square))
    if board.is_capture(move):
        return found
    front = move.to_square - (8 if us else -8)
    central = 0 <= front < 64 and front >> 3 == (1 if us else 6) and front & 7 in (2, 3, 4)
    if central and after.piece_at(front) == chess.Piece(chess.PAWN, us):
        found.append(Drawback("in front", front))
    home = _rank(us)
    asleep = at_home(after, us)
    was_home = bool(chess.BB_SQUARES[move.from_square] & home)
    now_home = bool(chess.BB_SQUARES[move.to_square] & home)
    if made.man in (chess.KNIGHT, chess.BISHOP) and not was_home and now_home:
        found.append(Drawback("home", move.to_square))
    elif made.man != chess.ROOK and not was_home and asleep:
        found.append(Drawback("again", min(chess.SquareSet(asleep))))
    if made.man == chess.KNIGHT and move.to_square & 7 in (0, 7):
        ways = after.attacks(move.to_square) & ~after.occupied_co[us]
        found.append(Drawback("rim", move.to_square, len(ways)))
    return found


def _chased(made: Moved, nodes: Nodes) -> list[Drawback]:
    """A pawn may hit the moved man at once, and captures win nothing from the side that pushed it."""
    after, to = made.after, made.move.to_square
    if after.is_check():
        return []
    pawns = after.pawns & after.occupied_co[after.turn]
    for step in list(after.generate_legal_moves(pawns, ~after.occupied)):
        if after.is_en_passant(step) or step.promotion:
            continue
        if to not in chess.SquareSet(chess.BB_PAWN_ATTACKS[after.turn][step.to_square]):
            continue
        after.push(step)
        try:
            free = settled(after, nodes) == 0
        finally:
            after.pop()
        if free:
            return [Drawback("chased", to, step.to_square)]
    return []
