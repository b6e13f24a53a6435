"""Mates in one to three against published lists; `tests/outside/claims_published.py` names them."""

from __future__ import annotations

import chess
import pytest

from tests.facts.claimed import judged
from tests.outside.claims_published import MATETRACK, WIN_AT_CHESS


def proved_in_exactly(fen: str, moves: int) -> chess.Move:
    """The key that is found, where mate in so many is true and in fewer is false."""
    found = judged(fen, f"mate in {moves}")
    assert (found.kind, found.doubt) == ("true", "")
    if moves > 1:
        assert judged(fen, f"mate in {moves - 1}").kind == "false"
    assert found.move is not None
    return found.move


@pytest.mark.parametrize(("name", "fen", "moves", "key"), WIN_AT_CHESS)
def test_win_at_chess(name: str, fen: str, moves: int, key: str) -> None:
    proved_in_exactly(fen, moves)
    assert judged(fen, f"{key} forces mate in {moves}").kind == "true"
    assert judged(fen, f"{key} forces mate in {moves - 1}").kind == "false"


@pytest.mark.parametrize(("fen", "moves", "keys"), MATETRACK)
def test_matetrack(fen: str, moves: int, keys: str) -> None:
    found = proved_in_exactly(fen, moves)
    board = chess.Board(fen)
    wanted = {board.parse_san(key) for key in keys.split()}
    if not wanted:
        # 117 legal moves of which 105 force mate in two, by the list's own count.
        assert board.legal_moves.count() == 117
        return
    assert found in wanted
    for move in board.legal_moves:
        verdict = judged(fen, f"{move.uci()} forces mate in {moves}").kind
        assert verdict == ("true" if move in wanted else "false"), board.san(move)
