"""What the record keeps: questions, and what became of them each time they were put."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from player.stage.happenings import Grade

Mode = Literal["lesson", "again", "revisit", "new position", "self-test"]
"""Where a question was put: in its lesson, once more in the same lesson, on a later day, as an unseen
position of the same idea, or without the narration."""

Effort = Literal["at once", "with effort", "guess"]
Sureness = Literal["sure", "fairly sure", "guess"]

NO_TRY = frozenset({"told", "passed", "seen"})
"""Grades that say nothing about what the learner knows: looked up, let pass, or seen before."""


@dataclass(frozen=True, slots=True)
class Question:
    """A question, known by its content: `key` is a hash of position, kind and answers.

    `root` (FEN) and `moves` (UCI) are its place; `answers` are UCI, squares, numbers or words; `lesson` is
    the whole path of the script it was met in last, `line` its line there, `title` the lesson's title. `like`
    is the key of the question whose idea it shows in another position, "" for a coach's own question.
    """

    key: str
    kind: str
    root: str
    moves: tuple[str, ...]
    text: str
    answers: tuple[str, ...]
    ideas: tuple[str, ...] = ()
    lesson: str = ""
    title: str = ""
    line: int = 0
    part_key: bool = False
    like: str = ""


@dataclass(frozen=True, slots=True)
class Try:
    """One try at a question, or its end without one.

    `uid` tells it from every other, so that it is kept once however often it is written. `at` has a time
    zone. `visit` groups the tries of one putting of the question: `number` 1 is its first try. `took_ms` is
    the time since the question was put. `effort` and `sure` are the learner's own words, or None.
    """

    uid: str
    question: str
    at: datetime
    mode: Mode
    visit: str
    given: str
    meant: str
    grade: Grade
    number: int
    nudges: int
    took_ms: int | None = None
    sure: Sureness | None = None
    effort: Effort | None = None
    script: str = ""

    @property
    def first(self) -> bool:
        """Whether it is a first try: what later ones say never worsens it."""
        return self.number == 1 and self.grade not in NO_TRY
