"""Who is said to be up what."""

from __future__ import annotations

import chess
import pytest

from player.facts.balance import ahead_by, in_words


@pytest.mark.parametrize(
    ("fen", "said"),
    [
        ("3qk3/8/8/8/8/8/8/R3K3 w - - 0 1", "Black is up a queen for a rook."),
        ("4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "White is up a rook."),
        ("r3k3/8/8/8/8/8/8/B3K3 w - - 0 1", "Black is up the exchange."),
        ("n3k3/8/8/8/8/8/PPP5/4K3 w - - 0 1", "White is up three pawns for a piece."),
        (chess.STARTING_FEN, "Material is equal."),
    ],
)
def test_the_side_with_more_is_the_one_that_is_up(fen: str, said: str) -> None:
    board = chess.Board(fen)
    assert in_words(ahead_by(board, chess.WHITE), chess.WHITE) == said
    other = in_words(ahead_by(board, chess.BLACK), chess.BLACK)
    assert other.split()[0] == said.split()[0] or "three pawns" in said
