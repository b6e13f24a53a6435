"""A schedule fitted to one learner, judged on answers it has not seen."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest
from fsrs import Rating

from player.learner.fit import (
    ENOUGH,
    Review,
    asked_again,
    average_losses,
    fit,
    judged,
    losses,
    mean,
    own_weights,
    reviews_of,
)
from player.learner.record import open_record
from player.learner.schedule import weights_in_use
from player.learner.tries import Question, Try
from tests.learner.simulated import learner

SEEN, LATER = 600, 400
GRADES = {
    Rating.Again: ("wrong", None),
    Rating.Hard: ("right", "guess"),
    Rating.Good: ("right", None),
    Rating.Easy: ("right", "at once"),
}


def reviews(answers: list[tuple[str, datetime, Rating]]) -> list[Review]:
    last: dict[str, datetime] = {}
    out = []
    for key, at, rating in answers:
        out.append(Review(key, (at - last[key]).days if key in last else 0, int(rating), at))
        last[key] = at
    return out


def later_losses(seed: int) -> tuple[float, float, float]:
    """Of the schedule in use, the defaults, and the learner's average, on at least 200 later answers."""
    all_told = reviews(learner(seed, SEEN + LATER))
    seen, later = all_told[:SEEN], asked_again(all_told, all_told[SEEN].at)
    assert len(later) >= 200
    found = judged(seen)
    own = (own_weights(seen, found) if found is not None else ()) or None
    return mean(losses(own, later)), mean(losses(None, later)), mean(average_losses(seen, later))


def test_the_schedule_predicts_later_answers() -> None:
    found = [later_losses(seed) for seed in range(20)]
    assert sum(own < average for own, _, average in found) >= 17
    assert mean([own for own, _, _ in found]) <= mean([default for _, default, _ in found])


def test_who_answers_at_random_never_gets_a_fit() -> None:
    for seed in range(20):
        found = judged(reviews(learner(seed, SEEN, guessing=True)))
        assert found is not None and not found.keep


def test_too_few_answers_are_not_judged() -> None:
    assert judged(reviews(learner(1, ENOUGH - 1))) is None


@pytest.mark.parametrize(("seed", "guessing", "kept"), [(15, False, True), (15, True, False)])
def test_a_fit_goes_into_use_only_where_it_earned_it(
    tmp_path: Path, seed: int, guessing: bool, kept: bool
) -> None:
    answers = learner(seed, SEEN, guessing=guessing)
    with open_record(tmp_path / "record.sqlite3") as record:
        keys = {key for key, _, _ in answers}
        root = "8/8/8/8/8/8/8/K1k5 w - - 0 1"
        tries = []
        for number, (key, at, rating) in enumerate(answers):
            grade, effort = GRADES[rating]
            tries.append(
                Try(str(number), key, at, "lesson", "", "", "", grade, 1, 0, effort=effort)  # type: ignore[arg-type]
            )
        record.keep([Question(key, "move", root, (), "?", ("a1a2",)) for key in keys], tries)
        assert reviews_of(record) == sorted(reviews(answers), key=lambda one: one.at)
        now = answers[-1][1] + timedelta(hours=1)
        told: list[tuple[int, int]] = []
        found = fit(record, now, lambda done, of: told.append((done, of)))
        assert told == sorted(told) and told[-1][0] < told[-1][1]
        assert found is not None and found.keep is kept
        assert (weights_in_use(record) is not None) is kept
        assert fit(record, now) is None, "no new answers, no new fit"
