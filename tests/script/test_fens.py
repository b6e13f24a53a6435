"""What is said of a FEN that cannot be read. The fields are those of the PGN standard, section 16.1."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.script.boards import NoBoard, board_of
from player.script.here import beginning

ENDING = "8/8/8/4k3/8/4K3/4P3/8 w - - 0 1"


def told(fen: str) -> str:
    found = board_of(fen, beginning(), {}, "en")
    return found.message if isinstance(found, NoBoard) else ""


@pytest.mark.parametrize(
    ("fen", "said"),
    [
        ("8/8/8/9/8/8/8/8 w - - 0 1", "Rank 5 of this FEN is 9, and has in it 9, which is neither"),
        ("8/8/8/4k3/8/4K3/4P3 w - - 0 1", "has 7 ranks"),
        ("8/8/8/4k3/8/4K3/4P2/8 w - - 0 1", "Rank 2 of this FEN is 4P2, and makes 7 squares"),
        ("8/8/8/4k3/8/4K3/4PP3/8 w - - 0 1", "Rank 2 of this FEN is 4PP3, and makes 9 squares"),
        ("8/8/8/4S3/8/4K3/4P3/8 w - - 0 1", "Rank 5 of this FEN is 4S3, and has in it S"),
        ("8/8/8/22k3/8/4K3/4P3/8 w - - 0 1", "two numbers side by side"),
        ("8/8/8/4k3/8/4K3/4P3/8 White - - 0 1", "who is to move"),
        ("8/8/8/4k3/8/4K3/4P3/8 w - e9 0 1", "The end of this FEN"),
    ],
)
def test_the_first_fault_is_told(fen: str, said: str) -> None:
    assert said in told(fen)


def test_a_right_one_has_no_trouble() -> None:
    assert told(ENDING) == ""


@given(st.integers(0, len(ENDING) - 1), st.sampled_from("19kKpx/ w-"))
def test_any_slip_gets_plain_sentences_or_is_none(at: int, letter: str) -> None:
    """One letter changed: whatever python-chess refuses gets a sentence of ours, and nothing else does."""
    fen = f"{ENDING[:at]}{letter}{ENDING[at + 1 :]}"
    if fen.split(" ", 1)[0].count("/") < 3:
        return
    try:
        chess.Board(fen)
    except ValueError:
        assert told(fen).endswith(".")
        assert "position part" not in told(fen)
    else:
        assert told(fen) == ""
