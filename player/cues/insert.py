"""Steps put into a sheet that is made already."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import replace

from player.cues.sheet import Sheet, Step
from player.cues.starts import starts


def inserted(sheet: Sheet, before: Mapping[int, Sequence[Step]]) -> Sheet:
    """The sheet with these steps put in before the steps of these numbers.

    A part, scope or told answer that began at such a number still begins with its own step. `told` of a
    question that is put in counts as in the sheet there was.
    """
    places = sorted(before)
    sizes = [len(before[at]) for at in places]
    shift = [sum(sizes[:count]) for count in range(len(sizes) + 1)]

    def moved(index: int) -> int:
        return index + shift[bisect_right(places, index)]

    steps: list[Step] = []
    for index, step in enumerate(sheet.steps):
        steps += [*before.get(index, ()), step]
    steps += before.get(len(sheet.steps), ())
    made = [
        replace(step, ask=replace(step.ask, told=moved(step.ask.told)))
        if step.ask is not None and step.ask.told is not None
        else step
        for step in steps
    ]
    return replace(
        sheet,
        steps=tuple(made),
        parts=tuple(replace(part, first=moved(part.first)) for part in sheet.parts),
        scopes=tuple(
            replace(scope, first=moved(scope.first), last=moved(scope.last)) for scope in sheet.scopes
        ),
        starts=starts(made),
    )
