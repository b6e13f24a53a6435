"""Faults of meaning, on top of what reading and following find: claims, ideas, and what is waved off."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from player.check.asked_answers import doubtful_answers
from player.check.claims import faulty_claims
from player.check.guessed import guessed_words
from player.check.ideas import unknown_ideas
from player.check.kept import Kept
from player.check.prose.doubts import prose_doubts
from player.facts.budgets import BUDGET
from player.script.faults import Fault
from player.script.told import ToldLesson, flat


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
    """What was `found` in a script's text, and its faults of meaning, before any `fine:` is obeyed.

    `known_ideas` are names of ideas told earlier in the series; `budget` is in positions a claim.
    """
    elements = list(flat(told.body))
    found = tuple(found)
    claims = faulty_claims(source, elements, told.marks, kept=kept, budget=budget, progress=progress)
    ideas = unknown_ideas(source, elements, known_ideas)
    wrong = {(fault.line, fault.column) for fault in found if fault.severity == "fault"}
    guesses = [one for one in guessed_words(source, told.header) if (one.line, one.column) not in wrong]
    asked = doubtful_answers(source, elements)
    return (*found, *claims, *ideas, *asked, *guesses, *prose_doubts(source, told, found))
