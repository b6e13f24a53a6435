"""An engine's second opinion, by an engine made up for the test."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from player.check.kept import Kept
from player.check.looked import look
from player.check.review import Reviewer, review
from player.engine.view import View
from player.facts.place import Place

LESSON = """\
title: T
coach: Ines

{Nf3}. Black has two reasonable replies.

aside: With the c-pawn
  {c5}.

{d5}.

question: What now?
  also c4: Sound too.
  reply h4: No.
  reply a4: No.

{g3}.
"""


class Made:
    """Thinks of each move what it is told to, else nothing of it."""

    identity = "made up"

    def __init__(self, thinks: Mapping[str, View]) -> None:
        self.thinks = thinks
        self.asked = 0

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]:
        self.asked += 1
        return {move: self.thinks.get(move, View(-3.0)) for move in moves}


def doubts(
    thinks: Mapping[str, View], kept: Kept | None = None, counts_men: bool = False
) -> list[tuple[str, int]]:
    found = review([look(LESSON, (), 1000, None)], Reviewer(Made(thinks), kept, counts_men))
    return [(fault.code, fault.line) for _, fault in found]


GOOD = {"g2g3": View(0.5), "d7d5": View(0.0), "c7c5": View(0.0)}


def test_an_engine_of_the_same_mind_says_nothing() -> None:
    assert doubts(GOOD) == []


def test_who_only_counts_men_tells_of_much_alone() -> None:
    assert doubts({**GOOD, "h2h4": View(1.5), "e7e5": View(1.0)}, counts_men=True) == []
    found = doubts({**GOOD, "h2h4": View(3.0), "e7e5": View(2.0)}, counts_men=True)
    assert {code for code, _ in found} == {"engine-prefers-reply", "engine-counts-more"}


def test_a_move_called_wrong_that_it_likes_better() -> None:
    assert doubts({**GOOD, "h2h4": View(1.0)}) == [("engine-prefers-reply", 13)]
    assert doubts({**GOOD, "h2h4": View(0.9)}) == []
    assert doubts({**GOOD, "h2h4": View(mate=3)}) == [("engine-prefers-reply", 13)]


def test_a_move_nobody_names_that_it_likes_much_better() -> None:
    assert doubts({**GOOD, "b1c3": View(2.5)}) == [("engine-prefers-other", 11)]
    assert doubts({**GOOD, "c2c4": View(2.5)}) == []
    assert ("engine-prefers-other", 11) in doubts({**GOOD, "g2g3": View(mate=-2)})


def test_a_reply_that_belongs_on_the_list() -> None:
    assert doubts({**GOOD, "g8f6": View(0.0)}) == [("engine-counts-more", 4)]


def test_what_it_said_is_kept(tmp_path: Path) -> None:
    kept, engine = Kept(tmp_path), Made({**GOOD, "h2h4": View(1.0)})
    looked = [look(LESSON, (), 1000, None)]
    first = list(review(looked, Reviewer(engine, kept)))
    asked = engine.asked
    assert asked == 2
    kept.close()
    assert list(review(looked, Reviewer(engine, Kept(tmp_path)))) == first
    assert engine.asked == asked
