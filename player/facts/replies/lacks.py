"""Whether a move leaves undone what the answer does: exactly, so that it may be said."""

from __future__ import annotations

import chess

from player.facts.replies.deeds import CENTRE, Moved, is_outpost, opened
from player.facts.replies.finding import Deed
from player.facts.replies.question import Question

_ONE_MAN = ("centre", "outpost", "seventh", "file", "passed", "promotes", "develops", "room")


def lacks(asked: Question, made: Moved, deed: Deed) -> bool:
    """Whether this deed of the answer's is worth missing, and the move does nothing like it."""
    answer = asked.answer
    if answer is None or deed.kind in ("nearer", "mate", "pins", "passed"):
        return False
    if deed.kind in _ONE_MAN:
        return _place_left(answer, made, deed)
    return _undone(asked, made, deed)


def _place_left(answer: Moved, made: Moved, deed: Deed) -> bool:
    """A man that should go somewhere has not gone, and no other is there or does it."""
    after, us, square = made.after, made.us, deed.square
    waits = after.piece_at(answer.move.from_square) == made.board.piece_at(answer.move.from_square)
    if deed.kind in ("develops", "passed", "promotes", "room"):
        return waits and made.move.from_square != answer.move.from_square
    if deed.kind == "centre":
        touched = {made.move.from_square, made.move.to_square} & set(CENTRE)
        return not touched and not made.board.is_capture(made.move)
    if deed.kind == "outpost":
        minor = made.man in (chess.KNIGHT, chess.BISHOP)
        return after.color_at(square) != us and not (minor and is_outpost(after, made.move.to_square, us))
    rooks = after.rooks & after.occupied_co[us]
    if deed.kind == "file":
        return not rooks & chess.BB_FILES[square & 7]
    return not rooks & chess.BB_RANKS[square >> 3]


def _undone(asked: Question, made: Moved, deed: Deed) -> bool:
    board, after, us, square = made.board, made.after, made.us, deed.square
    if deed.kind == "check":
        return not after.is_check()
    if deed.kind == "castles":
        return made.man != chess.KING
    if deed.kind == "takes":
        return after.color_at(square) == (not us)
    if deed.kind == "meets mate":
        return False
    if deed.kind == "meets":
        return False
    if deed.kind == "connects":
        rooks = list(after.pieces(chess.ROOK, us))
        return len(rooks) == 2 and bool(after.occupied & chess.between(rooks[0], rooks[1]))
    if deed.kind == "opens":
        same = after.piece_at(square) == board.piece_at(square) and made.move.from_square != square
        return same and not opened(board, after, square)
    if deed.kind == "bars":
        return not int(after.attackers(us, square)) & after.pawns and after.piece_at(deed.other) is not None
    if deed.kind == "opposition":
        return made.move.to_square != square and made.man != chess.KING
    adds = after.attackers(us, square) - board.attackers(us, square)
    if deed.kind == "guards":
        return after.color_at(square) == us and not adds and made.move.from_square != square
    if deed.kind in ("hits", "uncovers", "chases", "presses"):
        return after.color_at(square) == (not us) and not adds
    return not adds and after.color_at(square) != us
