"""The one-word answer to a question between several moves."""

from __future__ import annotations

import chess

from player.wording.grammar import meanings, runs
from player.wording.languages import language as language_of
from player.wording.match import matching
from player.wording.questions import which
from player.wording.tokens import Run, plain, slots


def resolve(
    candidates: tuple[chess.Move, ...], board: chess.Board, said: str, *, language: str = "en"
) -> chess.Move | None:
    """The one candidate that `said` picks out, or None where it picks none or more than one.

    Heard are the words of the question itself, and any file, rank, square, man or side that only one
    candidate has; "the one on b1", "the bishop", "from g1", "long", and the move said anew.
    """
    words = language_of(language)
    moves = list(candidates)
    if len(moves) < 2:
        return None
    text = plain(said)
    asked = which(moves, board, words)
    exact = [
        move
        for move, word in zip(moves, asked.words, strict=True)
        if word.casefold() == text.casefold().strip(".!?, ")
    ]
    if len(exact) == 1:
        return exact[0]
    heard = slots(text, words)
    picked = {move for run in runs(heard) for move in _picks(run, moves, board)}
    if len(picked) == 1:
        return picked.pop()
    if not picked:
        anew = matching([meaning for run in runs(heard) for meaning in meanings(run)], board, moves)
        return anew[0] if len(anew) == 1 else None
    return None


def _picks(run: Run, moves: list[chess.Move], board: chess.Board) -> list[chess.Move]:
    """The moves that have everything the run names, where it names one kind of thing or a few that agree."""
    tokens = [token for token in run if token.kind not in "foTtcXw"]
    if not tokens or any(token.kind not in "PFRSs" for token in tokens):
        return []
    left = moves
    for token in tokens:
        left = [move for move in left if _has(token.kind, token.value, move, board, moves)]
    return left if len(left) == 1 else []


def _has(kind: str, value: int, move: chess.Move, board: chess.Board, moves: list[chess.Move]) -> bool:
    origin, target = move.from_square, move.to_square
    one_origin = len({m.from_square for m in moves}) == 1
    if kind == "P":
        if move.promotion and len({m.promotion for m in moves}) > 1:
            return move.promotion == value
        if len({board.piece_type_at(m.from_square) for m in moves}) > 1:
            return board.piece_type_at(origin) == value
        return board.piece_type_at(target) == value or board.piece_type_at(origin) == value
    if kind == "s":
        return board.is_castling(move) and bool(value) == (target > origin)
    if kind == "S":
        return value in (origin, target)
    if kind == "F":
        return (target if one_origin else origin) & 7 == value
    return (target if one_origin else origin) >> 3 == value
