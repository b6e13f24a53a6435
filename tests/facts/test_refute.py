"""What refutes a move, by mate in one or by the capture routine."""

from __future__ import annotations

import random

import chess
import pytest

from player.facts.exchange import best_gain
from player.facts.material import VALUES
from player.facts.refute import refutation


def plain(board: chess.Board, depth: int = 8) -> int:
    """The same routine written the slow way: no cutting, no order."""
    best = 0
    if not depth:
        return best
    for move in board.legal_moves:
        if not board.is_capture(move):
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
    board = after("f3", "e5")
    found = refutation(board, board.parse_san("g4"))
    assert found is not None
    assert found.kind == "mate"


def after(*sans: str) -> chess.Board:
    board = chess.Board()
    for san in sans:
        board.push_san(san)
    return board


def test_a_pawn_taken_en_passant_is_named_where_it_stands() -> None:
    board = chess.Board("4k3/8/8/8/3p4/8/4P3/4K3 w - - 0 1")
    found = refutation(board, board.parse_san("e4"))
    assert found is not None
    assert (found.reply, found.square) == (chess.Move.from_uci("d4e3"), chess.E4)


def test_a_sound_move_is_not_called_wrong() -> None:
    board = chess.Board()
    assert refutation(board, board.parse_san("e4")) is None


def test_winning_first_and_losing_less_is_no_refutation() -> None:
    board = chess.Board("4k3/8/3p4/4q3/8/5N2/8/4K3 w - - 0 1")
    assert refutation(board, board.parse_san("Nxe5")) is None


@pytest.mark.parametrize("seed", range(40))
def test_whatever_is_said_is_so_and_names_the_move(seed: int) -> None:
    dice = random.Random(seed)
    board = chess.Board()
    for _ in range(dice.randrange(6, 80)):
        moves = list(board.legal_moves)
        if not moves:
            return
        board.push(dice.choice(moves))
    for move in list(board.legal_moves)[:6]:
        found = refutation(board, move)
        if found is None:
            continue
        board.push(move)
        if found.kind == "mate":
            assert found.reply is not None
            board.push(found.reply)
            assert board.is_checkmate()
            board.pop()
        elif found.kind == "wins":
            assert found.reply is not None
            assert board.is_capture(found.reply) or found.reply.promotion
            assert board.is_legal(found.reply)
        elif found.kind == "fork":
            assert len(found.forked) >= 2
        board.pop()
