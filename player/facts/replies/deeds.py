"""What a move does: every exact thing worth saying, the most telling first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

import chess

from player.facts.attacks import SLIDERS
from player.facts.material import VALUES
from player.facts.pawns import ahead, neighbours, stoppers
from player.facts.replies.finding import Deed, DeedKind

CENTRE = (chess.D4, chess.E4, chess.D5, chess.E5)
_ORDER = {kind: rank for rank, kind in enumerate(get_args(DeedKind))}


@dataclass(frozen=True, slots=True)
class Moved:
    """A move with the board before and after it; `man` stands on `to` then (for castling the king)."""

    board: chess.Board
    move: chess.Move
    after: chess.Board

    @property
    def us(self) -> chess.Color:
        return self.board.turn

    @property
    def man(self) -> chess.PieceType:
        return self.board.piece_type_at(self.move.from_square) or chess.PAWN


def moved(board: chess.Board, move: chess.Move) -> Moved:
    """The move made on a copy; `after` keeps one move of its stack."""
    after = board.copy(stack=1)
    after.push(move)
    return Moved(board, move, after)


def deeds(made: Moved) -> tuple[Deed, ...]:
    """What the move does, without looking further; the most telling first."""
    found: list[Deed] = []
    if made.after.is_check():
        found.append(Deed("mate" if made.after.is_checkmate() else "check"))
    if made.board.is_castling(made.move):
        found.append(Deed("castles"))
    else:
        found += _by_the_man(made)
    if made.move.promotion:
        found.append(Deed("promotes", made.move.to_square, made.move.promotion))
    taken = _taken(made)
    if taken is not None:
        found.append(Deed("takes", taken, made.board.piece_type_at(taken) or -1))
    found += _lines(made)
    found += _rooks(made)
    found += _pins(made)
    return tuple(sorted(set(found), key=lambda deed: (_ORDER[deed.kind], *_weight(made, deed))))


def _weight(made: Moved, deed: Deed) -> tuple[int, int, int]:
    """Of two deeds of a kind: the heavier man first, then the square nearer to the centre."""
    square = max(deed.square, 0)
    kind = made.after.piece_type_at(square) or made.board.piece_type_at(square)
    return -VALUES[kind] if kind else 0, chess.square_distance(square, chess.D4), deed.square


def _taken(made: Moved) -> chess.Square | None:
    if not made.board.is_capture(made.move):
        return None
    if made.board.is_en_passant(made.move):
        return chess.square(made.move.to_square & 7, made.move.from_square >> 3)
    return made.move.to_square


def _by_the_man(made: Moved) -> list[Deed]:
    """What the moved man does from its new square."""
    board, after, us, to = made.board, made.after, made.us, made.move.to_square
    man = after.piece_type_at(to) or made.man
    fresh = (
        after.attacks(to) & ~board.attacks(made.move.from_square) & ~chess.BB_SQUARES[made.move.from_square]
    )
    found: list[Deed] = []
    for square in fresh & after.occupied_co[not us]:
        found += _on_enemy(made, man, square)
    for square in fresh & after.occupied_co[us] & ~after.kings:
        if after.is_attacked_by(not us, square):
            found.append(Deed("guards", square))
    quiet = [square for square in fresh if not after.occupied & chess.BB_SQUARES[square]]
    if made.man != chess.KING:
        found += [Deed("eyes", square) for square in quiet if square in CENTRE]
    near = sorted(quiet, key=lambda square: (chess.square_distance(square, chess.D4), -square))
    found += [Deed("looks", square) for square in near[:2]]
    if made.man == chess.PAWN:
        found += _pawn(made, to)
    elif made.man == chess.KING:
        found += _king(made, to)
    else:
        found += _piece(made, to)
    return found


def _on_enemy(made: Moved, man: chess.PieceType, square: chess.Square) -> list[Deed]:
    after = made.after
    kind = after.piece_type_at(square)
    if kind is None or kind == chess.KING:
        return []
    if man == chess.PAWN:
        return [Deed("chases" if kind != chess.PAWN else "presses", square)]
    if VALUES[kind] > VALUES[man] and man != chess.KING:
        return [Deed("hits", square)]
    if not after.is_attacked_by(not made.us, square):
        return [Deed("hits", square)]
    return [Deed("presses", square)]


def _pawn(made: Moved, to: chess.Square) -> list[Deed]:
    after, us = made.after, made.us
    found: list[Deed] = []
    if to in CENTRE and not made.board.is_capture(made.move):
        found.append(Deed("centre", to))
    if not made.move.promotion and not stoppers(after, to, us):
        found.append(Deed("passed", to, made.move.from_square))
    minors = (after.knights | after.bishops) & after.occupied_co[not us]
    for square in after.attacks(to):
        if after.occupied & chess.BB_SQUARES[square] or not _ours(square, us):
            continue
        if _by_pawns(made.board, us, square):
            continue
        comers = after.attackers(not us, square) & minors
        if comers:
            found.append(Deed("bars", square, min(comers)))
    found += _room(made)
    return found


def _room(made: Moved) -> list[Deed]:
    """A square for the king on its second rank that it did not have."""
    board, after, us = made.board, made.after, made.us
    king = after.king(us)
    left = made.move.from_square
    if (
        king is None
        or king >> 3 != (0 if us else 7)
        or left not in chess.SquareSet(chess.BB_KING_ATTACKS[king])
    ):
        return []
    if board.is_check() or after.is_attacked_by(not us, left):
        return []
    return [Deed("room", left)]


def _king(made: Moved, to: chess.Square) -> list[Deed]:
    board, after, us = made.board, made.after, made.us
    found: list[Deed] = []
    other = after.king(not us)
    few = not after.queens and chess.popcount(after.occupied & ~after.pawns & ~after.kings) <= 4
    if few and _to_centre(to) < _to_centre(made.move.from_square):
        found.append(Deed("nearer", to))
    only_pawns = not board.occupied & ~board.pawns & ~board.kings
    if only_pawns and other is not None and _faces(after, to, other):
        found.append(Deed("opposition", to, other))
    return found


def _faces(board: chess.Board, one: chess.Square, other: chess.Square) -> bool:
    apart = chess.square_distance(one, other) == 2 and (one & 7 == other & 7 or one >> 3 == other >> 3)
    return apart and not board.occupied & chess.between(one, other)


def _to_centre(square: chess.Square) -> int:
    return min(chess.square_distance(square, centre) for centre in CENTRE)


def _piece(made: Moved, to: chess.Square) -> list[Deed]:
    board, after, us = made.board, made.after, made.us
    found: list[Deed] = []
    if at_home(board, us) & chess.BB_SQUARES[made.move.from_square]:
        found.append(Deed("develops", made.move.from_square))
    if made.man in (chess.KNIGHT, chess.BISHOP) and is_outpost(after, to, us):
        found.append(Deed("outpost", to))
    if made.man == chess.ROOK and to >> 3 == (6 if us else 1) and made.move.from_square >> 3 != to >> 3:
        found.append(Deed("seventh", to))
    if made.man == chess.ROOK and made.move.from_square & 7 != to & 7:
        own = board.pawns & board.occupied_co[us] & chess.BB_FILES[to & 7]
        if not own:
            found.append(Deed("file", to, int(bool(board.pawns & chess.BB_FILES[to & 7]))))
    return found


def at_home(board: chess.Board, us: chess.Color) -> int:
    """The knights and bishops of a side that stand where they stood at the start, as a bitboard."""
    rank = chess.BB_RANK_1 if us else chess.BB_RANK_8
    knights = board.knights & (chess.BB_FILE_B | chess.BB_FILE_G)
    bishops = board.bishops & (chess.BB_FILE_C | chess.BB_FILE_F)
    return (knights | bishops) & board.occupied_co[us] & rank


def is_outpost(board: chess.Board, square: chess.Square, us: chess.Color) -> bool:
    """As the claim has it: far enough up, guarded by an own pawn, never to be attacked by an enemy pawn."""
    if square >> 3 not in ((3, 4, 5) if us else (2, 3, 4)) or not _by_pawns(board, us, square):
        return False
    enemy = board.pawns & board.occupied_co[not us]
    return not enemy & neighbours(square) & ahead(square, us)


def _by_pawns(board: chess.Board, us: chess.Color, square: chess.Square) -> bool:
    return bool(int(board.attackers(us, square)) & board.pawns)


def _ours(square: chess.Square, us: chess.Color) -> bool:
    """Whether a square lies in a side's own half."""
    return (square >> 3 < 4) == us


def _lines(made: Moved) -> list[Deed]:
    """Lines of other bishops, rooks and queens that the move has opened."""
    board, after, us = made.board, made.after, made.us
    found: list[Deed] = []
    mine = after.occupied_co[us] & (after.bishops | after.rooks | after.queens)
    stood = chess.SquareSet(mine & board.occupied_co[us] & ~chess.BB_SQUARES[made.move.to_square])
    for slider in stood:
        fresh = after.attacks(slider) & ~board.attacks(slider)
        for square in fresh & after.occupied_co[not us] & ~after.kings:
            kind, own = after.piece_type_at(square), after.piece_type_at(slider)
            assert kind is not None and own is not None
            if VALUES[kind] > VALUES[own] or not after.is_attacked_by(not us, square):
                found.append(Deed("uncovers", square, slider))
        if board.piece_type_at(slider) in SLIDERS and _freed(board, after, slider):
            found.append(Deed("opens", slider))
    return found


def _freed(board: chess.Board, after: chess.Board, square: chess.Square) -> bool:
    """Whether the man there looks at two empty squares more than before, and at more of them in all."""
    more = len(after.attacks(square) & ~after.occupied) > len(board.attacks(square) & ~board.occupied)
    return more and len(opened(board, after, square)) >= 2


def opened(board: chess.Board, after: chess.Board, square: chess.Square) -> chess.SquareSet:
    """The empty squares that the man there looks at after a move, and did not before it."""
    had = board.attacks(square) & ~board.occupied
    return after.attacks(square) & ~after.occupied & ~had


def _rooks(made: Moved) -> list[Deed]:
    if _connected(made.after, made.us) and not _connected(made.board, made.us):
        return [Deed("connects")]
    return []


def _connected(board: chess.Board, us: chess.Color) -> bool:
    rooks = list(board.pieces(chess.ROOK, us))
    if len(rooks) != 2 or (rooks[0] & 7 != rooks[1] & 7 and rooks[0] >> 3 != rooks[1] >> 3):
        return False
    return not board.occupied & chess.between(rooks[0], rooks[1])


def _pins(made: Moved) -> list[Deed]:
    """Enemy men newly held on a line before their king."""
    king = made.after.king(not made.us)
    if king is None:
        return []
    found: list[Deed] = []
    for square in chess.SquareSet(made.after.occupied_co[not made.us] & ~made.after.kings):
        if not chess.ray(square, king) or not made.after.is_pinned(not made.us, square):
            continue
        if not made.board.is_pinned(not made.us, square):
            found.append(Deed("pins", square, king))
    return found
