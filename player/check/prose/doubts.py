"""Prose against the board: what narration, questions and replies say of it, doubted where it is not so."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from player.check.lost import lost_from
from player.check.prose.acting import acting_doubts
from player.check.prose.book import Book, book_of
from player.check.prose.captured import captured_doubts
from player.check.prose.check_near import near_check_doubts
from player.check.prose.checked import checked_doubts
from player.check.prose.chosen import chosen_doubts
from player.check.prose.colours import colour_doubts
from player.check.prose.counting import counting_doubts
from player.check.prose.deeds import deed_doubts
from player.check.prose.doubt import Doubt
from player.check.prose.formed import formed_doubts
from player.check.prose.gone import gone_doubts
from player.check.prose.guarding import Claimed, guarding_doubts
from player.check.prose.hits import hit_doubts
from player.check.prose.kin import kin_doubts
from player.check.prose.meant import meant_doubts, reach_doubts
from player.check.prose.named import Names, line_doubts, name_doubts, result_doubts
from player.check.prose.nudging import nudging_doubts
from player.check.prose.numerals import numeral_doubts
from player.check.prose.paces import pace_doubts
from player.check.prose.passages import Boards, Passage, Where, passages_of
from player.check.prose.plain import plain_doubts
from player.check.prose.pointing import pointing_doubts, squares_shown
from player.check.prose.reaching import reaching_doubts, squares_by_line
from player.check.prose.reckoned import reckoned_doubts
from player.check.prose.replied import reply_doubts
from player.check.prose.retaken import retaken_doubts
from player.check.prose.roles import role_doubts
from player.check.prose.sides import side_doubts
from player.check.prose.standing import standing_doubts
from player.check.prose.sums import sum_doubts
from player.check.prose.tallies import tally_doubts
from player.check.prose.telling import telling_doubts
from player.check.prose.unclaimed import unclaimed_doubts
from player.check.prose.views import view_doubts
from player.check.prose.walks import walk_doubts
from player.check.prose.whose import whose_doubts
from player.check.prose.wings import wing_doubts
from player.script.faults import Fault, lines_of
from player.script.told import Told, ToldBlock, ToldClaim, ToldLesson

_CLAIMED = re.compile(r"(?:on|attacks) ([a-h][1-8])(?: is guarded)? (\d+) times?")


def prose_doubts(source: str, told: ToldLesson, found: Iterable[Fault] = ()) -> Iterator[Fault]:
    """A query for each part of the prose that the board, or the game's own line, speaks against.

    Where something was `found` already, and where the language is not English, nothing more is said.
    """
    if told.header.language != "en":
        return
    boards, where = Boards(), Where(source)
    found = tuple(found)
    lost = lost_from(lines_of(source), found)
    known = [(fault.line, fault.column, fault.column + fault.width) for fault in found]
    elements = list(_flat(told.body))
    names = Names(told.header, elements, source)
    claimed = claimed_counts(elements)
    named = squares_by_line("\n".join(lines_of(source)))
    book = book_of(source, told)
    shown = squares_shown("\n".join(lines_of(source)))
    yield from result_doubts([one for one in told.body if not isinstance(one, ToldBlock)], boards)
    made: list[Fault] = []
    for passage in passages_of(told.body):
        seen: list[tuple[int, int]] = []
        for doubt in _doubts(passage, boards, told.header.side, names, claimed, named, shown, book):
            if any(start < doubt.end and doubt.start < end for start, end in seen):
                continue
            seen.append((doubt.start, doubt.end))
            spot = where.spot(passage, doubt.start, doubt.end)
            if spot.column >= lost.get(spot.line, spot.column + 1):
                continue
            if any(
                line == spot.line and start < spot.column + spot.width and spot.column < end
                for line, start, end in known
            ):
                continue
            one = Fault(spot.line, spot.column, spot.width, "query", doubt.code, doubt.message, doubt.fix)
            made.append(one)
            yield one
    yield from line_doubts(made, names)
    yield from (
        fault
        for fault in chosen_doubts(source, elements)
        if not any(line == fault.line for line, _, _ in known)
    )


def _doubts(
    passage: Passage,
    boards: Boards,
    side: str,
    names: Names,
    claimed: Claimed,
    named: dict[int, set[str]],
    shown: dict[int, set[str]],
    book: Book,
) -> Iterator[Doubt]:
    yield from name_doubts(passage, names)
    yield from nudging_doubts(passage, boards)
    yield from wing_doubts(passage, boards, side)
    yield from standing_doubts(passage, boards, side)
    yield from telling_doubts(passage, boards, side, names.players)
    yield from side_doubts(passage, boards, side, names.players)
    yield from hit_doubts(passage, boards, side)
    yield from tally_doubts(passage, boards, book)
    yield from view_doubts(passage, boards)
    yield from walk_doubts(passage, boards)
    yield from sum_doubts(passage, boards)
    yield from pace_doubts(passage, boards, book)
    yield from numeral_doubts(passage, boards, book)
    yield from reckoned_doubts(passage, boards)
    yield from counting_doubts(passage, boards, side)
    yield from guarding_doubts(passage, boards, claimed)
    yield from reaching_doubts(passage, boards, named)
    yield from meant_doubts(passage, boards, side)
    yield from reach_doubts(passage, boards)
    yield from plain_doubts(passage, boards)
    yield from pointing_doubts(passage, boards, shown, side)
    yield from kin_doubts(passage, boards)
    yield from formed_doubts(passage, boards)
    yield from unclaimed_doubts(passage, boards)
    yield from reply_doubts(passage, boards)
    yield from whose_doubts(passage, boards)
    yield from captured_doubts(passage, boards)
    yield from retaken_doubts(passage, boards, side)
    yield from gone_doubts(passage, boards)
    yield from checked_doubts(passage, boards)
    yield from near_check_doubts(passage, boards)
    yield from acting_doubts(passage, boards)
    yield from role_doubts(passage, boards)
    yield from deed_doubts(passage, boards)
    yield from colour_doubts(passage, boards, side, names.players)


def claimed_counts(elements: Iterable[Told]) -> Claimed:
    """The squares of claims about guards and attackers, and the number claimed of each, by line."""
    out: dict[int, set[tuple[str, int]]] = {}
    for one in elements:
        found = _CLAIMED.search(one.words) if isinstance(one, ToldClaim) else None
        if found:
            out.setdefault(one.spot.line, set()).add((found[1], int(found[2])))
    return out


def _flat(body: Iterable[Told]) -> Iterator[Told]:
    for one in body:
        yield one
        if isinstance(one, ToldBlock) and one.kind != "retell":
            yield from _flat(one.body)
