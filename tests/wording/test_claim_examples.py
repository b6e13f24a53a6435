"""The page of claims holds what it says: each sentence on it is proved true once, and once false."""

from __future__ import annotations

import re
from pathlib import Path

import chess
import pytest

import player
from player.facts.claim import Last
from player.facts.prove import KINDS, prove
from player.wording.claim_forms import EXAMPLES
from player.wording.claims import claim_of
from tests.wording.claim_examples import PROVED

PAGE = (Path(player.__file__).parent / "help" / "claims.md").read_text(encoding="utf-8")
SAID = re.findall(r"^\| (?!sentence|-)(.+?) \|", PAGE, re.MULTILINE) + re.findall(
    r"^- `(.+?)`:", PAGE, re.MULTILINE
)
BY_MOVES = {
    "it is a repetition",
    "it is a threefold repetition",
    "the position is the same as the first door",
}


@pytest.mark.parametrize("sentence", PROVED)
def test_it_is_true_here_and_false_there(sentence: str) -> None:
    claim = claim_of(sentence)
    assert claim is not None
    for fen, verdict in zip(PROVED[sentence], ("true", "false"), strict=True):
        found = prove(claim, chess.Board(fen))
        assert (found.kind, fen) == (verdict, fen)
        assert found.because.endswith(".")


def test_those_that_need_moves_or_marks() -> None:
    board = chess.Board()
    repeated, threefold, same = (claim_of(sentence) for sentence in sorted(BY_MOVES))
    assert repeated and threefold and same
    verdicts = []
    for move in ("Nf3", "Nf6", "Ng1", "Ng8") * 2:
        board.push_san(move)
        verdicts.append(tuple(prove(claim, board).kind == "true" for claim in (repeated, threefold)))
    # The starting position stands there again after the fourth and the eighth move, those between after four.
    assert verdicts == [(False, False)] * 3 + [(True, False)] * 4 + [(True, True)]
    assert prove(same, board, labels={"first door": chess.Board()}).kind == "true"
    assert (
        prove(same, board, labels={"first door": chess.Board("8/8/8/8/8/8/8/K1k5 w - - 0 1")}).kind == "false"
    )
    assert prove(same, board).kind == "not-understood"


def test_a_claim_may_leave_out_the_move_just_told() -> None:
    board = chess.Board("r3k3/8/8/3N4/8/8/8/4K3 w q - 0 1")
    last = Last(board.copy(), board.push_san("Nc7+"))
    claim = claim_of("forks e8 and a8")
    assert claim
    assert prove(claim, board, last).kind == "true"
    assert prove(claim, board).kind == "false"


def test_every_kind_stands_on_the_page_and_every_sentence_there_is_proved() -> None:
    assert set(EXAMPLES) <= set(SAID)
    assert set(PROVED) | BY_MOVES == set(SAID)
    assert {claim.kind for claim in map(claim_of, SAID) if claim} == set(KINDS)
    assert len(SAID) == len(set(SAID)) >= 40
