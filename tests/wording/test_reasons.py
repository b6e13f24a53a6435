"""Illegal answers get the right reason, in one sentence that names what stops the move."""

from __future__ import annotations

import chess
import pytest

from player.wording.hear import Illegal, hear
from player.wording.hearing import REASONS
from tests.wording.illegal_cases import cases


def _check(number: int, seed: int) -> set[str]:
    wrong = []
    met = set()
    for case in cases(number, seed):
        heard = hear(case.board, case.said)
        if not isinstance(heard, Illegal) or heard.reason != case.reason:
            wrong.append((case.board.fen(), case.said, case.reason, heard))
            continue
        met.add(heard.reason)
        assert heard.sentence.endswith(".") and len(heard.sentence) < 130
        assert all(square in heard.sentence for square in case.squares), heard
    assert not wrong
    return met


def test_five_hundred_illegal_answers_get_the_right_reason() -> None:
    made = cases(500)
    assert len(made) == 500
    assert _check(500, seed=7) == set(REASONS)


@pytest.mark.large
def test_thousands_of_illegal_answers_get_the_right_reason() -> None:
    assert _check(6000, seed=8) == set(REASONS)


@pytest.mark.parametrize(
    ("fen", "said", "sentence"),
    [
        (chess.STARTING_FEN, "Bc4", "The bishop on f1 cannot reach c4: its own pawn on e2 is in the way."),
        (chess.STARTING_FEN, "Nd2", "White's own pawn stands on d2."),
        (chess.STARTING_FEN, "e7e5", "The pawn on e7 is Black's, and it is White's move."),
        (chess.STARTING_FEN, "exd3", "There is nothing to take on d3."),
        ("4k3/8/8/8/1b6/2N5/8/4K3 w - - 0 1",
         "Ne4", "The knight on c3 is pinned to the king on e1 by the bishop on b4."),
        ("4k3/4r3/8/8/8/8/8/3K4 w - - 0 1", "Ke1",
         "The king cannot go to e1: the rook on e7 attacks that square."),
        ("4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1",
         "O-O", "The king would cross f1, which the rook on f8 attacks."),
        ("4k3/8/8/8/4r3/8/8/R3K2R w KQ - 0 1", "castle",
         "White is in check from the rook on e4, and castling is no way out of check."),
        ("4k3/8/8/8/8/8/8/R3K2R w Q - 0 1", "0-0", "White has lost the right to castle kingside."),
        ("8/3P4/8/8/8/8/k7/2K5 w - - 0 1",
         "d8=K", "A pawn cannot become a king: only a queen, a rook, a bishop or a knight."),
        (chess.STARTING_FEN, "Ni4",
         "There is no i4 on the board: files run from a to h and ranks from 1 to 8."),
        ("4k3/8/8/8/8/8/8/4K3 w - - 0 1", "knight to f3", "White has no knight."),
    ],
)  # fmt: skip
def test_the_sentence_names_what_stops_it(fen: str, said: str, sentence: str) -> None:
    heard = hear(chess.Board(fen), said)
    assert isinstance(heard, Illegal)
    assert heard.sentence == sentence


def test_the_nearest_miss_is_told_pinned_before_blocked_before_wrong_movement() -> None:
    # Three knights: one pinned that could go to d5, the others far from it.
    board = chess.Board("4k3/8/8/8/1b6/2N5/8/N3K2N w - - 0 1")
    heard = hear(board, "Nd5")
    assert isinstance(heard, Illegal) and heard.reason == "pinned" and "c3" in heard.sentence
    # One rook blocked, the other with no way at all.
    board = chess.Board("4k3/8/8/8/8/P7/8/R3K2R w - - 0 1")
    heard = hear(board, "Ra5")
    assert isinstance(heard, Illegal) and heard.reason == "blocked" and "a3" in heard.sentence
