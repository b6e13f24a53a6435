"""Why a move that was understood cannot be played: one reason, in one sentence that names what stops it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import chess

from player.facts.reach import attack_step, path, shape_reaches
from player.wording import castling_reasons
from player.wording.hearing import Illegal
from player.wording.match import fits, retaken
from player.wording.meaning import Meaning
from player.wording.names import colour_name, man_at, name, side_of, square_name, with_article

_RANKS = {
    "pinned": 0, "leaves-king-in-check": 1, "must-promote": 2, "blocked": 3, "own-piece": 4, "no-capture-there": 5,
    "not-your-turn": 6, "wrong-movement": 7, "no-such-piece": 8, "off-board": 9,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Miss:
    """One way in which a move falls short, and by how much (a smaller rank is a nearer miss)."""

    reason: str
    sentence: str
    move: chess.Move | None
    distance: int = 0

    @property
    def order(self) -> tuple[int, int]:
        """What to sort misses by."""
        return _RANKS.get(self.reason, 9), self.distance


def why_not(meanings: list[Meaning], board: chess.Board, *, colour: chess.Color | None = None) -> Illegal:
    """The nearest miss over every reading of what was said; `colour` is the side that was named as moving."""
    misses = [_miss(meaning, board, colour) for meaning in meanings]
    best = min(misses, key=lambda miss: miss.order)
    return Illegal(best.reason, best.sentence, best.move)


def _miss(meaning: Meaning, board: chess.Board, colour: chess.Color | None) -> Miss:
    us = board.turn
    if meaning.off:
        return Miss(
            "off-board",
            f"There is no {meaning.off} on the board: files run from a to h and ranks from 1 to 8.",
            None,
        )
    if colour is not None and colour != us:
        return Miss("not-your-turn", f"It is {colour_name(us)}'s move, not {colour_name(colour)}'s.", None)
    if meaning.castles:
        reason, sentence, move = castling_reasons.why_not(meaning, board)
        return Miss(reason, sentence, move)
    early = _promotion(meaning) or _origin(meaning, board) or _nothing_to_retake(meaning, board)
    if early:
        return early
    men = [square for square in chess.SquareSet(board.occupied_co[us]) if _may_move(meaning, board, square)]
    if not men:
        return _theirs(meaning, board) or Miss("no-such-piece", _no_such(meaning, board), None)
    targets = list(_targets(meaning, board))
    if not targets:
        return Miss("no-capture-there", _nothing(meaning, board), None)
    misses = [
        miss
        for square in men
        for target in targets
        for miss in [_step(meaning, board, square, target)]
        if miss
    ]
    nearest = min(misses, key=lambda miss: miss.order, default=None)
    if nearest is None:
        return Miss("no-capture-there", _nothing(meaning, board), None)
    if nearest.reason in ("wrong-movement", "no-capture-there"):
        return _theirs(meaning, board) or nearest
    return nearest


def _promotion(meaning: Meaning) -> Miss | None:
    if meaning.promotion in (chess.KING, chess.PAWN):
        became = with_article(meaning.promotion)
        sentence = f"A pawn cannot become {became}: on the last rank it becomes a queen, a rook, a bishop or a knight."
        return Miss("must-promote", sentence, None)
    if meaning.promotes and meaning.rank not in (None, 0, 7):
        return Miss("wrong-movement", "A pawn promotes only on the last rank.", None)
    return None


def _origin(meaning: Meaning, board: chess.Board) -> Miss | None:
    """What is wrong with the square of departure, where it was said in full."""
    square = meaning.origin
    if square is None:
        return None
    piece = board.piece_at(square)
    here = square_name(square)
    if piece is None:
        return Miss("no-such-piece", f"There is no man on {here}.", None)
    if meaning.man is not None and piece.piece_type != meaning.man:
        return Miss(
            "no-such-piece",
            f"On {here} stands {with_article(piece.piece_type)}, not {with_article(meaning.man)}.",
            None,
        )
    if piece.color != board.turn:
        sentence = f"The {man_at(board, square)} is {colour_name(piece.color)}'s, and it is {colour_name(board.turn)}'s move."
        return Miss("not-your-turn", sentence, None)
    return None


def _nothing_to_retake(meaning: Meaning, board: chess.Board) -> Miss | None:
    if meaning.recaptures and retaken(board) is None:
        return Miss("no-capture-there", "There is nothing to take back: the last move took nothing.", None)
    return None


def _may_move(meaning: Meaning, board: chess.Board, square: chess.Square) -> bool:
    return (
        (meaning.man is None or board.piece_type_at(square) == meaning.man)
        and (meaning.origin_file is None or square & 7 == meaning.origin_file)
        and (meaning.origin_rank is None or square >> 3 == meaning.origin_rank)
    )


def _targets(meaning: Meaning, board: chess.Board) -> Iterable[chess.Square]:
    if meaning.recaptures:
        square = retaken(board)
        return [] if square is None else [square]
    if meaning.square is not None:
        return [meaning.square]
    if meaning.takes:
        theirs = chess.SquareSet(board.occupied_co[not board.turn])
        return [
            square
            for square in theirs
            if (meaning.victim is None or board.piece_type_at(square) == meaning.victim)
            and (meaning.victim_file is None or square & 7 == meaning.victim_file)
            and (meaning.victim_square is None or square == meaning.victim_square)
            and (meaning.file is None or square & 7 == meaning.file)
        ]
    if meaning.pawn_push or meaning.promotes:
        return _pawn_targets(meaning, board)
    return chess.SquareSet(chess.BB_ALL)


def _pawn_targets(meaning: Meaning, board: chess.Board) -> list[chess.Square]:
    """The squares straight ahead of the pawns that may be meant."""
    ahead = 8 if board.turn else -8
    out = []
    for square in board.pieces(chess.PAWN, board.turn):
        if _may_move(meaning, board, square):
            target = square + ahead * (meaning.steps or 1)
            if 0 <= target < 64:
                out.append(target)
    return out


def _step(meaning: Meaning, board: chess.Board, origin: chess.Square, target: chess.Square) -> Miss | None:
    """What stops this man from going to this square as was said."""
    kind = board.piece_type_at(origin)
    if kind is None or (origin == target and meaning.square is None):
        return None
    promotion = meaning.promotion
    if kind == chess.PAWN and target >> 3 in (0, 7):
        promotion = promotion or chess.QUEEN
    move = chess.Move(origin, target, promotion if kind == chess.PAWN and target >> 3 in (0, 7) else None)
    distance = chess.square_distance(origin, target)
    taking = meaning.takes or (kind == chess.PAWN and origin & 7 != target & 7)
    there = board.piece_at(target)
    where = square_name(target)
    passing = kind == chess.PAWN and target == board.ep_square and origin & 7 != target & 7
    if there is not None and there.color == board.turn:
        if origin == target:
            return Miss("wrong-movement", f"The {name(kind)} stands on {where} already.", None, distance)
        return Miss(
            "own-piece",
            f"{colour_name(board.turn)}'s own {name(there.piece_type)} stands on {where}.",
            move,
            distance,
        )
    if meaning.passant and not passing:
        return Miss("no-capture-there", f"Nothing can be taken en passant on {where} now.", move, distance)
    if taking and there is None and not passing:
        if meaning.takes or shape_reaches(board, origin, target):
            return Miss("no-capture-there", f"There is nothing to take on {where}.", move, distance)
        return Miss("wrong-movement", _wrong(board, origin, target), move, distance)
    if there is not None and meaning.victim not in (None, there.piece_type):
        sentence = f"On {where} stands {with_article(there.piece_type)}, not {with_article(meaning.victim or chess.PAWN)}."
        return Miss("no-capture-there", sentence, move, distance)
    if board.is_pseudo_legal(move):
        return _unsafe(meaning, board, move, distance)
    if not shape_reaches(board, origin, target):
        return Miss("wrong-movement", _wrong(board, origin, target), move, distance)
    block = next((square for square in path(board, origin, target) if board.piece_at(square)), None)
    if block is not None:
        sentence = f"The {man_at(board, origin)} cannot reach {where}: {side_of(board, block)} {man_at(board, block)} is in the way."
        return Miss("blocked", sentence, move, distance)
    return Miss("wrong-movement", _wrong(board, origin, target), move, distance)


def _unsafe(meaning: Meaning, board: chess.Board, move: chess.Move, distance: int) -> Miss | None:
    """Why a move that the man itself could make is forbidden: its king, or a word said about it that is not so."""
    us = board.turn
    king = board.king(us)
    mover = man_at(board, move.from_square)
    if king is None or board.is_legal(move):
        if meaning.pawn_push and board.is_capture(move):
            return Miss(
                "no-capture-there",
                "A pawn goes straight ahead where it takes nothing; say which pawn takes.",
                move,
                distance,
            )
        return None
    if move.from_square == king:
        stripped = board.copy(stack=False)
        stripped.remove_piece_at(king)
        attackers = stripped.attackers(not us, move.to_square)
        by = f" by the {man_at(board, min(attackers))}" if attackers else ""
        where = square_name(move.to_square)
        return Miss(
            "leaves-king-in-check",
            f"The king cannot go to {where}: that square is attacked{by}.",
            move,
            distance,
        )
    if board.is_pinned(us, move.from_square) and move.to_square not in board.pin(us, move.from_square):
        pinner = attack_step(board, king, move.from_square)
        by = f" by the {man_at(board, pinner)}" if pinner is not None else ""
        return Miss(
            "pinned", f"The {mover} is pinned to the king on {square_name(king)}{by}.", move, distance
        )
    checkers = board.checkers()
    if checkers:
        givers = " and the ".join(man_at(board, square) for square in checkers)
        sentence = f"{colour_name(us)} is in check from the {givers}, and the {mover} going to {square_name(move.to_square)} does not stop it."
        return Miss("leaves-king-in-check", sentence, move, distance)
    after = board.copy(stack=False)
    after.push(move)
    givers = " and the ".join(man_at(after, square) for square in after.attackers(not us, king))
    return Miss(
        "leaves-king-in-check",
        f"That would leave the king on {square_name(king)} in check from the {givers}.",
        move,
        distance,
    )


def _theirs(meaning: Meaning, board: chess.Board) -> Miss | None:
    """Whether the other side could make the move that was said."""
    if board.is_check():
        return None
    other = board.copy(stack=False)
    other.push(chess.Move.null())
    move = next((move for move in other.legal_moves if fits(meaning, other, move)), None)
    if move is None or not _says_enough(meaning):
        return None
    sentence = f"It is {colour_name(board.turn)}'s move, and only {colour_name(not board.turn)}'s {man_at(board, move.from_square)} could do that."
    return Miss("not-your-turn", sentence, move)


def _says_enough(meaning: Meaning) -> bool:
    return meaning.square is not None or meaning.origin is not None


def _no_such(meaning: Meaning, board: chess.Board) -> str:
    kind = "man" if meaning.man is None else name(meaning.man)
    where = ""
    if meaning.origin_file is not None:
        where = f" on the {'abcdefgh'[meaning.origin_file]}-file"
    elif meaning.origin_rank is not None:
        where = f" on rank {meaning.origin_rank + 1}"
    return f"{colour_name(board.turn)} has no {kind}{where}."


def _nothing(meaning: Meaning, board: chess.Board) -> str:
    taker = "" if meaning.man is None else f" by {with_article(meaning.man)}"
    if meaning.victim is not None:
        return f"There is no {name(meaning.victim)} that can be taken{taker}."
    if meaning.file is not None and meaning.rank is None:
        return f"There is nothing on the {'abcdefgh'[meaning.file]}-file that can be taken{taker}."
    return f"There is nothing that can be taken{taker}."


def _wrong(board: chess.Board, origin: chess.Square, target: chess.Square) -> str:
    kind = board.piece_type_at(origin) or chess.PAWN
    return f"{with_article(kind).capitalize()} cannot go from {square_name(origin)} to {square_name(target)}."
