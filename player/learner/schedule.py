"""When a question comes back: FSRS (open-spaced-repetition, FSRS-6) over the first tries in the record.

The table `waiting` holds a card for every question that was tried. It can always be made again from the
tries, and is brought up to date by reading no more than the tries since.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from fsrs import Card, Scheduler, State

from player.learner.ratings import rated, scheduled
from player.learner.record import Record
from player.learner.tries import Try

RETENTION = 0.9
"""A question comes back when the chance to know it has fallen to this."""

DEFAULTS: tuple[float, ...] = tuple(Scheduler().parameters)
"""The library's weights, fitted to many learners."""

_NEVER = datetime(9999, 1, 1, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Waiting:
    """A question that was tried, when (UTC) it is due, and its card (None where nothing was rated yet)."""

    question: str
    due: datetime
    card: Card | None


def scheduler(weights: Sequence[float] | None = None) -> Scheduler:
    """FSRS with these weights (the library's defaults for None), in whole days and without chance.

    Steps of minutes are left out: within a lesson its own repeats do that work.
    """
    return Scheduler(
        parameters=DEFAULTS if weights is None else tuple(weights),
        desired_retention=RETENTION,
        learning_steps=(),
        relearning_steps=(),
        enable_fuzzing=False,
    )


def card_of(tries: Iterable[Try], plan: Scheduler) -> Card | None:
    """The card after these tries at one question; None where none of them rates anything."""
    card: Card | None = None
    for one, rating in rated(tries):
        before = card or Card(card_id=0, state=State.Learning)
        card, _ = plan.review_card(before, rating, one.at.astimezone(UTC))
    return card


def weights_in_use(record: Record) -> tuple[float, ...] | None:
    """The learner's own weights, where the last fit that was judged was kept; None for the defaults."""
    rows = record.read("SELECT weights, kept FROM fits ORDER BY id DESC LIMIT 1")
    return tuple(json.loads(rows[0][0])) if rows and rows[0][1] else None


def refresh(record: Record, only: Iterable[str] | None = None) -> None:
    """Bring the cards up to date: of these questions, or of all that were tried since the last time."""
    if only is None:
        only = [
            key
            for (key,) in record.read(
                "SELECT DISTINCT question FROM tries WHERE id > (SELECT coalesce(max(tries), 0) FROM waiting)"
            )
        ]
    keys = list(only)
    if not keys:
        return
    plan = scheduler(weights_in_use(record))
    known = record.questions()
    rows = []
    for key in keys:
        question = known.get(key)
        last = record.read("SELECT max(id) FROM tries WHERE question = ?", (key,))[0][0] or 0
        card = card_of(record.tries(key), plan) if question is not None and scheduled(question) else None
        due = card.due if card is not None else _NEVER
        rows.append((key, card.to_json() if card is not None else "", _at(due), last))
    record.write(
        "INSERT INTO waiting (question, card, due, tries) VALUES (?, ?, ?, ?) ON CONFLICT (question)"
        " DO UPDATE SET card = excluded.card, due = excluded.due, tries = excluded.tries",
        rows,
    )


def refresh_all(record: Record) -> None:
    """Make all cards anew, as after a change of weights."""
    refresh(record, [key for (key,) in record.read("SELECT DISTINCT question FROM tries")])


def waits(record: Record, now: datetime) -> list[Waiting]:
    """The questions that wait for today, longest due first. `now` has the learner's own time zone."""
    refresh(record)
    tomorrow = now.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
    rows = record.read(
        "SELECT question, due, card FROM waiting WHERE due < ? ORDER BY due, question",
        (_at(tomorrow.astimezone(UTC)),),
    )
    return [
        Waiting(key, datetime.fromisoformat(due), Card.from_json(card) if card else None)
        for key, due, card in rows
    ]


def waits_count(record: Record, now: datetime) -> int:
    """How many questions wait for today."""
    refresh(record)
    tomorrow = now.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
    row = record.read("SELECT count(*) FROM waiting WHERE due < ?", (_at(tomorrow.astimezone(UTC)),))
    return int(row[0][0])


def chance(card: Card, now: datetime, plan: Scheduler) -> float:
    """The chance (0 to 1) that the learner knows this now."""
    return float(plan.get_card_retrievability(card, now.astimezone(UTC)))


def rate_effort(record: Record, one: Try, effort: str) -> None:
    """Keep how a right answer went, and plan its question anew."""
    record.add_effort(one.uid, effort)
    refresh(record, [one.question])


def _at(moment: datetime) -> str:
    return moment.astimezone(UTC).isoformat(timespec="milliseconds")
