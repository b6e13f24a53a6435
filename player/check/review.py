"""An engine's second opinion on a series: asked for by name, told as an opinion, never more than a query."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

import chess

from player.check.kept import Kept, key_of
from player.check.looked import Looked
from player.check.orders import Count, Step
from player.engine.view import View
from player.facts.place import Place
from player.script.faults import Fault

CLEARLY = 0.5
MUCH = 1.5
"""Differences in pawns at which an engine's opinion is worth a query; the program's own choice."""
BY_MEN = 2.0
"""The same for one that only counts men."""


class Engine(Protocol):
    """What is needed of an engine; `identity` has all that its views depend on."""

    @property
    def identity(self) -> str: ...

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]: ...


@dataclass(slots=True)
class Reviewer:
    """Asks one engine, or takes what is kept of what it said. Whatever the engine raises comes through.

    `counts_men` is for an engine that knows no better than that: only big differences are told.
    """

    engine: Engine
    kept: Kept | None = None
    counts_men: bool = False

    @property
    def who(self) -> str:
        """Whose opinion it is, as a sentence begins."""
        return "A short search" if self.counts_men else "An engine"

    def least(self, usual: float) -> float:
        """The difference in pawns from which on it is told."""
        return BY_MEN if self.counts_men else usual

    def views(self, at: str) -> dict[str, View]:
        """What it thinks of every legal move of a position."""
        board = chess.Board(f"{at} 0 1")
        key = key_of("views", self.engine.identity, at)
        known = self.kept.get(key) if self.kept is not None else None
        if isinstance(known, dict):
            return {uci: View(float(pawns), int(mate)) for uci, (pawns, mate) in known.items()}
        found = self.engine.judge(Place(board.fen()), [move.uci() for move in board.legal_moves])
        if self.kept is not None:
            self.kept.put(key, {uci: [view.pawns, view.mate] for uci, view in found.items()})
        return dict(found)


def review(
    lessons: Sequence[Looked], reviewer: Reviewer, progress: Callable[[int, int], None] | None = None
) -> Iterator[tuple[int, Fault]]:
    """Queries about questions and counted replies, each with the number of its script."""
    tasks: list[tuple[int, Count | tuple[Step, ...]]] = []
    for number, one in enumerate(lessons):
        tasks += [(number, group) for group in _asked(one.steps)]
        tasks += [(number, count) for count in one.counts]
    for done, (number, task) in enumerate(tasks):
        if progress is not None:
            progress(done, len(tasks))
        if isinstance(task, Count):
            told = {step.uci: step.san for step in lessons[number].steps if step.at == task.at}
            found = _of_count(task, told, reviewer)
        else:
            found = _of_question(task, reviewer)
        for fault in found:
            yield number, fault


def _asked(steps: Sequence[Step]) -> list[tuple[Step, ...]]:
    """The steps of each question, its answer first."""
    groups: dict[tuple[int, str], list[Step]] = {}
    for step in steps:
        if step.ask:
            groups.setdefault((step.ask, step.at), []).append(step)
    return [tuple(group) for group in groups.values() if group[0].kind == "advice"]


def _of_question(group: tuple[Step, ...], reviewer: Reviewer) -> Iterator[Fault]:
    answer = group[0]
    views, who = reviewer.views(answer.at), reviewer.who
    own = views.get(answer.uci)
    if own is None:
        return
    spoken = {step.uci for step in group}
    for step in group[1:]:
        view = views.get(step.uci)
        if step.kind == "reply" and view is not None and view.rank >= own.rank + reviewer.least(CLEARLY):
            message = (
                f"{who} thinks more of {step.san}, which gets a reply as a wrong move, than of the "
                f"answer {answer.san}."
            )
            yield _query(step, "engine-prefers-reply", message)
    better = [
        uci
        for uci, view in views.items()
        if uci not in spoken and view.rank >= own.rank + reviewer.least(MUCH)
    ]
    if better:
        best = _san(answer.at, max(better, key=lambda uci: (views[uci].rank, uci)))
        message = f"{who} thinks much more of {best}, which nothing here names, than of {answer.san}."
        yield _query(answer, "engine-prefers-other", message)


def _of_count(count: Count, told: Mapping[str, str], reviewer: Reviewer) -> Iterator[Fault]:
    views = reviewer.views(count.at)
    listed = {uci: views[uci].rank for uci in told if uci in views}
    others = {uci: view.rank for uci, view in views.items() if uci not in told}
    if not listed or not others:
        return
    worst = min(listed, key=lambda uci: (listed[uci], uci))
    best = max(others, key=lambda uci: (others[uci], uci))
    if others[best] >= listed[worst] + (BY_MEN if reviewer.counts_men else 0):
        message = (
            f"{reviewer.who} thinks {_san(count.at, best)}, which is not told here, no worse than "
            f"{told[worst]}, which is."
        )
        yield Fault(count.line, count.column, count.width, "query", "engine-counts-more", message)


def _query(step: Step, code: str, message: str) -> Fault:
    return Fault(step.line, step.column, step.width, "query", code, message)


def _san(at: str, uci: str) -> str:
    board = chess.Board(f"{at} 0 1")
    return board.san(board.parse_uci(uci))
