"""What refutes a move, by mate in one or by the capture routine."""

from __future__ import annotations

import random

import chess
import pytest

from player.facts.exchange import VALUES, best_gain
from player.facts.refute import refutation
from player.wording.refuted import refuted_sentence


def plain(board: chess.Board, depth: int = 8) -> int:
    """The same routine written the slow way: no cutting, no order."""
    best = 0
    if not depth:
        return best
    for move in board.legal_moves:
        if not board.is_capture(move) and not move.promotion:
            continue
        taken = chess.PAWN if board.is_en_passant(move) else board.piece_type_at(move.to_square)
        gain = VALUES[taken] if taken and board.is_capture(move) else 0
        gain += VALUES[move.promotion] - 1 if move.promotion else 0
        board.push(move)
        best = max(best, gain - plain(board, depth - 1))
        board.pop()
    return best


@pytest.mark.parametrize("seed", range(60))
def test_the_routine_agrees_with_its_slow_twin(seed: int) -> None:
    dice = random.Random(seed)
    board = chess.Board()
    for _ in range(dice.randrange(70, 120)):
        moves = list(board.legal_moves)
        if not moves:
            break
        takes = [m for m in moves if board.is_capture(m)]
        board.push(dice.choice(takes if takes and dice.random() < 0.5 else moves))
    if len(board.piece_map()) <= 14:
        assert best_gain(board, 1_000_000) == plain(board, 30)


def test_fools_mate_is_found() -> None:
    # Fool's mate, from memory: 1. f3 e5 2. g4 Qh4 is mate.
    board = chess.Board()
    for san in ("f3", "e5"):
        board.push_san(san)
    found = refutation(board, board.parse_san("g4"))
    assert found is not None
    assert found.kind == "mate"
    assert refuted_sentence(board, board.parse_san("g4")) == (
        "After g4 comes Qh4#, and that is mate.",
        "board",
    )


def test_a_man_that_falls_is_named() -> None:
    board = chess.Board()
    for san in ("Nf3", "d5"):
        board.push_san(san)
    sentence, standing = refuted_sentence(board, board.parse_san("e4"))
    assert (sentence, standing) == ("After e4 comes dxe4, and the pawn on e4 falls.", "board")


def test_a_sound_move_is_not_called_wrong() -> None:
    board = chess.Board()
    sentence, standing = refuted_sentence(board, board.parse_san("e4"))
    assert standing == "unknown"
    assert "e4" in sentence
    assert "e2" in sentence


def test_winning_first_and_losing_less_is_no_refutation() -> None:
    board = chess.Board("4k3/8/3p4/4q3/8/5N2/8/4K3 w - - 0 1")
    assert refutation(board, board.parse_san("Nxe5")) is None
