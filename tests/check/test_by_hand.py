"""False words put into the demo lessons by hand: most are found, and the list still fits the lessons."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.check.test_mismatches import LESSONS, found_in
from tests.script.corpora import CORPUS

ROWS = [
    tuple(line.split("|"))
    for line in (CORPUS / "mismatches" / "by_hand.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]
SOURCES = {path.stem[0]: path.read_text(encoding="utf-8") for path in LESSONS}


def found(row: tuple[str, ...]) -> bool:
    lesson, _, before, after = row
    source = SOURCES[lesson]
    line = source[: source.index(before)].count("\n") + 1
    changed = found_in(source.replace(before, after))
    return any(fault.line == line and fault.code != "about-unknown" for fault in changed)


def test_each_stands_once_in_its_lesson() -> None:
    assert len(ROWS) > 300
    assert [row for row in ROWS if SOURCES[row[0]].count(row[2]) != 1] == []


def test_most_of_a_few_are_found() -> None:
    assert sum(map(found, ROWS[::24])) >= 10


@pytest.mark.large
def test_the_share_found_of_all() -> None:
    made = Counter(row[1] for row in ROWS)
    seen = Counter(row[1] for row in ROWS if found(row))
    assert sum(seen.values()) >= 0.65 * sum(made.values())
    for kind, least in (("check", 0.8), ("name", 0.9), ("year", 1.0), ("count", 0.7), ("colour", 0.6)):
        assert seen[kind] >= least * made[kind], kind
