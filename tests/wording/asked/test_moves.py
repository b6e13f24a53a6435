"""A way of saying a move is never taken for a question, and a question never for a move."""

from __future__ import annotations

import chess

from player.wording.asked import looks_asked, query_of
from player.wording.hear import MoveHeard, hear
from player.wording.say import say
from tests.wording.asked.corpus import cases


def test_no_move_is_a_question() -> None:
    for case in cases():
        for move in list(case.board.legal_moves)[::5]:
            told = say(case.board, move)
            for words in (case.board.san(move), told.spoken, told.shown, move.uci()):
                assert not (looks_asked(words) and query_of(words)), words
        if case.number > 60:
            break


def test_no_question_is_a_move() -> None:
    board = chess.Board()
    taken = [case.words for case in cases() if isinstance(hear(board, case.words), MoveHeard)]
    assert not taken
