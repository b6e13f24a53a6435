"""The schedule's library against its own published sequences and formulas.

Sources: the sequences are those of the test file `test_basic.py` of open-spaced-repetition/py-fsrs (read as
figures; version 6.3.2); the formulas are those of FSRS-6 in its `scheduler.py`:
R = (1 + F t/S)^(-w20), F = 0.9^(-1/w20) - 1, interval = round(S/F (r^(-1/w20) - 1)).
Values marked "computed" follow from the formulas and were computed apart.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from fsrs import Card, Rating, Scheduler, State

from player.learner.schedule import DEFAULTS, scheduler

AGAIN, HARD, GOOD, EASY = Rating.Again, Rating.Hard, Rating.Good, Rating.Easy
W20 = 0.1542


def test_the_published_run_of_intervals() -> None:
    plan = Scheduler(enable_fuzzing=False)
    card, now = Card(), datetime(2022, 11, 29, 12, 30, tzinfo=UTC)
    days = []
    for rating in [GOOD] * 6 + [AGAIN] * 2 + [GOOD] * 5:
        card, _ = plan.review_card(card, rating, now)
        assert card.last_review is not None
        days.append((card.due - card.last_review).days)
        now = card.due
    assert days == [0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21]
    assert card.stability == pytest.approx(20.77035728, abs=1e-6)
    assert card.difficulty == pytest.approx(9.05575992, abs=1e-6)


def test_the_published_memory_state() -> None:
    plan = Scheduler(enable_fuzzing=False)
    card, now = Card(), datetime(2022, 11, 29, 12, 30, tzinfo=UTC)
    for rating, gap in zip([AGAIN] + [GOOD] * 5, (0, 0, 1, 3, 8, 21), strict=True):
        now += timedelta(days=gap)
        card, _ = plan.review_card(card, rating, now)
    assert card.stability == pytest.approx(53.62691, abs=1e-4)
    assert card.difficulty == pytest.approx(6.3574867, abs=1e-4)


@pytest.mark.parametrize(
    ("rating", "stability", "difficulty", "days"),
    [
        (AGAIN, 0.212, 6.4133, 1),
        (HARD, 1.2931, 5.112170706, 1),
        (GOOD, 2.3065, 2.118103970, 2),
        (EASY, 8.2956, 1.0, 8),
    ],
)
def test_a_first_answer_in_whole_days(rating: Rating, stability: float, difficulty: float, days: int) -> None:
    """First stabilities are the weights w0 to w3; the days follow from the formula (computed)."""
    now = datetime(2026, 1, 1, 12, tzinfo=UTC)
    card, _ = scheduler().review_card(Card(), rating, now)
    assert (card.stability, card.difficulty) == pytest.approx((stability, difficulty), abs=1e-6)
    assert card.due - now == timedelta(days=days)
    assert card.state == State.Review


@pytest.mark.parametrize(
    ("days", "chance"), [(1, 0.98568241), (5, 0.94034429), (10, 0.9), (20, 0.84588465), (100, 0.69282663)]
)
def test_the_forgetting_curve(days: int, chance: float) -> None:
    """Ten days of stability (computed from the formula)."""
    now = datetime(2026, 1, 1, tzinfo=UTC)
    card = Card(state=State.Review, stability=10.0, difficulty=5.0, due=now, last_review=now)
    known = scheduler().get_card_retrievability(card, now + timedelta(days=days))
    assert known == pytest.approx(chance, abs=1e-7)
    factor = 0.9 ** (-1 / W20) - 1
    assert factor == pytest.approx(0.9803464944, abs=1e-9)
    assert known == pytest.approx((1 + factor * days / 10) ** -W20, abs=1e-12)


def test_the_weights_are_the_published_ones() -> None:
    assert len(DEFAULTS) == 21
    assert DEFAULTS[:4] == (0.212, 1.2931, 2.3065, 8.2956) and DEFAULTS[20] == W20
