"""Learners who forget as FSRS says, with weights of their own, and one who only guesses."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta

from fsrs import Card, Rating, Scheduler

from player.learner.schedule import DEFAULTS, scheduler

START = datetime(2026, 1, 1, 9, tzinfo=UTC)


def own_weights(rng: random.Random) -> tuple[float, ...]:
    """Weights other than the defaults: memories that last shorter or longer, and fade faster or slower."""
    weights = list(DEFAULTS)
    scale = rng.choice((0.25, 0.4, 2.5, 4.0))
    for index in range(4):
        weights[index] *= scale * rng.uniform(0.8, 1.25)
    weights[8] *= rng.uniform(0.6, 1.2)
    weights[11] *= rng.uniform(0.5, 1.5)
    weights[20] = rng.uniform(0.1, 0.5)
    return tuple(weights)


def first_try(rng: random.Random) -> Rating:
    return rng.choices((Rating.Again, Rating.Hard, Rating.Good, Rating.Easy), (0.3, 0.1, 0.5, 0.1))[0]


def learner(
    seed: int, answers: int, questions: int = 60, *, guessing: bool = False
) -> list[tuple[str, datetime, Rating]]:
    """Answers in the order of time: question, when (UTC), rating. Each is put when it is due.

    The learner does not always come on the day: some days are skipped, so that the time between varies.
    """
    rng = random.Random(seed)
    plan = scheduler()
    truth: Scheduler = scheduler(own_weights(rng))
    planned: dict[str, Card] = {}
    true: dict[str, Card] = {}
    out: list[tuple[str, datetime, Rating]] = []
    day = 0
    fresh = [f"q{number}" for number in range(questions)]
    while len(out) < answers:
        day += rng.choice((1, 1, 1, 2, 3, 7))
        now = START + timedelta(days=day, minutes=rng.randrange(300))
        todays = [key for key, card in planned.items() if card.due <= now]
        rng.shuffle(todays)
        todays += [fresh.pop() for _ in range(min(len(fresh), rng.choice((0, 2, 4))))]
        if not todays and not fresh:
            fresh = [f"q{len(planned) + number}" for number in range(20)]
        for key in todays[:25]:
            now += timedelta(seconds=30)
            if guessing:
                rating = Rating.Good if rng.random() < 0.5 else Rating.Again
            elif key not in true:
                rating = first_try(rng)
            else:
                known = rng.random() < truth.get_card_retrievability(true[key], now)
                rating = (
                    rng.choices((Rating.Hard, Rating.Good, Rating.Easy), (0.15, 0.7, 0.15))[0]
                    if known
                    else Rating.Again
                )
            out.append((key, now, rating))
            planned[key], _ = plan.review_card(planned.get(key, Card(card_id=0)), rating, now)
            true[key], _ = truth.review_card(true.get(key, Card(card_id=0)), rating, now)
    return out[:answers]
