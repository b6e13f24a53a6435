"""False words put into the demo lessons by hand: most are found, and the list still fits the lessons."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.check.prose.test_mismatches import LESSONS, found_in
from tests.script.corpora import CORPUS


def rows(name: str) -> list[tuple[str, ...]]:
    text = (CORPUS / "mismatches" / name).read_text(encoding="utf-8")
    return [tuple(line.split("|")) for line in text.splitlines() if line and not line.startswith("#")]


ROWS = rows("by_hand.txt")
SECOND = rows("second.txt")
THIRD = rows("third.txt")
FOURTH = rows("fourth.txt")
FIFTH = rows("fifth.txt")
"""Lists written by others who had not seen the check: what a coach is likelier to get wrong."""
EVERY = rows("every.txt")
HELD = rows("sixth.txt"), rows("every_held.txt")
"""Likewise, but for every sentence that says anything; and what nobody looked at while mending."""
SOURCES = {path.stem[0]: path.read_text(encoding="utf-8") for path in LESSONS}


def found(row: tuple[str, ...]) -> bool:
    lesson, _, before, after = row
    source = SOURCES[lesson]
    line = source[: source.index(before)].count("\n") + 1
    changed = found_in(source.replace(before, after))
    return any(fault.line == line and fault.code != "about-unknown" for fault in changed)


def test_each_stands_once_in_its_lesson() -> None:
    assert len(ROWS) > 300
    assert len(SECOND) > 200
    assert len(THIRD) == 200
    assert len(FOURTH) == 120
    assert len(FIFTH) == len(HELD[0]) == 200
    assert len(EVERY) + len(HELD[1]) > 1400
    lists = (ROWS, SECOND, THIRD, FOURTH, FIFTH, EVERY, *HELD)
    assert [row for one in lists for row in one if SOURCES[row[0]].count(row[2]) != 1] == []


def test_most_of_a_few_are_found() -> None:
    assert sum(map(found, ROWS[::24])) >= 10
    assert sum(map(found, SECOND[::16])) >= 12
    assert sum(map(found, (THIRD + FOURTH)[::20])) >= 13
    assert sum(map(found, FIFTH[::20])) >= 8


@pytest.mark.large
def test_the_share_found_of_the_second_list() -> None:
    assert sum(map(found, SECOND)) >= 0.85 * len(SECOND)


@pytest.mark.large
def test_the_share_found_of_the_third_list() -> None:
    assert sum(map(found, THIRD)) >= 0.9 * len(THIRD)
    assert sum(map(found, FOURTH)) >= 0.85 * len(FOURTH)


@pytest.mark.large
def test_the_share_found_of_what_nobody_looked_at() -> None:
    assert sum(map(found, HELD[0])) >= 0.78 * len(HELD[0])
    assert sum(map(found, HELD[1])) >= 0.5 * len(HELD[1])


@pytest.mark.large
def test_the_share_found_where_every_sentence_is_false() -> None:
    assert sum(map(found, FIFTH)) >= 0.92 * len(FIFTH)
    assert sum(map(found, EVERY)) >= 0.55 * len(EVERY)


@pytest.mark.large
def test_the_share_found_of_all() -> None:
    made = Counter(row[1] for row in ROWS)
    seen = Counter(row[1] for row in ROWS if found(row))
    assert sum(seen.values()) >= 0.74 * sum(made.values())
    for kind, least in (("check", 0.8), ("name", 0.9), ("year", 1.0), ("count", 0.8), ("colour", 0.8)):
        assert seen[kind] >= least * made[kind], kind
