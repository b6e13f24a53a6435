"""How a learner stands with each idea: what the record says, in sentences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import Any, Literal

from fsrs import Card

from player.learner.record import Record
from player.learner.schedule import chance, refresh, scheduler, weights_in_use
from player.learner.shares import Share, in_words, share
from player.learner.tries import Question

Standing = Literal["holds", "slipping", "not met yet", "met"]

HOLDS = 0.8
"""An idea holds where its questions are known today with this chance on average, the last try being right."""


@dataclass
class IdeaProgress:
    """One idea: where it was met (titles), used in answers, and recognised
    unprompted: right at once at a new position or in a self-test, where nothing told led up to it.

    `firsts` counts first tries at the coach's own questions, `unseen` those at new positions of the idea.
    `chance` is that of knowing its questions today, None where none was rated.
    """

    name: str
    standing: Standing
    met: tuple[str, ...]
    used: int
    recognised: int
    firsts: Share
    unseen: Share
    waiting: int
    chance: float | None
    last: date | None


@dataclass
class Progress:
    """All of it. `own_plan` tells whether the days between questions are fitted to this learner."""

    ideas: tuple[IdeaProgress, ...]
    answers: int
    firsts: Share
    waiting: int
    days: Mapping[date, Share]
    own_plan: bool


@dataclass
class _Gathered:
    met: dict[str, None] = field(default_factory=dict)
    used: int = 0
    recognised: int = 0
    firsts: list[int] = field(default_factory=lambda: [0, 0])
    unseen: list[int] = field(default_factory=lambda: [0, 0])
    last: tuple[int, str, str] | None = None


_FIRST = "(number = 1 AND grade NOT IN ('told', 'passed', 'seen'))"
_RIGHT = "(grade IN ('right', 'also'))"
_BY_QUESTION = f"""
    SELECT question, sum({_RIGHT}), sum({_FIRST}), sum({_FIRST} AND {_RIGHT}),
        sum({_FIRST} AND {_RIGHT} AND nudges = 0 AND mode IN ('new position', 'self-test')),
        max(CASE WHEN {_FIRST} THEN id END)
    FROM tries GROUP BY question
"""
_BY_DAY = f"""
    SELECT substr(at, 1, 10) AS day, sum({_RIGHT}), count(*) FROM tries WHERE {_FIRST}
    GROUP BY day ORDER BY day
"""


def progress(record: Record, now: datetime, known: Sequence[str] = ()) -> Progress:
    """How it stands now. `known` are ideas told in lessons at hand, met or not.

    A day is that of the learner's own clock when the answer was given.
    """
    refresh(record)
    questions = record.questions()
    gathered: dict[str, _Gathered] = {}
    for name, title in record.read("SELECT name, title FROM ideas ORDER BY at"):
        gathered.setdefault(name, _Gathered()).met[title] = None
    for row in record.read(_BY_QUESTION):
        question = questions.get(row[0])
        if question is not None:
            _take(gathered, question, row, record)
    days = {date.fromisoformat(day): share(hits, whole) for day, hits, whole in record.read(_BY_DAY)}
    cards = _cards(record)
    own = weights_in_use(record)
    plan = scheduler(own)
    chances = {key: chance(card, now, plan) for key, card in cards.items()}
    tomorrow = now.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
    due = {key for key, card in cards.items() if card.due < tomorrow}
    of_idea: dict[str, list[str]] = {}
    for key in chances:
        for name in questions[key].ideas:
            of_idea.setdefault(name, []).append(key)
    names = [*gathered, *(name for name in known if name not in gathered)]
    answers = record.read("SELECT count(*) FROM tries WHERE grade NOT IN ('told', 'passed', 'seen')")[0][0]
    return Progress(
        ideas=tuple(
            _idea(name, gathered.get(name, _Gathered()), of_idea.get(name, []), chances, due)
            for name in names
        ),
        answers=answers,
        firsts=share(sum(one.hits for one in days.values()), sum(one.whole for one in days.values())),
        waiting=len(due),
        days=days,
        own_plan=own is not None,
    )


def _take(gathered: dict[str, _Gathered], question: Question, row: tuple[Any, ...], record: Record) -> None:
    """Add what one question's tries say to its ideas."""
    _, used, whole, right, recognised, last = row
    ended = record.read("SELECT id, grade, at FROM tries WHERE id = ?", (last,)) if last else []
    for name in question.ideas:
        idea = gathered.setdefault(name, _Gathered())
        if question.title and not question.like:
            idea.met.setdefault(question.title)
        idea.used += used
        idea.recognised += recognised
        counts = idea.unseen if question.like else idea.firsts
        counts[0] += right
        counts[1] += whole
        if ended and (idea.last is None or ended[0] > idea.last):
            idea.last = (ended[0][0], ended[0][1], ended[0][2])


def _idea(
    name: str,
    found: _Gathered,
    own: Sequence[str],
    chances: Mapping[str, float],
    due: set[str],
) -> IdeaProgress:
    middle = sum(chances[key] for key in own) / len(own) if own else None
    if not found.met and found.last is None:
        standing: Standing = "not met yet"
    elif found.last is None:
        standing = "met"
    else:
        fine = found.last[1] != "wrong" and (middle is None or middle >= HOLDS)
        standing = "holds" if fine else "slipping"
    return IdeaProgress(
        name=name,
        standing=standing,
        met=tuple(found.met),
        used=found.used,
        recognised=found.recognised,
        firsts=share(*found.firsts),
        unseen=share(*found.unseen),
        waiting=sum(key in due for key in own),
        chance=middle,
        last=date.fromisoformat(found.last[2][:10]) if found.last is not None else None,
    )


def _cards(record: Record) -> dict[str, Card]:
    rows = record.read("SELECT question, card FROM waiting WHERE card != ''")
    return {key: Card.from_json(card) for key, card in rows}


def sentences(found: Progress, now: datetime) -> list[str]:
    """All of it in sentences, the ideas that need something first."""
    if not found.answers and not any(idea.met for idea in found.ideas):
        return ["Nothing is kept yet: play a lesson, and what you answer will show here."]
    out = [
        f"You have answered {_times(found.answers, 'time')}. Right at the first try: "
        f"{in_words(found.firsts)}."
    ]
    order = {"slipping": 0, "holds": 1, "met": 2, "not met yet": 3}
    for idea in sorted(found.ideas, key=lambda one: order[one.standing]):
        out.append(_about(idea, now))
    out.append(
        f"{_times(found.waiting, 'question')} {'waits' if found.waiting == 1 else 'wait'} for today."
        if found.waiting
        else "Nothing waits for today."
    )
    out.append(
        "The days between questions are planned from your own answers."
        if found.own_plan
        else "The days between questions are planned as for most people; some hundred answers may make the "
        "plan your own."
    )
    return out


def _about(idea: IdeaProgress, now: datetime) -> str:
    name = idea.name[:1].upper() + idea.name[1:]
    if idea.standing == "not met yet":
        return f"{name}: not met yet."
    parts = [f"{name}: {_standing(idea)}."]
    if idea.met:
        parts.append(f"Met in {_listed(idea.met)}.")
    if idea.firsts.whole:
        parts.append(f"Right at the first try {in_words(idea.firsts)}.")
    if idea.unseen.whole:
        parts.append(f"In new positions {in_words(idea.unseen)}.")
    if idea.used:
        told = "Used once" if idea.used == 1 else f"Used {idea.used} times"
        parts.append(told + (f", {idea.recognised} of them unprompted." if idea.recognised else "."))
    if idea.last is not None:
        days = (now.date() - idea.last).days
        parts.append(
            f"Last asked {'today' if days <= 0 else 'yesterday' if days == 1 else f'{days} days ago'}."
        )
    if idea.waiting:
        parts.append(
            f"{_times(idea.waiting, 'question')} about it {'waits' if idea.waiting == 1 else 'wait'}."
        )
    return " ".join(parts)


def _standing(idea: IdeaProgress) -> str:
    if idea.standing == "met":
        return "met, and not asked yet"
    once = idea.standing == "holds" and idea.firsts.whole + idea.unseen.whole == 1
    return "holds, as far as one answer tells" if once else idea.standing


def _times(count: int, what: str) -> str:
    return f"one {what}" if count == 1 else f"{count} {what}s"


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def plot(found: Progress, width: int = 40) -> list[str]:
    """First tries by week in plain characters, one line a week: how many were right of how many."""
    weeks: dict[date, list[int]] = {}
    for day, one in found.days.items():
        monday = date.fromordinal(day.toordinal() - day.weekday())
        week = weeks.setdefault(monday, [0, 0])
        week[0] += one.hits
        week[1] += one.whole
    most = max((whole for _, whole in weeks.values()), default=0)
    out = []
    for monday, (hits, whole) in weeks.items():
        scale = min(1.0, width / most)
        full = round(whole * scale)
        rights = round(hits * scale)
        bar = "#" * rights + "-" * (full - rights)
        out.append(f"week of {monday.isoformat()}  {bar}  {hits} of {whole} right")
    return out
