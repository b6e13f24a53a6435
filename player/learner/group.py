"""What many answer sheets say together: never about one learner, and nothing from fewer than five."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from player.learner.answer_sheet import Answered, AnswerSheet
from player.learner.shares import Share, share

T = TypeVar("T")

LEAST = 5
"""Nothing is said that rests on fewer learners than this."""


@dataclass(frozen=True)
class QuestionFound:
    """One question over all sheets: first tries that were right, and wrong ones by what was meant.

    `wrong` has only what at least five learners meant; `helped` is how many took a nudge or had it told.
    """

    question: str
    firsts: Share
    wrong: tuple[tuple[str, int], ...]
    helped: Share
    sure_and_wrong: int


@dataclass(frozen=True)
class Group:
    """One lesson's sheets merged. Lines are of the script; `stopped` has where at least five left."""

    lesson: str
    script: str
    sheets: int
    questions: tuple[QuestionFound, ...]
    repeated: tuple[tuple[int, int], ...]
    stopped: tuple[tuple[int, int], ...]
    finished: Share

    @property
    def hardest(self) -> QuestionFound | None:
        """The question with the smallest share of right first tries, or None where none has enough."""
        return min(
            self.questions, key=lambda one: (one.firsts.hits / one.firsts.whole, one.question), default=None
        )

    @property
    def commonest_wrong(self) -> tuple[QuestionFound, str, int] | None:
        """The wrong answer that most learners gave: its question, what it was, and how many."""
        all_wrong = [(one, meant, count) for one in self.questions for meant, count in one.wrong]
        return max(all_wrong, key=lambda found: (found[2], found[1]), default=None)


@dataclass(frozen=True)
class Compared:
    """A question before and after the script changed; `tells` where the two intervals do not meet."""

    question: str
    before: Share
    after: Share

    @property
    def tells(self) -> bool:
        return self.after.low > self.before.high or self.after.high < self.before.low


def merged(sheets: Sequence[AnswerSheet]) -> list[Group]:
    """One group for every lesson and script among the sheets, in the order in which they first appear."""
    found: dict[tuple[str, str], list[AnswerSheet]] = {}
    for sheet in sheets:
        found.setdefault((sheet.lesson, sheet.script), []).append(sheet)
    return [_group(lesson, script, those) for (lesson, script), those in found.items()]


def _group(lesson: str, script: str, sheets: Sequence[AnswerSheet]) -> Group:
    by_question: dict[str, list[Answered]] = {}
    for sheet in sheets:
        for one in sheet.answers:
            by_question.setdefault(one.question, []).append(one)
    questions = [_question(key, answers) for key, answers in by_question.items()]
    repeated = Counter(line for sheet in sheets for line, _ in sheet.repeated)
    stopped = Counter(sheet.stopped for sheet in sheets if sheet.stopped)
    told = [sheet.stopped == 0 for sheet in sheets if sheet.stopped is not None]
    return Group(
        lesson,
        script,
        len(sheets),
        tuple(one for one in questions if one is not None),
        _enough(repeated),
        _enough(stopped),
        share(sum(told), len(told)),
    )


def _question(key: str, answers: Sequence[Answered]) -> QuestionFound | None:
    counted = [one for one in answers if one.first_right is not None]
    if len(counted) < LEAST:
        return None
    firsts = share(sum(one.first_right is True for one in counted), len(counted))
    wrong: Counter[str] = Counter()
    for one in counted:
        wrong.update({meant for grade, meant in one.tries if grade == "wrong" and meant})
    helped = sum(one.nudges > 0 or any(grade == "told" for grade, _ in one.tries) for one in answers)
    sure = sum(one.first_right is False and one.sure == "sure" for one in counted)
    return QuestionFound(
        key, firsts, _enough(wrong), share(helped, len(answers)), sure if sure >= LEAST else 0
    )


def _enough(counts: Counter[T]) -> tuple[tuple[T, int], ...]:
    return tuple((what, count) for what, count in counts.most_common() if count >= LEAST)


def compared(before: Group, after: Group) -> list[Compared]:
    """The questions that both have, in the order of the later script."""
    earlier: Mapping[str, QuestionFound] = {one.question: one for one in before.questions}
    return [
        Compared(one.question, earlier[one.question].firsts, one.firsts)
        for one in after.questions
        if one.question in earlier
    ]
