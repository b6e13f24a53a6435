"""Which legal moves fit what was said."""

from __future__ import annotations

from dataclasses import replace

import chess

from player.wording.meaning import Meaning


def fits(meaning: Meaning, board: chess.Board, move: chess.Move) -> bool:
    """Whether this legal move of the board is one that the meaning allows."""
    origin, target = move.from_square, move.to_square
    kind = board.piece_type_at(origin)
    if meaning.off:
        return False
    if meaning.castles:
        if not board.is_castling(move):
            return False
        return meaning.any_castle or meaning.castle == (target > origin)
    if meaning.man is not None and kind != meaning.man:
        return False
    if meaning.file is not None and target & 7 != meaning.file:
        return False
    if meaning.rank is not None and target >> 3 != meaning.rank:
        return False
    if meaning.origin_file is not None and origin & 7 != meaning.origin_file:
        return False
    if meaning.origin_rank is not None and origin >> 3 != meaning.origin_rank:
        return False
    if meaning.promotion is not None and move.promotion != meaning.promotion:
        return False
    if meaning.promotes and move.promotion is None:
        return False
    capture = board.is_capture(move)
    if (meaning.takes and not capture) or (meaning.pawn_push and capture):
        return False
    if meaning.passant and not board.is_en_passant(move):
        return False
    if meaning.steps is not None and abs((target >> 3) - (origin >> 3)) != meaning.steps:
        return False
    if meaning.man is None and meaning.origin is None and board.is_castling(move):
        return False
    if meaning.victim is not None or meaning.victim_file is not None:
        taken = taken_square(board, move)
        if meaning.victim is not None and board.piece_type_at(taken) != meaning.victim:
            return False
        if meaning.victim_file is not None and taken & 7 != meaning.victim_file:
            return False
        if meaning.victim_square is not None and meaning.victim_square not in (taken, target):
            return False
    return not meaning.recaptures or target == retaken(board)


def taken_square(board: chess.Board, move: chess.Move) -> chess.Square:
    """The square of the man that a capture takes: another than the square of arrival only en passant."""
    if board.is_en_passant(move):
        return chess.square(chess.square_file(move.to_square), chess.square_rank(move.from_square))
    return move.to_square


def retaken(board: chess.Board) -> chess.Square | None:
    """The square on which the last move took something, or None."""
    if not board.move_stack:
        return None
    last = board.peek()
    before = board.copy(stack=1)
    before.pop()
    return last.to_square if before.is_capture(last) else None


def matching(meanings: list[Meaning], board: chess.Board, legal: list[chess.Move]) -> list[chess.Move]:
    """The legal moves that any of the meanings allows, in the order of `legal`.

    A meaning that is only `parting` counts where no other fits and several moves must be told apart.
    """
    plain = [meaning for meaning in meanings if not meaning.parting]
    moves = [move for move in legal if any(fits(meaning, board, move) for meaning in plain)]
    if moves or len(plain) == len(meanings):
        return moves
    parting = [meaning for meaning in meanings if meaning.parting and _parts(meaning, board, legal)]
    return [move for move in legal if any(fits(meaning, board, move) for meaning in parting)]


def _parts(meaning: Meaning, board: chess.Board, legal: list[chess.Move]) -> bool:
    """Whether the origin that was said is needed: without it more than one move would fit."""
    open_origin = replace(meaning, origin_file=None, origin_rank=None)
    return sum(fits(open_origin, board, move) for move in legal) > 1
