"""Fitting the schedule to one learner, and judging the fit on answers it has not seen."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby

from fsrs_rs_python import FSRS, FSRSItem, FSRSReview

from player.learner.ratings import rated, scheduled
from player.learner.record import Record
from player.learner.schedule import DEFAULTS, refresh_all
from player.learner.tries import Try

ENOUGH = 200
"""So many rated answers are the least from which a fit is tried."""
MORE = 1.25
"""A fit is tried again when the answers have grown by this factor."""
FOLDS = (0.5, 0.625, 0.75, 0.875)
"""The fit is judged on each stretch of answers from what lay before it: these are the shares before."""
SURE = 1.0
"""By so many standard errors the fit must predict better than the learner's own average."""
Progress = Callable[[int, int], None]
SHARES = (0.25, 0.5, 0.75, 1.0)
"""A fit to few answers goes too far; these shares of the way from the defaults to it are tried."""


@dataclass(frozen=True)
class Review:
    """One rated answer: of which question, in how many days since the last (0 for a first), and how.

    `rating` is 1 (wrong) to 4, as FSRS counts.
    """

    question: str
    days: int
    rating: int
    at: datetime


@dataclass(frozen=True)
class Judged:
    """How well later answers were predicted (mean log loss, natural logarithm; smaller is better).

    `share` is how far the best weights go from the defaults to the fit; `margin` by how many standard errors
    they beat the average.
    """

    fitted: float
    defaults: float
    average: float
    margin: float
    answers: int
    share: float

    @property
    def keep(self) -> bool:
        """Whether the fit predicts better than both, and than the average by more than chance would give."""
        return self.fitted < self.defaults and self.margin > SURE


def reviews_of(record: Record) -> list[Review]:
    """All rated answers to scheduled questions, in the order of time."""
    kept = {key for key, question in record.questions().items() if scheduled(question)}
    by_question: dict[str, list[Try]] = {}
    for one in record.tries():
        if one.question in kept:
            by_question.setdefault(one.question, []).append(one)
    out: list[Review] = []
    for key, tries in by_question.items():
        before: datetime | None = None
        for one, rating in rated(sorted(tries, key=lambda one: one.at)):
            days = 0 if before is None else max(0, (one.at - before).days)
            out.append(Review(key, days, int(rating), one.at))
            before = one.at
    return sorted(out, key=lambda one: one.at)


def fitted(reviews: Sequence[Review]) -> tuple[float, ...]:
    """Weights fitted to these answers, in the order of time."""
    items = [FSRSItem([FSRSReview(r.rating, r.days) for r in past]) for past in _histories(reviews)]
    return tuple(FSRS([]).compute_parameters([item for item in items if item.long_term_review_cnt() > 0]))


def _histories(reviews: Sequence[Review]) -> list[list[Review]]:
    """For every answer after the first to its question: it and all before it."""
    out: list[list[Review]] = []
    for _, group in groupby(sorted(reviews, key=lambda r: (r.question, r.at)), key=lambda r: r.question):
        past = list(group)
        out += [past[: count + 1] for count in range(1, len(past))]
    return sorted(out, key=lambda past: past[-1].at)


def losses(weights: Sequence[float] | None, histories: Sequence[list[Review]]) -> list[float]:
    """The log loss of every history's last answer, predicted from what was before it."""
    used = DEFAULTS if weights is None else tuple(weights)
    model = FSRS(list(used))
    decay = -used[20]
    factor = 0.9 ** (1 / decay) - 1
    out = []
    for past in histories:
        state = model.memory_state(FSRSItem([FSRSReview(r.rating, r.days) for r in past[:-1]]))
        chance = (1 + factor * past[-1].days / state.stability) ** decay
        out.append(_loss(chance, past[-1].rating > 1))
    return out


def judged(reviews: Sequence[Review], progress: Progress | None = None) -> Judged | None:
    """Fit and defaults and average against later answers; None where there are too few to tell."""
    if len(reviews) < ENOUGH:
        return None
    own: dict[float, list[float]] = {share: [] for share in SHARES}
    default: list[float] = []
    average: list[float] = []
    for number, (begins, until) in enumerate(zip(FOLDS, (*FOLDS[1:], 1.0), strict=True)):
        if progress is not None:
            progress(number, len(FOLDS) + 1)
        cut, end = int(len(reviews) * begins), int(len(reviews) * until)
        later = asked_again(reviews[:end], reviews[cut].at)
        if not later:
            continue
        weights = fitted(reviews[:cut])
        for share in SHARES:
            own[share] += losses(blend(weights, share), later)
        default += losses(None, later)
        average += average_losses(reviews[:cut], later)
    if len(default) < ENOUGH // 8:
        return None
    best = min(SHARES, key=lambda share: mean(own[share]))
    margin = _standard_errors(own[best], average)
    return Judged(mean(own[best]), mean(default), mean(average), margin, len(default), best)


def blend(weights: Sequence[float], share: float) -> tuple[float, ...]:
    """Weights this share of the way from the defaults to the fit."""
    return tuple(usual + share * (own - usual) for usual, own in zip(DEFAULTS, weights, strict=True))


def own_weights(reviews: Sequence[Review], found: Judged) -> tuple[float, ...]:
    """The weights that earned it, fitted to all answers; none where they did not."""
    return blend(fitted(reviews), found.share) if found.keep else ()


def average_losses(seen: Sequence[Review], later: Sequence[list[Review]]) -> list[float]:
    """The loss of saying every time what share of questions asked again was known so far."""
    known = [past[-1].rating > 1 for past in asked_again(seen)]
    share = (sum(known) + 1) / (len(known) + 2)
    return [_loss(share, past[-1].rating > 1) for past in later]


def fit(record: Record, now: datetime, progress: Progress | None = None) -> Judged | None:
    """Fit the schedule where there are enough new answers, and use the fit if it has earned it.

    Returns how it was judged, or None where no fit was tried. `progress` is told how
    much is done, of how much.
    """
    count = rated_count(record)
    last = record.read("SELECT answers FROM fits ORDER BY id DESC LIMIT 1")
    if count < ENOUGH or (last and count < last[0][0] * MORE):
        return None
    reviews = reviews_of(record)
    found = judged(reviews, progress)
    if found is None:
        return None
    weights = own_weights(reviews, found)
    row = (
        now.astimezone(UTC).isoformat(timespec="seconds"),
        count,
        int(found.keep),
        json.dumps(weights),
        json.dumps([found.fitted, found.defaults, found.average, found.margin, found.answers]),
    )
    record.write("INSERT INTO fits (at, answers, kept, weights, losses) VALUES (?, ?, ?, ?, ?)", [row])
    refresh_all(record)
    return found


def rated_count(record: Record) -> int:
    """How many answers in the record rate something."""
    rows = record.read(
        "SELECT count(*) FROM tries JOIN questions ON questions.key = tries.question WHERE questions.of = ''"
        " AND tries.number = 1 AND tries.grade NOT IN ('told', 'passed', 'seen')"
    )
    return int(rows[0][0])


def asked_again(reviews: Sequence[Review], since: datetime | None = None) -> list[list[Review]]:
    """The histories that end, from this moment on, with an answer on a later day than the one before."""
    return [
        past for past in _histories(reviews) if past[-1].days > 0 and (since is None or past[-1].at >= since)
    ]


def _loss(chance: float, known: bool) -> float:
    bounded = min(max(chance, 1e-4), 1 - 1e-4)
    return -math.log(bounded if known else 1 - bounded)


def mean(values: Sequence[float]) -> float:
    """The mean of some numbers, at least one."""
    return sum(values) / len(values)


def _standard_errors(own: Sequence[float], other: Sequence[float]) -> float:
    """By how many standard errors `own` is smaller than `other` on average, answer by answer."""
    gains = [theirs - ours for ours, theirs in zip(own, other, strict=True)]
    middle = mean(gains)
    spread = math.sqrt(sum((one - middle) ** 2 for one in gains) / max(1, len(gains) - 1))
    return middle / (spread / math.sqrt(len(gains))) if spread > 0 else 0.0
