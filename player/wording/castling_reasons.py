"""Why castling is forbidden, in the order of the Laws (FIDE 3.8.2): right, check, the way, the squares
crossed.
"""

from __future__ import annotations

import chess

from player.wording.meaning import Meaning
from player.wording.names import colour_name, man_at, square_name

_NEARNESS = (
    "leaves-king-in-check",
    "castling-through-check",
    "castling-out-of-check",
    "blocked",
    "no-castling-right",
)

# How near each of these is beside the misses of other moves; what they share keeps its place there.
RANKS = {"castling-through-check": 1, "castling-out-of-check": 1, "no-castling-right": 8}


def why_not(meaning: Meaning, board: chess.Board) -> tuple[str, str, chess.Move | None]:
    """The reason, the sentence and the move, for the side that was said, or for the side that misses
    least.
    """
    sides = (True, False) if meaning.any_castle else (bool(meaning.castle),)
    tried = [_side(board, kingside) for kingside in sides]
    return min(tried, key=lambda found: _NEARNESS.index(found[0]))


def _side(board: chess.Board, kingside: bool) -> tuple[str, str, chess.Move | None]:
    us = board.turn
    side = "kingside" if kingside else "queenside"
    home = chess.E1 if us else chess.E8
    rook = (chess.H1 if kingside else chess.A1) ^ (0 if us else 56)
    target = home + (2 if kingside else -2)
    move = chess.Move(home, target)
    who = colour_name(us)
    if board.king(us) != home:
        return (
            "no-castling-right",
            f"{who} cannot castle {side}: the king is not on {square_name(home)}.",
            None,
        )
    if board.piece_at(rook) != chess.Piece(chess.ROOK, us):
        return (
            "no-castling-right",
            f"{who} cannot castle {side}: there is no rook on {square_name(rook)}.",
            move,
        )
    rights = board.clean_castling_rights()
    if not rights & chess.BB_SQUARES[rook]:
        return "no-castling-right", f"{who} has lost the right to castle {side}.", move
    checkers = board.checkers()
    if checkers:
        checker = man_at(board, min(checkers))
        sentence = f"{who} is in check from the {checker}, and castling is no way out of check."
        return "castling-out-of-check", sentence, move
    for square in chess.SquareSet(chess.between(home, rook)):
        if board.piece_at(square):
            return "blocked", f"{who} cannot castle {side}: the {man_at(board, square)} is in the way.", move
    crossed = home + (1 if kingside else -1)
    attackers = board.attackers(not us, crossed)
    if attackers:
        sentence = (
            f"The king would cross {square_name(crossed)}, which the {man_at(board, min(attackers))} attacks."
        )
        return "castling-through-check", sentence, move
    attackers = board.attackers(not us, target)
    by = f" by the {man_at(board, min(attackers))}" if attackers else ""
    return (
        "leaves-king-in-check",
        f"The king would stand on {square_name(target)}, which is attacked{by}.",
        move,
    )
