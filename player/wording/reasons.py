"""Why a move that was understood cannot be played: one reason, in one sentence that names what stops it."""

from __future__ import annotations

from collections.abc import Iterable

import chess

from player.wording import castling_reasons
from player.wording.hearing import Illegal
from player.wording.match import fits, retaken
from player.wording.meaning import Meaning
from player.wording.misses import Miss, step
from player.wording.names import colour_name, man_at, name, square_name, with_article


def why_not(meanings: list[Meaning], board: chess.Board, *, colour: chess.Color | None = None) -> Illegal:
    """The nearest miss over every reading of what was said; `colour` is the side that was named as moving."""
    named = [meaning for meaning in meanings if not meaning.parting] or meanings
    misses = [_miss(meaning, board, colour) for meaning in named]
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
        return Miss("not-your-turn", f"It is {colour_name(us)}'s move, not {colour_name(colour)}'s.")
    meaning = _as_castling(meaning, board)
    if meaning.castles:
        reason, sentence, move = castling_reasons.why_not(meaning, board)
        return Miss(reason, sentence, move)
    early = _promotion(meaning) or _origin(meaning, board) or _nothing_to_retake(meaning, board)
    if early:
        return early
    men = [square for square in chess.SquareSet(board.occupied_co[us]) if _may_move(meaning, board, square)]
    if not men:
        return _theirs(meaning, board) or Miss("no-such-piece", _no_such(meaning, board))
    targets = list(_targets(meaning, board))
    if meaning.takes and meaning.square is None:
        return _untaken(meaning, board, men, targets)
    misses = [
        miss
        for square in men
        for target in targets
        for miss in [step(meaning, board, square, target)]
        if miss
    ]
    nearest = min(misses, key=lambda miss: miss.order, default=None)
    if nearest is None:
        return Miss("wrong-movement", "No man can make that move.")
    if nearest.far or nearest.reason in ("wrong-movement", "no-capture-there"):
        return _theirs(meaning, board) or nearest
    return nearest


def _as_castling(meaning: Meaning, board: chess.Board) -> Meaning:
    """Castling where it was said as the king's two steps and the right to it is still there."""
    king = board.king(board.turn)
    target = meaning.square
    if king is None or target is None or meaning.takes or king >> 3 != target >> 3 or abs(king - target) != 2:
        return meaning
    if (meaning.origin != king and meaning.man != chess.KING) or meaning.origin not in (None, king):
        return meaning
    if meaning.man not in (None, chess.KING):
        return meaning
    kingside = target > king
    may = board.has_kingside_castling_rights if kingside else board.has_queenside_castling_rights
    return Meaning(man=chess.KING, castle=kingside) if may(board.turn) else meaning


def _untaken(
    meaning: Meaning, board: chess.Board, men: list[chess.Square], targets: list[chess.Square]
) -> Miss:
    """Why nothing can be taken where no square was named: a capture that the king forbids, or none at all."""
    misses = []
    for origin in men:
        for target in targets:
            move = chess.Move(origin, target)
            if board.is_pseudo_legal(move) or board.is_pseudo_legal(chess.Move(origin, target, chess.QUEEN)):
                misses.append(step(meaning, board, origin, target))
    nearest = min((miss for miss in misses if miss), key=lambda miss: miss.order, default=None)
    if nearest is not None and nearest.reason in ("pinned", "leaves-king-in-check"):
        return nearest
    if meaning.recaptures and targets:
        taker = "Nothing" if meaning.man is None else f"No {name(meaning.man)}"
        return Miss("no-capture-there", f"{taker} can take back on {square_name(targets[0])}.")
    return Miss("no-capture-there", _nothing(meaning, board))


def _promotion(meaning: Meaning) -> Miss | None:
    if meaning.promotion in (chess.KING, chess.PAWN):
        became = with_article(meaning.promotion)
        sentence = f"A pawn cannot become {became}: only a queen, a rook, a bishop or a knight."
        return Miss("must-promote", sentence)
    if meaning.promotes and meaning.rank not in (None, 0, 7):
        return Miss("wrong-movement", "A pawn promotes only on the last rank.")
    return None


def _origin(meaning: Meaning, board: chess.Board) -> Miss | None:
    """What is wrong with the square of departure, where it was said in full."""
    square = meaning.origin
    if square is None:
        return None
    piece = board.piece_at(square)
    here = square_name(square)
    if piece is None:
        return Miss("no-such-piece", f"There is no man on {here}.")
    if meaning.man is not None and piece.piece_type != meaning.man:
        return Miss(
            "no-such-piece",
            f"On {here} stands {with_article(piece.piece_type)}, not {with_article(meaning.man)}.",
            None,
        )
    if piece.color != board.turn:
        whose = f"{colour_name(piece.color)}'s, and it is {colour_name(board.turn)}'s move"
        sentence = f"The {man_at(board, square)} is {whose}."
        return Miss("not-your-turn", sentence)
    return None


def _nothing_to_retake(meaning: Meaning, board: chess.Board) -> Miss | None:
    if meaning.recaptures and retaken(board) is None:
        return Miss("no-capture-there", "There is nothing to take back: the last move took nothing.")
    return None


def _may_move(meaning: Meaning, board: chess.Board, square: chess.Square) -> bool:
    return (
        (meaning.man is None or board.piece_type_at(square) == meaning.man)
        and (meaning.origin_file is None or square & 7 == meaning.origin_file)
        and (meaning.origin_rank is None or square >> 3 == meaning.origin_rank)
        and not (meaning.pawn_push and meaning.file is not None and square & 7 != meaning.file)
        and not (meaning.promotes and meaning.rank is None and square >> 3 != (6 if board.turn else 1))
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


def _theirs(meaning: Meaning, board: chess.Board) -> Miss | None:
    """Whether the other side could make the move that was said."""
    if board.is_check():
        return None
    other = board.copy(stack=False)
    other.push(chess.Move.null())
    move = next((move for move in other.legal_moves if fits(meaning, other, move)), None)
    if move is None or not _says_enough(meaning):
        return None
    man = f"{colour_name(not board.turn)}'s {man_at(board, move.from_square)}"
    sentence = f"It is {colour_name(board.turn)}'s move, and only {man} could do that."
    return Miss("not-your-turn", sentence, move)


def _says_enough(meaning: Meaning) -> bool:
    return meaning.square is not None or meaning.origin is not None


def _no_such(meaning: Meaning, board: chess.Board) -> str:
    kind = "man" if meaning.man is None else name(meaning.man)
    where = ""
    if meaning.promotes and meaning.rank is None and meaning.origin_rank is None:
        where = " that could promote now"
    elif meaning.pawn_push and meaning.file is not None:
        where = f" on the {'abcdefgh'[meaning.file]}-file"
    elif meaning.origin_file is not None:
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
