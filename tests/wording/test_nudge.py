"""Nudges: true, rung by rung, and silent about the move until the last."""

from __future__ import annotations

import re
from pathlib import Path

import chess
import pytest

from player.facts.place import Place
from player.wording.hear import MoveHeard, hear
from player.wording.nudge import RUNGS, left, reached, rungs

_CORPUS = Path(__file__).parents[1] / "corpus" / "middlegames.txt"
_ROWS = [line.rsplit(" ", 1) for line in _CORPUS.read_text("utf-8").splitlines() if not line.startswith("#")]


@pytest.mark.parametrize(("fen", "answer"), _ROWS)
def test_four_rungs_are_true_and_only_the_last_names_the_move(fen: str, answer: str) -> None:
    board, move = chess.Board(fen), chess.Move.from_uci(answer)
    given = rungs(Place(fen), answer)
    assert len(given) == RUNGS
    for text in given[:3]:
        assert not re.search(r"\b[a-h][1-8]\b", text)
        assert not isinstance(hear(board, text.rstrip(".")), MoveHeard)
    to = chess.SQUARE_NAMES[move.to_square]
    assert to in given[3] or board.is_castling(move)
    kind = chess.piece_name(board.piece_type_at(move.from_square) or 1)
    assert kind in given[1]
    area(board, move, given[2])


def area(board: chess.Board, move: chess.Move, text: str) -> None:
    """The area holds the square, and it does not give the move away where it is a file."""
    files = {"queenside": "abc", "middle files": "de", "kingside": "fgh"}
    file = "abcdefgh"[move.to_square & 7]
    named = re.search(r"the ([a-h])-file", text)
    if named:
        assert named[1] == file
        kind = board.piece_type_at(move.from_square)
        same = {
            one.to_square
            for one in board.legal_moves
            if board.piece_type_at(one.from_square) == kind and one.to_square & 7 == move.to_square & 7
        }
        assert len(same) > 1
    for wing, letters in files.items():
        assert wing not in text or file in letters
    if "half" in text:
        assert ("your own" in text) == ((move.to_square >> 3 < 4) == board.turn)


OPENING = Place().then("g1f3", "d7d5", "g2g3", "g8f6", "f1g2", "e7e6")


def test_castling_is_helped_towards_without_being_named() -> None:
    given = rungs(OPENING, "e1g1")
    assert given[:3] == (
        "Think of your own king first.",
        "The king moves, and he does not move alone.",
        "Look along White's first rank.",
    )
    assert given[3].startswith("Castling kingside, because it ")


def test_the_coachs_idea_is_the_first_rung() -> None:
    assert rungs(OPENING, "e1g1", ("the long diagonal",))[0] == "Think of the long diagonal."


def test_a_threat_is_the_first_thing_to_think_of() -> None:
    # The scholar's mate, from memory: 1. e4 e5 2. Bc4 Nc6 3. Qh5.
    place = Place().then("e2e4", "e7e5", "f1c4", "b8c6", "d1h5")
    assert rungs(place, "g7g6")[0] == "What does the other side threaten? Answer that first."


@pytest.mark.parametrize(
    ("coach", "rung"),
    [
        ((), 0),
        (("Most of the queen's side still sleeps.",), 1),
        (("A knight would like to move.",), 2),
        (("Look at the d-file.",), 3),
        (("Knight to d2, because it guards e4.",), 4),
        (("One.", "Two."), 2),
        (("One.", "Two.", "Three."), 3),
        (("One.", "Two.", "Three.", "Four."), 4),
    ],
)
def test_the_coachs_nudges_come_first_and_leave_the_higher_rungs(coach: tuple[str, ...], rung: int) -> None:
    place = OPENING.then("e1g1", "f8e7", "d2d3", "e8g8")
    assert reached(place, "b1d2", coach) == rung
    assert left(place, "b1d2", (), coach) == rungs(place, "b1d2")[rung:]


def test_a_move_that_is_not_legal_has_no_nudges() -> None:
    with pytest.raises(ValueError, match="not legal"):
        rungs(Place(), "e2e5")


def test_a_man_that_is_won_is_the_reason() -> None:
    place = Place("4k3/8/8/3n4/8/2N5/8/4K3 w - - 0 1")
    assert rungs(place, "c3d5")[3].startswith("Knight takes d5, because it wins at least a piece's worth")
