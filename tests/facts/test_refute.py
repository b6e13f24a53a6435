"""What refutes a move, by mate in one or by the capture routine."""

from __future__ import annotations

import random

import chess
import pytest

from player.facts.exchange import best_gain
from player.facts.material import VALUES
from player.facts.refute import refutation
from player.wording.refuted import refuted_sentence


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
    assert refuted_sentence(board, board.parse_san("g4")) == (
        "After g4 comes queen h4, and that is mate.",
        "board",
    )


def after(*sans: str) -> chess.Board:
    board = chess.Board()
    for san in sans:
        board.push_san(san)
    return board


@pytest.mark.parametrize(
    ("fen", "san", "sentence"),
    [
        (after("Nf3", "d5").fen(), "e4", "After e4 the pawn on d5 takes it."),
        (
            "4k3/8/3p4/4p3/8/5N2/8/4K3 w - - 0 1",
            "Nxe5",
            "After knight takes e5 the pawn on d6 takes it.",
        ),
        ("7k/8/5K2/8/8/8/6Q1/8 w - - 0 1", "Qg6", "After queen g6 Black has no move and is not in check: "
         "stalemate, a draw."),
        ("4k3/8/4K3/4P3/8/8/8/8 w - - 0 1", "Kd5", "White was winning here; after king d5 it is a draw with "
         "best play."),
        ("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1", "Kd5", None),
        ("8/8/8/8/P4k2/8/8/7K b - - 0 1", "Kf3", "This was a draw; after king f3 White wins with best play."),
        (
            "6k1/8/8/8/2n5/8/8/1R3R1K w - - 0 1",
            "Kg2",
            "After king g2 comes knight e3, which hits the rook on f1 and the king on g2 and wins material.",
        ),
    ],
)  # fmt: skip
def test_the_reply_names_what_refutes(fen: str, san: str, sentence: str | None) -> None:
    board = chess.Board(fen)
    said, standing = refuted_sentence(board, board.parse_san(san))
    if sentence is None:
        assert standing == "unknown"
        assert "nobody has said" in said
    else:
        assert (said, standing) == (sentence, "board")


def test_a_pawn_taken_en_passant_is_named_where_it_stands() -> None:
    board = chess.Board("4k3/8/8/8/3p4/8/4P3/4K3 w - - 0 1")
    found = refutation(board, board.parse_san("e4"))
    assert found is not None
    assert (found.reply, found.square) == (chess.Move.from_uci("d4e3"), chess.E4)


def test_a_sound_move_is_not_called_wrong() -> None:
    board = chess.Board()
    sentence, standing = refuted_sentence(board, board.parse_san("e4"))
    assert standing == "unknown"
    assert "e4" in sentence
    assert "e2" in sentence


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
        sentence, standing = refuted_sentence(board, move)
        assert (standing == "board") == (found is not None)
        if found is None:
            assert chess.square_name(move.from_square) in sentence
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
