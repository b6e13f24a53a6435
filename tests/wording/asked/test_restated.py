"""The same question in other words, and two questions in one."""

from __future__ import annotations

import chess

from player.wording.asked import ask_board, query_of
from player.wording.asked.computed import computed_answers

OPEN = chess.Board("r1bqkb1r/pppp1ppp/2n2n2/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR w KQkq - 4 4")


def test_a_question_is_understood_in_other_words() -> None:
    for words in ("isn't e5 guarded?", "e5 is guarded, right?", "the e5 pawn is defended right"):
        reply = ask_board(OPEN, words)
        assert reply is not None and reply.yes is True, words
    pinned = ask_board(OPEN, "is the knight on f6 not pinned")
    assert pinned is not None and pinned.yes is False


def test_two_questions_are_answered_or_the_first_and_so_said() -> None:
    both = ask_board(OPEN, "what attacks f7 and what guards it")
    assert both is not None
    assert "attacked by" in both.text and "guarded by" in both.text
    first = ask_board(OPEN, "is Qxf7 mate or can the king just take it")
    assert first is not None and "first of two questions" in first.text


def test_it_is_the_move_that_was_named() -> None:
    reply = ask_board(OPEN, "is Qxf7 check or mate")
    assert reply is not None and reply.text.startswith("Yes") and "mate" in reply.text


def test_what_if_stays_a_thing_to_do() -> None:
    assert query_of("what if Nf3") is None
    assert query_of("what if i play h3 instead") is None


def test_what_a_man_watches_is_computed_for_one_man_only() -> None:
    board = chess.Board()
    board.push_san("Nf3")
    assert computed_answers(board, "Which square does the knight watch?", "square") is None
    lone = chess.Board("4k3/8/8/8/8/8/4p3/N3K3 w - - 0 1")
    assert computed_answers(lone, "Which squares does the knight watch?", "square") == ("c2", "b3")
