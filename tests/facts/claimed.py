"""Claims judged by their sentences, for the tests."""

from __future__ import annotations

import random

import chess

from player.facts.budgets import BUDGET
from player.facts.claim import Last, Verdict
from player.facts.prove import prove
from player.wording.claims import claim_of


def judged(board: chess.Board | str, sentence: str, *, budget: int = BUDGET) -> Verdict:
    """The verdict on a sentence; the move just told is the last of the board's stack."""
    board = chess.Board(board) if isinstance(board, str) else board
    claim = claim_of(sentence)
    assert claim is not None, sentence
    last = None
    if board.move_stack:
        before = board.copy()
        last = Last(before, before.pop())
    return prove(claim, board, last, budget=budget)


def kind(board: chess.Board | str, sentence: str) -> str:
    return judged(board, sentence).kind


def holds(board: chess.Board | str, sentence: str) -> bool:
    """Whether it is proved true; it must not be left unproved."""
    found = judged(board, sentence)
    assert found.kind in ("true", "false"), (sentence, found)
    assert found.because
    return found.kind == "true"


def some_boards(number: int, seed: int = 7) -> list[chess.Board]:
    """Positions of random games, with their moves, captures preferred."""
    dice = random.Random(seed)
    out: list[chess.Board] = []
    while len(out) < number:
        board = chess.Board()
        for _ in range(dice.randrange(1, 90)):
            moves = list(board.legal_moves)
            if not moves:
                break
            takes = [move for move in moves if board.is_capture(move)]
            board.push(dice.choice(takes if takes and dice.random() < 0.3 else moves))
        out.append(board)
    return out
