"""Which questions a revisit asks, in which order: what waits for today, with its ideas mixed."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from player.cues.gather import Picked
from player.cues.sheet import Sheet
from player.learner.record import Record
from player.learner.schedule import waits
from player.learner.tries import Question

MINUTE_S = 40
"""A question of a revisit takes about so long, answer and telling together (common practice)."""

Open = Callable[[Path], Sheet | None]
"""Opens the lesson at a path; None where it is not there any more or cannot be told."""


@dataclass(frozen=True)
class Item:
    """A question that waits, found in its lesson."""

    question: Question
    picked: Picked


@dataclass(frozen=True)
class Found:
    """What a revisit has: its items in order, and sentences about what could not be found."""

    items: tuple[Item, ...]
    notes: tuple[str, ...] = ()


def waiting_questions(record: Record, now: datetime, idea: str = "") -> list[Question]:
    """The questions that wait for today, longest due first; of one idea, where it is named."""
    known = record.questions()
    wanted = _bare(idea)
    return [
        question
        for one in waits(record, now)
        if (question := known.get(one.question)) is not None
        and (not wanted or wanted in {_bare(name) for name in question.ideas})
    ]


def found_in_lessons(questions: Iterable[Question], open_lesson: Open) -> Found:
    """The questions with their sheets. What a lesson no longer asks is left out; its place is told once."""
    sheets: dict[str, Sheet | None] = {}
    items: list[Item] = []
    missing: dict[str, int] = {}
    for question in questions:
        if question.lesson not in sheets:
            sheets[question.lesson] = open_lesson(Path(question.lesson))
        sheet = sheets[question.lesson]
        index = index_of(sheet, question.key) if sheet is not None else None
        if sheet is None or index is None:
            missing[question.lesson] = missing.get(question.lesson, 0) + 1
        else:
            items.append(Item(question, Picked(sheet, index, f"From {sheet.title}.", question.lesson)))
    notes = tuple(_gone(Path(lesson), count, sheets[lesson] is None) for lesson, count in missing.items())
    return Found(tuple(items), notes)


def index_of(sheet: Sheet, key: str) -> int | None:
    """The index of the step that asks the question with this key, or None."""
    return next((i for i, s in enumerate(sheet.steps) if s.ask is not None and s.ask.key == key), None)


def mixed(items: Sequence[Item], rng: random.Random) -> tuple[Item, ...]:
    """The items with their ideas mixed: two of one idea follow each other only where nothing else is left.

    Within an idea the order stays.
    """
    piles: dict[str, list[Item]] = {}
    for item in items:
        idea = item.question.ideas[0] if item.question.ideas else item.question.lesson
        piles.setdefault(idea, []).append(item)
    out: list[Item] = []
    last = ""
    while piles:
        most = max(len(pile) for idea, pile in piles.items() if idea != last or len(piles) == 1)
        best = [
            idea for idea, pile in piles.items() if len(pile) == most and (idea != last or len(piles) == 1)
        ]
        last = rng.choice(best)
        out.append(piles[last].pop(0))
        if not piles[last]:
            del piles[last]
    return tuple(out)


def fits_in(minutes: float) -> int:
    """About how many questions are answered in so many minutes; one at least."""
    return max(1, round(minutes * 60 / MINUTE_S))


def _gone(lesson: Path, count: int, whole: bool) -> str:
    what = "a question that waits" if count == 1 else f"{count} questions that wait"
    if whole:
        return f"{lesson.name} is not where it was, so {what} cannot be asked."
    return (
        f"{lesson.name} has changed, and {what} is no longer in it."
        if count == 1
        else (f"{lesson.name} has changed, and {what} are no longer in it.")
    )


def _bare(name: str) -> str:
    return " ".join(name.casefold().split())
