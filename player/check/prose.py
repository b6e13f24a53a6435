"""Prose against the board: what narration, questions and replies say of it, doubted where it is not so."""

from __future__ import annotations

from collections.abc import Iterator

from player.check.doubt import Doubt
from player.check.hits import hit_doubts
from player.check.nudging import nudging_doubts
from player.check.passages import Boards, Passage, Where, passages_of
from player.check.standing import standing_doubts
from player.check.telling import telling_doubts
from player.script.faults import Fault
from player.script.told import ToldLesson


def prose_doubts(source: str, told: ToldLesson) -> Iterator[Fault]:
    """A query for each part of the prose that the board, or the game's own line, speaks against."""
    if told.header.language != "en":
        return
    boards, where = Boards(), Where(source)
    for passage in passages_of(told.body):
        seen: list[tuple[int, int]] = []
        for doubt in _doubts(passage, boards, told):
            if any(start < doubt.end and doubt.start < end for start, end in seen):
                continue
            seen.append((doubt.start, doubt.end))
            spot = where.spot(passage, doubt.start, doubt.end)
            yield Fault(spot.line, spot.column, spot.width, "query", doubt.code, doubt.message, doubt.fix)


def _doubts(passage: Passage, boards: Boards, told: ToldLesson) -> Iterator[Doubt]:
    side = told.header.side
    yield from nudging_doubts(passage, boards)
    yield from standing_doubts(passage, boards, side)
    yield from telling_doubts(passage, boards, side, {})
    yield from hit_doubts(passage, boards, side)
