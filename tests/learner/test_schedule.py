"""When questions come back."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from fsrs import Rating

from player.learner.ratings import rating_of
from player.learner.record import Record, open_record
from player.learner.schedule import rate_effort, refresh_all, waits, waits_count
from player.learner.tries import Question, Try

DAY = timedelta(days=1)
NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)
ROOT = "8/8/8/8/8/8/8/K1k5 w - - 0 1"


def one_try(grade: str, number: int = 1, key: str = "a", at: datetime = NOON, **more: object) -> Try:
    uid = f"{key} {at} {number} {grade}"
    base = Try(uid, key, at, "lesson", uid, "Ka3", "a2a3", grade, number, 0)  # type: ignore[arg-type]
    return replace(base, **more)  # type: ignore[arg-type]


@pytest.fixture
def record(tmp_path: Path) -> Record:
    made = open_record(tmp_path / "record.sqlite3")
    made.keep([Question(key, "move", ROOT, (), "Where?", ("a1a2",)) for key in "abc"])
    made.keep([Question("n", "move", ROOT, (), "Where?", ("a1a2",), like="a")])
    return made


@pytest.mark.parametrize(
    ("tried", "rating"),
    [
        (one_try("right"), Rating.Good),
        (one_try("also"), Rating.Good),
        (one_try("right", nudges=1), Rating.Hard),
        (one_try("right", sure="guess"), Rating.Hard),
        (one_try("right", effort="at once"), Rating.Easy),
        (one_try("right", effort="with effort"), Rating.Good),
        (one_try("right", effort="guess"), Rating.Hard),
        (one_try("wrong"), Rating.Again),
        (one_try("right", number=2), None),
        (one_try("wrong", number=2), None),
        (one_try("told", number=0), None),
        (one_try("passed", number=0), None),
        (one_try("seen"), None),
    ],
)
def test_what_a_try_says_about_remembering(tried: Try, rating: Rating | None) -> None:
    assert rating_of(tried) == rating


def test_later_tries_do_not_worsen_a_first(record: Record) -> None:
    record.keep([], [one_try("right"), one_try("wrong", number=2)])
    assert waits(record, NOON + DAY) == []
    assert [one.question for one in waits(record, NOON + 2 * DAY)] == ["a"]


def test_silence_told_and_seen_plan_nothing(record: Record) -> None:
    record.keep([], [one_try("passed", 0), one_try("told", 0, "b"), one_try("seen", 1, "c")])
    assert waits(record, NOON + 3650 * DAY) == []


def test_positions_made_from_a_question_are_not_planned(record: Record) -> None:
    record.keep([], [one_try("wrong", key="n"), one_try("wrong")])
    assert [one.question for one in waits(record, NOON + DAY)] == ["a"]


def test_a_day_is_the_learners_own(record: Record) -> None:
    record.keep([], [one_try("wrong", at=datetime(2026, 3, 1, 23, 30, tzinfo=UTC))])
    east = timezone(timedelta(hours=9))
    assert waits_count(record, datetime(2026, 3, 2, 0, 30, tzinfo=UTC)) == 1
    assert waits_count(record, datetime(2026, 3, 2, 9, 0, tzinfo=east)) == 0
    assert waits_count(record, datetime(2026, 3, 3, 0, 1, tzinfo=east)) == 1


def test_the_longest_due_comes_first_and_new_answers_are_taken_in(record: Record) -> None:
    record.keep([], [one_try("right"), one_try("wrong", key="b"), one_try("wrong", key="c", at=NOON - DAY)])
    assert [one.question for one in waits(record, NOON + 9 * DAY)] == ["c", "b", "a"]
    record.keep([], [one_try("right", key="c", at=NOON + 9 * DAY)])
    assert [one.question for one in waits(record, NOON + 9 * DAY)] == ["b", "a"]


def test_a_word_about_the_effort_plans_anew(record: Record) -> None:
    tried = one_try("right")
    record.keep([], [tried])
    assert waits_count(record, NOON + 3 * DAY) == 1
    rate_effort(record, tried, "at once")
    assert waits_count(record, NOON + 3 * DAY) == 0
    assert waits_count(record, NOON + 8 * DAY) == 1


def test_cards_made_anew_are_the_same(record: Record) -> None:
    for day in range(6):
        key = "abc"[day % 3]
        record.keep([], [one_try("right" if day % 4 else "wrong", key=key, at=NOON + day * 5 * DAY)])
        waits(record, NOON)
    before = record.read("SELECT question, card, due, tries FROM waiting ORDER BY question")
    refresh_all(record)
    assert record.read("SELECT question, card, due, tries FROM waiting ORDER BY question") == before
