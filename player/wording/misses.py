"""What stops one man from going to one square: the misses among which the nearest is the reason given."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from player.facts.reach import attack_step, path, shape_reaches
from player.wording import castling_reasons
from player.wording.meaning import Meaning
from player.wording.names import colour_name, man_at, name, side_of, square_name, with_article

# The nearest miss first: pinned before blocked before wrong movement.
_RANKS = {
    "pinned": 0,
    "leaves-king-in-check": 1,
    "must-promote": 2,
    "blocked": 3,
    "own-piece": 4,
    "no-capture-there": 5,
    "not-your-turn": 6,
    "wrong-movement": 7,
    "no-such-piece": 8,
    "off-board": 9,
    **castling_reasons.RANKS,
}


@dataclass(frozen=True, slots=True)
class Miss:
    """One way in which a move falls short.

    `distance` is how far the man would go, in king's steps; `far` says that it could not go there even if
    the square were free.
    """

    reason: str
    sentence: str
    move: chess.Move | None = None
    distance: int = 0
    far: bool = False

    @property
    def order(self) -> tuple[int, int]:
        """What to sort misses by: the smallest is the nearest."""
        return _RANKS["wrong-movement"] if self.far else _RANKS[self.reason], self.distance


def step(meaning: Meaning, board: chess.Board, origin: chess.Square, target: chess.Square) -> Miss | None:
    """What stops the man on `origin` from going to `target` as was said; None where nothing does."""
    kind = board.piece_type_at(origin)
    if kind is None:
        return None
    promotion = meaning.promotion or chess.QUEEN if kind == chess.PAWN and target >> 3 in (0, 7) else None
    move = chess.Move(origin, target, promotion)
    found = _words(meaning, board, move) or _way(board, move)
    if found is not None:
        reason, sentence, far = found
        return Miss(reason, sentence, move, chess.square_distance(origin, target), far)
    if board.is_legal(move):
        return None
    reason, sentence = _king(board, move)
    return Miss(reason, sentence, move, chess.square_distance(origin, target))


Found = tuple[str, str, bool]


def _words(meaning: Meaning, board: chess.Board, move: chess.Move) -> Found | None:
    """What was said about the square of arrival that is not so."""
    origin, target = move.from_square, move.to_square
    there, where = board.piece_at(target), square_name(target)
    aslant = board.piece_type_at(origin) == chess.PAWN and origin & 7 != target & 7
    passing = aslant and target == board.ep_square
    if origin == target:
        return "wrong-movement", f"The {man_at(board, origin)} stands there already.", False
    if there is not None and there.color == board.turn:
        sentence = f"{colour_name(board.turn)}'s own {name(there.piece_type)} stands on {where}."
        return "own-piece", sentence, not shape_reaches(board, origin, target)
    if meaning.passant and not passing:
        return "no-capture-there", f"Nothing can be taken en passant on {where} now.", False
    if there is None and not passing and (meaning.takes or (aslant and shape_reaches(board, origin, target))):
        return "no-capture-there", f"There is nothing to take on {where}.", False
    if there is not None and meaning.victim not in (None, there.piece_type):
        victim = with_article(meaning.victim or chess.PAWN)
        sentence = f"On {where} stands {with_article(there.piece_type)}, not {victim}."
        return "no-capture-there", sentence, False
    return None


def _way(board: chess.Board, move: chess.Move) -> Found | None:
    """Why the man itself cannot get there: another way of moving, or somebody in between."""
    if board.is_pseudo_legal(move):
        return None
    origin, target = move.from_square, move.to_square
    if shape_reaches(board, origin, target):
        block = next((square for square in path(board, origin, target) if board.piece_at(square)), None)
        if block is not None:
            man = f"{side_of(board, block)} {man_at(board, block)}"
            where = square_name(target)
            return "blocked", f"The {man_at(board, origin)} cannot reach {where}: {man} is in the way.", False
    kind = with_article(board.piece_type_at(origin) or chess.PAWN).capitalize()
    return "wrong-movement", f"{kind} cannot go from {square_name(origin)} to {square_name(target)}.", False


def _king(board: chess.Board, move: chess.Move) -> tuple[str, str]:
    """How a move that the man itself could make would leave its king to be taken."""
    us = board.turn
    king = board.king(us)
    assert king is not None
    if move.from_square == king:
        stripped = board.copy(stack=False)
        stripped.remove_piece_at(king)
        attackers = stripped.attackers(not us, move.to_square)
        where = square_name(move.to_square)
        by = f"the {man_at(board, min(attackers))} attacks that square" if attackers else "that is castling"
        return "leaves-king-in-check", f"The king cannot go to {where}: {by}."
    if board.is_pinned(us, move.from_square) and move.to_square not in board.pin(us, move.from_square):
        pinner = attack_step(board, king, move.from_square)
        by = f" by the {man_at(board, pinner)}" if pinner is not None else ""
        mover = man_at(board, move.from_square)
        return "pinned", f"The {mover} is pinned to the king on {square_name(king)}{by}."
    checkers = board.checkers()
    if checkers:
        givers = " and the ".join(man_at(board, square) for square in checkers)
        man = f"the {man_at(board, move.from_square)} going to {square_name(move.to_square)}"
        return (
            "leaves-king-in-check",
            f"{colour_name(us)} is in check from the {givers}, and {man} does not stop it.",
        )
    after = board.copy(stack=False)
    after.push(move)
    givers = " and the ".join(man_at(after, square) for square in after.attackers(not us, king))
    return (
        "leaves-king-in-check",
        f"That would leave the king on {square_name(king)} in check from the {givers}.",
    )
