"""Keeps what a learner does in a lesson: tries, ideas met, moments repeated, and where it stopped."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from player.cues.sheet import Ask, Sheet
from player.learner.record import Record
from player.learner.tries import NO_TRY, Mode, Question, Sureness, Try
from player.stage.happenings import Attempt, Happening, Noted, Over, Put, Quit, Reached, Reasoned, Weighed
from player.stage.inputs import Did, Input, Typed
from player.stage.registry import ACTIONS
from player.world.trouble import Trouble


@dataclass(frozen=True)
class Source:
    """Of which lesson: its script's whole path, the hash of its text, and how its questions are put."""

    lesson: str
    script: str
    mode: Mode = "lesson"


class LessonKeeper:
    """Writes down one run through a lesson. `now` tells the time of day, `now_ms` a clock that goes forward.

    `known` has the questions that are another lesson's, by key.

    A happening has its number in the run, and a try is known by it: told again after a kill, it is kept once.
    """

    def __init__(
        self,
        record: Record,
        sheet: Sheet,
        source: Source,
        now: Callable[[], datetime],
        now_ms: Callable[[], int],
        known: Mapping[str, Question] | None = None,
    ) -> None:
        self._record = record
        self._sheet = sheet
        self._source = source
        self._now = now
        self._now_ms = now_ms
        self._known = known or {}
        self._lines = {step.key: step.line for step in sheet.steps}
        self._asks = {
            step.ask.key: (step.ask, step.line)
            for step in sheet.steps
            if step.ask is not None and not step.ask.once_more
        }
        self._failed: Trouble | None = None
        self.begin("")

    def begin(self, run: str) -> None:
        """What follows belongs to this run, which begins now."""
        self._run = run
        self._count = 0
        self._visits: dict[str, _Visit] = {}
        self._step = ""
        self._sure: dict[str, Sureness] = {}
        self._last: dict[str, Try] = {}

    def catch_up(self, run: str, told: Sequence[Input | Happening]) -> None:
        """All that was told in a run so far; what of it is not kept yet is kept now, as of this moment."""
        self.begin(run)
        tries: list[Try] = []
        for one in told:
            tries += self._tries(one, timed=False)
        try:
            if tries:
                self._record.keep(self._questions(one.question for one in tries), tries)
        except Trouble as trouble:
            self._failed = trouble

    def input(self, given: Input) -> None:
        """Take an input. Raises Trouble."""
        if _repeats(given) and self._step:
            self._moment("repeated")

    def happened(self, happening: Happening) -> None:
        """Take a happening. Raises Trouble."""
        if self._failed is not None:
            failed, self._failed = self._failed, None
            raise failed
        tries = self._tries(happening)
        if tries:
            self._record.keep(self._questions(one.question for one in tries), tries)
        elif isinstance(happening, Weighed):
            self._effort(happening)
        elif isinstance(happening, Noted):
            self._idea(happening)
        elif isinstance(happening, Quit | Over):
            self._moment("over" if isinstance(happening, Over) else "stopped")

    def close(self) -> None:
        self._record.close()

    def _tries(self, one: Input | Happening, *, timed: bool = True) -> list[Try]:
        if isinstance(one, Reached):
            self._step = one.step
        elif isinstance(one, Put):
            known = self._visits.get(one.ask.key)
            if known is None or known.over:
                since = self._now_ms() if timed else None
                self._visits[one.ask.key] = _Visit(f"{self._run}/{self._count}", since)
                self._count += 1
        elif isinstance(one, Reasoned) and one.sure:
            self._sure[one.ask] = _SURE[one.sure]
        elif isinstance(one, Attempt):
            self._last[one.ask] = self._try(one, timed=timed)
            return [self._last[one.ask]]
        return []

    def _try(self, attempt: Attempt, *, timed: bool) -> Try:
        key, _, again = attempt.ask.partition("~")
        visit = self._visits.get(attempt.ask) or _Visit(f"{self._run}/{self._count}", None)
        uid = f"{self._run}:{self._count}"
        self._count += 1
        self._visits[attempt.ask] = replace(visit, over=attempt.grade != "wrong")
        took = self._now_ms() - visit.since if timed and visit.since is not None else None
        return Try(
            uid=uid,
            question=key,
            at=self._now(),
            mode="again" if again else self._source.mode,
            visit=visit.name,
            given=attempt.given,
            meant=attempt.meant,
            grade=attempt.grade,
            number=attempt.number,
            nudges=attempt.nudges,
            sure=self._sure.pop(attempt.ask, None),
            took_ms=None if attempt.grade in NO_TRY else took,
            script=self._source.script,
        )

    def _questions(self, keys: Iterable[str]) -> list[Question]:
        wanted = list(dict.fromkeys(keys))
        return [self._known[key] for key in wanted if key in self._known] + [
            question_of(ask, self._sheet, self._source.lesson, line)
            for ask, line in (
                self._asks[key] for key in wanted if key in self._asks and key not in self._known
            )
        ]

    def _effort(self, weighed: Weighed) -> None:
        """How it went belongs to the try before it."""
        tried = self._last.get(weighed.ask)
        if tried is not None:
            from player.learner.schedule import rate_effort

            rate_effort(self._record, tried, weighed.effort)

    def _idea(self, noted: Noted) -> None:
        row = (noted.idea, self._source.lesson, self._sheet.title, noted.words, _at(self._now()))
        self._record.write(
            "INSERT INTO ideas (name, lesson, title, words, at) VALUES (?, ?, ?, ?, ?)"
            " ON CONFLICT (name, lesson) DO NOTHING",
            [row],
        )

    def _moment(self, what: str) -> None:
        line = self._lines.get(self._step, 0)
        row = (self._source.lesson, self._source.script, self._step, line, what, _at(self._now()))
        self._record.write(
            "INSERT INTO moments (lesson, script, step, line, what, at) VALUES (?, ?, ?, ?, ?, ?)", [row]
        )


@dataclass(frozen=True)
class _Visit:
    """A question put: its name in the record, when (ms), and whether it has come to its end."""

    name: str
    since: int | None
    over: bool = False


def question_of(ask: Ask, sheet: Sheet, lesson: str, line: int) -> Question:
    """The question as the record knows it."""
    return Question(
        key=ask.key,
        kind=ask.kind,
        root=ask.place.root,
        moves=ask.place.moves,
        text=ask.text,
        answers=(ask.answer.uci,) if ask.answer is not None else ask.answers,
        ideas=ask.about,
        lesson=lesson,
        title=sheet.title,
        line=line,
        part_key=ask.again,
    )


def questions_of(sheet: Sheet, lesson: str) -> Mapping[str, Question]:
    """All questions of a lesson by key, in the order they are told."""
    return {
        step.ask.key: question_of(step.ask, sheet, lesson, step.line)
        for step in sheet.steps
        if step.ask is not None and not step.ask.once_more
    }


def _at(moment: datetime) -> str:
    return moment.isoformat(timespec="milliseconds")


_SURE: dict[str, Sureness] = {"sure": "sure", "fairly": "fairly sure", "a guess": "guess"}
_REPEAT = next(action for action in ACTIONS if action.name == "repeat")


def _repeats(given: Input) -> bool:
    if isinstance(given, Typed):
        said = given.text.casefold().strip().strip(".!")
        return said in (*_REPEAT.words, _REPEAT.letter)
    return isinstance(given, Did) and given.verb == "repeat"
