"""Questions as people ask them: understood, and answered with what is true."""

from __future__ import annotations

from player.wording.asked import answer_query, ask_board, kinds, query_of
from tests.wording.asked.corpus import cases, wrong


def test_questions_are_answered() -> None:
    lost = [
        f"{case.words}: {why}" for case in cases() if (why := wrong(case, ask_board(case.board, case.words)))
    ]
    assert not lost, lost


def test_every_kind_of_question_can_be_answered_anywhere() -> None:
    seen = set()
    every = list(cases())
    boards = {case.board.fen(): case.board for case in every}
    for case in every:
        query = query_of(case.words)
        assert query is not None
        seen.add(query.kind)
        for board in boards.values():
            reply = answer_query(query, board)
            assert reply.kind == query.kind
            assert reply.text.endswith((".", "?")), (case.words, reply)
            assert len(reply.text.split()) < 120
    assert len(seen) >= 45
    assert seen <= set(kinds())
