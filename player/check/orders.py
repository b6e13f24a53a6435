"""Conflicting advice: one position, reached in two places or by two orders of moves, and two minds about it.

Positions are the same as the FIDE Laws have it (article 9.2): the same men on the same squares, the same
side to move, the same rights to castle and to capture en passant.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from player.script.faults import Fault


@dataclass(frozen=True, slots=True)
class Step:
    """A move that a script speaks of, and the position it is made in.

    `at` is that position as the first four fields of a FEN. `kind` is "advice" for a move told, or given as
    an answer, for the side that learns; "also" and "reply" as in a question; "told" for all other told moves.
    `ask` is the line of the question it belongs to, else 0, and `side` whose lesson it is: "white", "black"
    or "both".
    """

    at: str
    kind: str
    uci: str
    san: str
    line: int
    column: int
    width: int
    ask: int = 0
    side: str = "white"


@dataclass(frozen=True, slots=True)
class Count:
    """A number of good moves that the prose gives the side to move in a position `at`, and where."""

    at: str
    number: int
    line: int
    column: int
    width: int


@dataclass(frozen=True, slots=True)
class _There:
    lesson: int
    step: Step


def conflicting(lessons: Sequence[tuple[str, Sequence[Step]]]) -> Iterator[tuple[int, Fault]]:
    """The queries about conflicting advice, each with the index of the lesson (name, steps) it belongs to.

    It is put to the later of the two places, and names the earlier one.
    """
    by_position: dict[str, list[_There]] = {}
    for number, (_, steps) in enumerate(lessons):
        for step in steps:
            if step.kind != "told":
                by_position.setdefault(step.at, []).append(_There(number, step))
    names = [name for name, _ in lessons]
    for there in by_position.values():
        yield from _at_one_position(there, names)


def _at_one_position(there: list[_There], names: Sequence[str]) -> Iterator[tuple[int, Fault]]:
    wrong = _calls_wrong(there)
    for one, two in wrong:
        yield _query(one, two, names)
    also = {one.step.uci for one in there if one.step.kind == "also"}
    first: dict[str, _There] = {}
    for one in there:
        if one.step.kind == "advice":
            first.setdefault(one.step.uci, one)
    refused = {one.step.uci for one, _ in wrong}
    advised = list(first.values())
    for index, two in enumerate(advised):
        if index == 0 or two.step.uci in also or two.step.uci in refused:
            continue
        against = next((one for one in advised[:index] if one.step.uci not in also | refused), None)
        if against is not None:
            yield _query(against, two, names)


def _calls_wrong(there: list[_There]) -> list[tuple[_There, _There]]:
    """A move that gets a `reply` in one place and is advised or accepted in another: the first such pair."""
    pairs: dict[str, tuple[_There, _There]] = {}
    for reply in there:
        if reply.step.kind != "reply" or reply.step.uci in pairs:
            continue
        for good in there:
            own = good.lesson == reply.lesson and good.step.ask == reply.step.ask
            if good.step.kind in ("advice", "also") and good.step.uci == reply.step.uci and not own:
                early, late = sorted((reply, good), key=lambda one: (one.lesson, one.step.line))
                pairs[reply.step.uci] = (early, late)
                break
    return list(pairs.values())


def _query(early: _There, late: _There, names: Sequence[str]) -> tuple[int, Fault]:
    step = late.step
    refused = "reply" in (early.step.kind, step.kind)
    where = f"line {early.step.line}"
    if early.lesson != late.lesson:
        where = f"{names[early.lesson]}, {where}"
    message = (
        f"Conflicting advice: the same position stands in {where}. There {_says(early.step)}; "
        f"here {_says(step, 'it')}{'' if refused else ', and neither names the other as also'}."
    )
    fix = "" if refused else f"also {step.san}: Sound too."
    return late.lesson, Fault(step.line, step.column, step.width, "query", "advice-conflicts", message, fix)


def _says(step: Step, move: str = "the move") -> str:
    if step.kind == "reply":
        return f"{step.san} gets a reply as a wrong move"
    if step.kind == "also":
        return f"{step.san} is accepted"
    return f"{move} is {step.san}"
