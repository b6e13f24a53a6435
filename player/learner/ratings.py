"""What a first try says about remembering, as one of FSRS's four ratings."""

from __future__ import annotations

from collections.abc import Iterable

from fsrs import Rating

from player.learner.tries import Question, Try

_EFFORT = {"at once": Rating.Easy, "with effort": Rating.Good, "guess": Rating.Hard}


def rating_of(one: Try) -> Rating | None:
    """The rating of a try; None for one that rates nothing: a later try, or no try at all.

    A wrong first try is Again. A right one is Good; help before it, or a guess, makes it Hard; the learner's
    own word about the effort comes first. Asked again within the lesson rates nothing.
    """
    if not one.first or one.mode == "again":
        return None
    if one.grade == "wrong":
        return Rating.Again
    if one.effort is not None:
        return _EFFORT[one.effort]
    return Rating.Hard if one.nudges or one.sure == "guess" else Rating.Good


def scheduled(question: Question) -> bool:
    """Whether a question comes back on later days: the coach's own do, positions made from them do not."""
    return not question.like


def rated(tries: Iterable[Try]) -> list[tuple[Try, Rating]]:
    """The tries that rate something, with their ratings, in order."""
    return [(one, rating) for one in tries if (rating := rating_of(one)) is not None]
