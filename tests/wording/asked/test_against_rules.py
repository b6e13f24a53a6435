"""Answers about moves, checks and counts compared with the rules, on positions of random games."""

from __future__ import annotations

import json

import chess
from hypothesis import given, settings
from hypothesis import strategies as st

from player.wording.asked import ask_board
from tests.wording.asked.test_against_slow import answer, boards, hits
from tests.wording.asked.test_asked_by_others import FILE

_QUESTIONS = sorted({json.loads(line)["question"] for line in FILE.read_text(encoding="utf-8").splitlines()})


@settings(max_examples=40, deadline=None)
@given(boards(), st.sampled_from(chess.SQUARES))
def test_attackers_as_they_are_counted(board: chess.Board, square: int) -> None:
    here = chess.SQUARE_NAMES[square]
    man = board.piece_at(square)
    if man is None:
        both = hits(board, True, square) | hits(board, False, square)
        assert set(answer(board, f"what attacks {here}").squares) == both
        return
    attacked, guarded = hits(board, not man.color, square), _guards(board, man.color, square)
    assert answer(board, f"how many attackers on {here}").number == len(attacked)
    more = answer(board, f"is {here} attacked more often than it is defended")
    assert more.yes is (len(attacked) > len(guarded))
    if man.piece_type != chess.KING:
        assert set(answer(board, f"what defends {here}").squares) == guarded


def _guards(board: chess.Board, colour: bool, square: int) -> set[int]:
    """Who could take back on a square, were an enemy man there."""
    return set(board.attackers(colour, square))


@settings(max_examples=40, deadline=None)
@given(boards(), st.data())
def test_what_is_legal_and_what_it_does(board: chess.Board, data: st.DataObject) -> None:
    legal = list(board.legal_moves)
    if not legal:
        return
    move = data.draw(st.sampled_from(legal))
    san = board.san(move)
    after = board.copy()
    after.push(move)
    assert answer(board, f"is {san} legal").yes is True
    assert answer(board, f"is {san} check").yes is after.is_check()
    assert answer(board, f"is {san} mate").yes is after.is_checkmate()
    assert answer(board, f"is {san} a capture").yes is board.is_capture(move)
    told = answer(board, f"what happens after {san}").text
    assert ("check" in told) == (after.is_check() and not after.is_checkmate())
    assert ("is mate" in told.partition(". ")[0]) == after.is_checkmate()
    taken = answer(board, f"what can take it after {san}")
    if not after.is_game_over():
        takers = {m.from_square for m in after.legal_moves if m.to_square == move.to_square}
        assert set(taken.squares) == takers


@settings(max_examples=40, deadline=None)
@given(boards(), st.sampled_from([1, 2, 3, 4, 5]), st.sampled_from(chess.SQUARES))
def test_what_is_no_move_is_not_legal(board: chess.Board, kind: int, square: int) -> None:
    letter = chess.piece_symbol(kind).upper() if kind > 1 else ""
    words = f"{letter}{chess.SQUARE_NAMES[square]}"
    could = [
        m for m in board.legal_moves if m.to_square == square and board.piece_type_at(m.from_square) == kind
    ]
    could = [m for m in could if kind > 1 or not board.is_capture(m)]
    reply = ask_board(board, f"is {words} legal")
    assert reply is not None
    if not could and any(board.legal_moves) and not _reachable(board, kind, square):
        assert reply.yes is not True, reply
    if len(could) == 1:
        assert reply.yes is True, reply


def _reachable(board: chess.Board, kind: int, square: int) -> bool:
    """Whether some legal move could be meant by it all the same: a capture said without its mark."""
    return any(
        m.to_square == square and board.piece_type_at(m.from_square) == kind for m in board.legal_moves
    )


@settings(max_examples=60, deadline=None)
@given(boards())
def test_ways_out_of_check_are_the_legal_moves(board: chess.Board) -> None:
    reply = answer(board, "how many ways out of check")
    if board.is_check() and not board.is_checkmate():
        assert reply.number == board.legal_moves.count()
        king = board.king(board.turn)
        by = next(iter(board.checkers()))
        block = answer(board, "can I block the check")
        blocks = {
            m
            for m in board.legal_moves
            if m.from_square != king and m.to_square != by and not board.is_en_passant(m)
        }
        assert set(block.moves) == blocks
    assert answer(board, "does white have a move").yes in (
        None,
        board.turn == chess.WHITE and any(board.legal_moves),
    )


@settings(max_examples=40, deadline=None)
@given(boards(), st.sampled_from(["pawn", "knight", "bishop", "rook", "queen"]))
def test_takes_and_counts_by_kind(board: chess.Board, kind: str) -> None:
    number = chess.PIECE_NAMES.index(kind)
    white, black = (len(board.pieces(number, side)) for side in (True, False))
    assert answer(board, f"how many {kind}s does each side have").number == white + black
    who = "white" if board.turn else "black"
    takes = answer(board, f"can {who} take a {kind}")
    can = [
        m
        for m in board.legal_moves
        if board.is_capture(m)
        and (board.piece_type_at(m.to_square) or chess.PAWN) == number
        and board.color_at(m.to_square) != board.turn
    ]
    if board.pieces(number, not board.turn):
        assert set(takes.moves) == set(can), takes


@settings(max_examples=12, deadline=None)
@given(boards(), st.lists(st.sampled_from(_QUESTIONS), min_size=12, max_size=12))
def test_every_question_can_be_put_to_any_board(board: chess.Board, questions: list[str]) -> None:
    for words in questions:
        reply = ask_board(board, words)
        assert reply is not None
        assert reply.text.endswith((".", "?")), (words, reply)
        assert len(reply.text.split()) < 120
        assert not reply.text[0].islower() or reply.text[:2] in chess.SQUARE_NAMES, (words, reply)


@settings(max_examples=40, deadline=None)
@given(boards())
def test_castled_is_what_was_played(board: chess.Board) -> None:
    """Whether a side has castled is asked of the moves, not of the right."""
    replay = board.root()
    sides = set()
    for move in board.move_stack:
        if replay.is_castling(move):
            sides.add(replay.turn)
        replay.push(move)
    for side, who in ((True, "white"), (False, "black")):
        assert answer(board, f"has {who} castled").yes is (side in sides)
