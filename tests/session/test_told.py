"""A lesson told by itself."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import chess
import pytest

from player.session.as_json import as_json, san_of
from player.session.told import tell
from player.stage.happenings import Attempt, Board, Over, Put, Say
from player.stage.state import Telling
from player.world.demo import demo_lessons
from tests.session.sessions import Playing
from tests.stage.sheets import LESSON, sheet_at, sheet_of

DEMOS = sorted(path.name for path in (demo_lessons() or __import__("pathlib").Path()).glob("*.lesson"))


def test_it_comes_to_the_end_with_every_question_passed() -> None:
    told = tell(sheet_of(LESSON))
    assert isinstance(told[-1][1], Over)
    assert [one.grade for _, one in told if isinstance(one, Attempt)] == ["passed", "passed"]


def test_the_clock_never_goes_back_and_the_second_telling_is_the_same() -> None:
    told = tell(sheet_of(LESSON))
    assert all(one[0] <= two[0] for one, two in pairwise(told))
    assert told == tell(sheet_of(LESSON))


def test_thinking_silences_are_kept() -> None:
    told = tell(sheet_of(LESSON))
    for (at, put), (then, _) in pairwise([one for one in told if isinstance(one[1], Put | Attempt)]):
        if isinstance(put, Put):
            assert then - at == put.think_ms == 12_000


def test_speed_and_ear_mode_hold() -> None:
    usual, fast = tell(sheet_of(LESSON)), tell(sheet_of(LESSON), Telling(speed=2.0))
    assert fast[-1][0] < usual[-1][0]
    ear = tell(sheet_of(LESSON), Telling(ear=True))
    assert sum(isinstance(one, Say) for _, one in ear) > sum(isinstance(one, Say) for _, one in usual)


def test_it_is_the_same_telling_that_a_learner_has_who_never_answers() -> None:
    playing = Playing(Telling(voice=False, wait=False)).run()
    assert [one for _, one in tell(sheet_of(LESSON))] == playing.told


def test_without_silences_the_same_things_happen() -> None:
    slow = [one for _, one in tell(sheet_of(LESSON)) if isinstance(one, Say | Board)]
    quick = Playing(replace(Telling(voice=False, wait=False), at_once=True)).run()
    assert [one for one in quick.told if isinstance(one, Say | Board)] == slow


@pytest.mark.parametrize("name", DEMOS)
def test_the_moves_of_a_demo_are_legal_in_told_order(name: str) -> None:
    folder = demo_lessons()
    assert folder is not None
    sheet = sheet_at(folder / name)
    told = [one for _, one in tell(sheet) if isinstance(one, Board) and one.move is not None]
    assert len(told) > 10
    for one in told:
        before = chess.Board(one.place.root)
        for uci in one.place.moves[:-1]:
            before.push_uci(uci)
        san = san_of(one)
        assert san is not None and before.parse_san(san).uci() == one.move
        known = as_json(one, sheet)
        before.push_uci(one.move or "")
        assert known["fen"] == before.fen() and known["san"] == san
