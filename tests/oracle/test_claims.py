"""Claims of every kind, in many wordings, against their definitions worked out a second time."""

from __future__ import annotations

import random
import re

import chess
import pytest

from player.facts.claim import Last
from player.facts.prove import prove
from player.wording.claims import claim_of
from tests.oracle.phrases import MAKERS, claims_about
from tests.oracle.positions import KINDS, positions

SEEDS = range(3)
LARGE = range(100, 300)


def differences(seed: int, count: int) -> tuple[int, list[str]]:
    """How many claims were judged, and each one judged otherwise than the definition has it."""
    rng = random.Random(seed)
    judged, wrong = 0, []
    for board, move in positions(seed, count):
        last, told = _told(board, move)
        for said in claims_about(board, rng):
            if told and re.search(rf"(?<![\w=]){re.escape(told)}(?![\w=])", said.words):
                continue  # it may mean the move just told
            judged += 1
            claim = claim_of(said.words)
            found = "not understood" if claim is None else prove(claim, board, last).kind
            if found != ("true" if said.truth else "false"):
                wrong.append(f"{found}, not {said.truth}: '{said.words}' in {board.fen()} ({said.kind})")
    return judged, wrong


def _told(board: chess.Board, move: chess.Move | None) -> tuple[Last | None, str]:
    if move is None or not board.move_stack:
        return None, ""
    before = board.copy()
    before.pop()
    return Last(before, move), before.san(move).rstrip("+#")


@pytest.mark.parametrize("seed", SEEDS)
def test_no_claim_is_judged_otherwise(seed: int) -> None:
    judged, wrong = differences(seed, len(KINDS))
    assert judged > len(KINDS) * 25
    assert wrong == []


@pytest.mark.large
@pytest.mark.parametrize("seed", LARGE)
def test_no_claim_is_judged_otherwise_over_two_thousand_positions(seed: int) -> None:
    _, wrong = differences(seed, 10)
    assert wrong == []


OFTEN = (
    *("attacked", "count", "undefended", "guarded", "pinned", "check", "forks", "discovers", "threatens"),
    *("legal", "passed", "outpost", "up", "equal", "wins", "legal moves", "piece moves", "file open"),
    *("file closed", "line open", "line closed", "bishop pair", "may castle", "lost castling", "in square"),
    *("to move", "en passant", "in check"),
)


def test_the_claims_drawn_are_of_both_sorts() -> None:
    """A kind whose claims were all true, or all false, would prove little."""
    rng = random.Random(5)
    seen: dict[str, set[bool]] = {}
    for board, _ in positions(5, 55):
        for said in claims_about(board, rng):
            seen.setdefault(said.kind, set()).add(said.truth)
    assert [kind for kind in OFTEN if len(seen[kind]) < 2] == []
    assert len(MAKERS) >= 38
