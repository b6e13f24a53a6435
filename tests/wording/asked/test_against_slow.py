"""Answers compared with a slow look at the board, square by square, on positions of random games."""

from __future__ import annotations

import chess
from hypothesis import given, settings
from hypothesis import strategies as st

from player.wording.asked import BoardReply, ask_board


@st.composite
def boards(draw: st.DrawFn) -> chess.Board:
    board = chess.Board()
    for _ in range(draw(st.integers(0, 60))):
        moves = list(board.legal_moves)
        if not moves:
            break
        board.push(draw(st.sampled_from(moves)))
    return board


def answer(board: chess.Board, words: str) -> BoardReply:
    reply = ask_board(board, words)
    assert reply is not None, words
    return reply


def hits(board: chess.Board, colour: bool, target: int) -> set[int]:
    """Who attacks a square, by putting an enemy man there and looking for pseudo-legal captures."""
    bare = board.copy(stack=False)
    bare.set_piece_at(target, chess.Piece(chess.ROOK, not colour))
    bare.turn = colour
    return {m.from_square for m in bare.pseudo_legal_moves if m.to_square == target}


@settings(max_examples=40, deadline=None)
@given(boards(), st.sampled_from(chess.SQUARES))
def test_attackers_and_counts(board: chess.Board, square: int) -> None:
    here = chess.SQUARE_NAMES[square]
    for colour, side in ((True, "white"), (False, "black")):
        found = answer(board, f"what does {side} attack {here} with")
        assert set(found.squares) == hits(board, colour, square)
        counted = answer(board, f"how many times does {side} attack {here}")
        assert counted.number == len(hits(board, colour, square))


@settings(max_examples=40, deadline=None)
@given(boards())
def test_lists_of_moves(board: chess.Board) -> None:
    legal = set(board.legal_moves)
    assert answer(board, "how many legal moves are there").number == len(legal)
    assert set(answer(board, "what captures are there").moves) == {m for m in legal if board.is_capture(m)}
    checks, mates = set(), set()
    for move in legal:
        after = board.copy(stack=False)
        after.push(move)
        if after.king(after.turn) in {m.to_square for m in _any_move(after)}:
            checks.add(move)
            if not any(after.legal_moves):
                mates.add(move)
    assert set(answer(board, "what checks are there").moves) == checks
    assert set(answer(board, "which moves mate").moves) == mates


def _any_move(board: chess.Board) -> list[chess.Move]:
    """What the side that just moved could do next, legal or not."""
    other = board.copy(stack=False)
    other.turn = not board.turn
    return list(other.pseudo_legal_moves)


@settings(max_examples=40, deadline=None)
@given(boards())
def test_unguarded_and_counts_of_men(board: chess.Board) -> None:
    for colour, side in ((True, "white"), (False, "black")):
        own = [
            s for s in chess.SQUARES if (p := board.piece_at(s)) and p.color == colour and p.piece_type != 6
        ]
        loose = {s for s in own if not hits(board, colour, s)}
        assert set(answer(board, f"which {side} men are undefended").squares) == loose
        pawns = [s for s in own if board.piece_type_at(s) == chess.PAWN]
        assert answer(board, f"how many pawns does {side} have").number == len(pawns)
        passed = set()
        for square in pawns:
            ahead = range((square >> 3) + 1, 8) if colour else range(square >> 3)
            files = {square & 7, (square & 7) - 1, (square & 7) + 1}
            enemy = chess.Piece(chess.PAWN, not colour)
            if not any(board.piece_at(f + 8 * r) == enemy for f in files if 0 <= f < 8 for r in ahead):
                passed.add(square)
        assert set(answer(board, f"which {side} pawns are passed").squares) == passed


@settings(max_examples=40, deadline=None)
@given(boards())
def test_hanging_men_can_be_taken(board: chess.Board) -> None:
    for colour, side in ((True, "white"), (False, "black")):
        reply = answer(board, f"which {side} men are hanging")
        if board.turn == colour and board.is_check():
            assert reply.standing == "unknown"
            continue
        given_ = board.copy(stack=False)
        if given_.turn == colour:
            given_.push(chess.Move.null())
        taken = {
            # A pawn taken in passing stands beside its taker.
            chess.square(m.to_square & 7, m.from_square >> 3) if given_.is_en_passant(m) else m.to_square
            for m in given_.legal_moves
            if given_.is_capture(m)
        }
        for square in reply.squares:
            assert board.color_at(square) == colour
            assert square in taken
        assert {s for s in taken if not hits(board, colour, s)} <= set(reply.squares)
