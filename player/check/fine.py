"""`fine: WORDS` waves off a query about those words of the beat above."""

from __future__ import annotations

from collections.abc import Sequence

from player.check.waving import Wave
from player.check.where import within
from player.script.told import Told, ToldBeat, ToldBoard, ToldFine, ToldIdea, ToldPart, ToldQuestion

_BEATS = (ToldBeat, ToldPart, ToldIdea, ToldQuestion, ToldBoard)


def waves_of(source: str, elements: Sequence[Told]) -> tuple[Wave, ...]:
    """All `fine:` lines, in file order."""
    waves = []
    for number, one in enumerate(elements):
        if isinstance(one, ToldFine):
            spot = within(source, one.spot, one.words)
            first = _beat_above(elements[:number])
            waves.append(Wave(one.words, spot.line, spot.column, spot.width, one.spot.line, first))
    return tuple(waves)


def _beat_above(above: Sequence[Told]) -> int:
    """The line in which the beat above begins, with the cues that belong to it."""
    for one in reversed(above):
        if isinstance(one, _BEATS):
            return one.spot.line
    return 1
