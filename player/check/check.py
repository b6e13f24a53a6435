"""Faults of meaning, on top of what reading and following find: claims, ideas, and what is waved off."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from player.check.asked_answers import doubtful_answers
from player.check.claims import faulty_claims
from player.check.fine import waves_of
from player.check.guessed import guessed_words
from player.check.ideas import unknown_ideas
from player.check.kept import Kept
from player.check.prose import prose_doubts
from player.check.series_ideas import ideas_before, ideas_in
from player.check.waving import waved
from player.facts.prove import BUDGET
from player.script.faults import Fault
from player.script.follow import follow
from player.script.read import read
from player.script.told import ToldLesson, flat
from player.world.files import read_text_forgiving


def check_lesson(path: Path, known_ideas: Iterable[str] = ()) -> tuple[Fault, ...]:
    """All faults and queries of a script, in file order.

    Ideas told in earlier scripts of its series, in the same folder, are known beside `known_ideas`. Raises
    OSError, or Trouble where the file is no text.
    """
    return _checked(path, (*known_ideas, *ideas_before(path)))


def check_series(paths: Sequence[Path]) -> dict[Path, tuple[Fault, ...]]:
    """The faults and queries of each script, in this order; what one tells, the next ones know.

    Raises OSError, or Trouble where a file is no text.
    """
    known: list[str] = []
    out: dict[Path, tuple[Fault, ...]] = {}
    for path in paths:
        out[path] = _checked(path, known)
        known += ideas_in(read_text_forgiving(path))
    return out


def _checked(path: Path, known_ideas: Iterable[str]) -> tuple[Fault, ...]:
    source = read_text_forgiving(path)
    lesson, faults = read(source)
    told, more = follow(lesson)
    return check_text(source, told, (*faults, *more), known_ideas)


def check_text(
    source: str, told: ToldLesson, found: Iterable[Fault] = (), known_ideas: Iterable[str] = ()
) -> tuple[Fault, ...]:
    """What was `found` in a script's text, and its faults of meaning, in file order, with `fine:` obeyed.

    `known_ideas` are names of ideas told earlier in the series.
    """
    elements = list(flat(told.body))
    return waved(source, waves_of(source, elements), found_in(source, told, found, known_ideas))


def found_in(
    source: str,
    told: ToldLesson,
    found: Iterable[Fault] = (),
    known_ideas: Iterable[str] = (),
    *,
    kept: Kept | None = None,
    budget: int = BUDGET,
    progress: Callable[[int, int], None] | None = None,
) -> tuple[Fault, ...]:
    """What `check_text` finds, before any `fine:` is obeyed; `budget` is in positions a claim."""
    elements = list(flat(told.body))
    found = tuple(found)
    claims = faulty_claims(source, elements, told.marks, kept=kept, budget=budget, progress=progress)
    ideas = unknown_ideas(source, elements, known_ideas)
    wrong = {(fault.line, fault.column) for fault in found if fault.severity == "fault"}
    guesses = [one for one in guessed_words(source, told.header) if (one.line, one.column) not in wrong]
    asked = doubtful_answers(source, elements)
    return (*found, *claims, *ideas, *asked, *guesses, *prose_doubts(source, told, found))
