"""Stamps are one increasing clock in file order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from player.script.found import Found
from player.script.heads import time_text
from player.script.model import Beat, Bit, Block, Brace, Element, IdeaLine, Line, Part, QuestionBlock, Spot


@dataclass(frozen=True, slots=True)
class _Tick:
    ms: int
    spot: Spot
    of_move: bool


def check_clock(body: Sequence[Element], found: Found) -> None:
    """Faults where a stamp goes back. A move may have the very time of its beat, two beats may not."""
    last: _Tick | None = None
    for tick in _ticks(body):
        if last is not None and (tick.ms < last.ms or (tick.ms == last.ms and not tick.of_move)):
            sign = "@{}" if tick.of_move else "[{}]"
            found.fault(
                tick.spot,
                "stamp-back",
                f"The clock goes on from top to bottom, but {time_text(last.ms)} stands above, "
                f"in line {last.spot.line}.",
                sign.format(time_text(last.ms + 1000)),
            )
        else:
            last = tick


def _ticks(body: Sequence[Element]) -> list[_Tick]:
    ticks: list[_Tick] = []
    for element in body:
        if element.stamp_ms is not None:
            ticks.append(_Tick(element.stamp_ms, element.spot, False))
        for bit in _bits(element):
            if isinstance(bit, Brace) and bit.stamp_ms is not None:
                ticks.append(_Tick(bit.stamp_ms, bit.spot, True))
        if isinstance(element, Block):
            ticks += _ticks(element.body)
    return ticks


def _bits(element: Element) -> Sequence[Bit]:
    """The words of an element that are told in file order; a question's side tracks are not."""
    if isinstance(element, Beat):
        return element.bits
    if isinstance(element, Part | Block):
        return element.title
    if isinstance(element, QuestionBlock):
        return element.text
    if isinstance(element, IdeaLine):
        return element.words
    assert isinstance(element, Line)
    return ()
