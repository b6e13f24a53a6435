"""Answers to a coach's question worked out from the board, and what is true of wrong ones."""

from __future__ import annotations

import chess

from player.wording.asked.computed import computed_answers, man_meant, true_of

PIN = chess.Board("r1bqkbnr/ppp2ppp/2np4/1B2p3/4P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 0 4")


def test_the_last_question_of_a_text_is_answered() -> None:
    assert computed_answers(PIN, "White to move. What is pinned?", "square") == ("c6",)
    assert computed_answers(PIN, "What attacks e5?", "square") == ("f3",)
    assert computed_answers(PIN, "How many pawns has Black?", "count") == ("8",)


def test_a_judgement_has_no_computed_answer() -> None:
    assert computed_answers(PIN, "Who is better?", "count") is None
    assert computed_answers(PIN, "Which square is the prettiest?", "square") is None


def test_what_is_said_of_a_wrong_square_is_about_that_square() -> None:
    assert true_of(PIN, "What is pinned?", chess.F3) == "The white knight on f3 is not pinned."
    assert "does not attack" in true_of(PIN, "What attacks e5?", chess.C6)
    assert true_of(PIN, "Which is the prettiest?", chess.E3) == "e3 is empty."


def test_a_man_is_meant_by_its_kind_only_where_it_stands_alone() -> None:
    assert man_meant(PIN, "the white queen") == chess.D1
    assert man_meant(PIN, "the knight on f3") == chess.F3
    assert man_meant(PIN, "a knight") is None
    assert man_meant(PIN, "the sea") is None
