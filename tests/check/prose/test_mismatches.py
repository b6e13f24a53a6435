"""Wrong words put into the demo lessons one at a time: the checker finds them on their line."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from player.script.faults import Fault
from tests.check.checking import faults_in, faults_of
from tests.check.mismatches import mismatches
from tests.script.corpora import CORPUS

LESSONS = sorted((Path(__file__).parents[3] / "demo_lessons").glob("*.lesson"))
STRANGERS = sorted((CORPUS / "prose").glob("*.lesson"))
AT_LEAST = {
    ("check", "brace"): 1.0,
    ("check", "prose"): 0.8,
    ("man's square", "prose"): 0.8,
    ("piece on square", "prose"): 0.7,
    ("takes", "brace"): 1.0,
    ("takes", "prose"): 0.85,
    ("wing", "brace"): 1.0,
}
"""The share of mismatches that must be found, by kind and by where they stand. Of the other kinds many edits
are no falsehood about the board ("opens a file for White"), or none that words alone can show."""


def found_in(source: str) -> tuple[Fault, ...]:
    return faults_of(source)


def shares(
    lessons: list[Path], seeds: range, per_kind: int = 3
) -> tuple[Counter[tuple[str, str]], Counter[tuple[str, str]]]:
    found: Counter[tuple[str, str]] = Counter()
    made: Counter[tuple[str, str]] = Counter()
    for path in lessons:
        for seed in seeds:
            for mismatch in mismatches(path.read_text(encoding="utf-8"), seed, per_kind):
                kind = (mismatch.kind, "brace" if "brace" in mismatch.where else "prose")
                made[kind] += 1
                found[kind] += any(fault.line == mismatch.line for fault in found_in(mismatch.text))
    return found, made


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_the_demo_lessons_are_doubted_nowhere(path: Path) -> None:
    assert faults_in(path) == ()


@pytest.mark.parametrize("path", STRANGERS, ids=lambda path: path.stem)
def test_what_other_coaches_say_is_doubted_nowhere(path: Path) -> None:
    doubts = [fault for fault in found_in(path.read_text(encoding="utf-8")) if fault.code != "word-guessed"]
    assert doubts == []


def test_most_mismatches_are_found_on_their_line() -> None:
    found, made = shares(LESSONS[1:2], range(100, 102))
    assert sum(made[kind] for kind in AT_LEAST) >= 15
    assert sum(found[kind] for kind in AT_LEAST) >= 0.8 * sum(made[kind] for kind in AT_LEAST)


@pytest.mark.large
def test_mismatches_of_every_kind_over_many_seeds() -> None:
    found, made = shares(LESSONS, range(200, 204))
    assert sum(made.values()) >= 600
    for kind, least in AT_LEAST.items():
        assert found[kind] >= least * made[kind], kind
