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
                _stamp_at(tick, found),
                "stamp-back",
                f"The clock goes on from top to bottom, but {_brief(last.ms)} stands above, "
                f"in line {last.spot.line}.",
                sign.format(_brief(last.ms + 1000)),
            )
        else:
            last = tick


def _brief(ms: int) -> str:
    """The time as a stamp by hand has it: without milliseconds where there are none."""
    return time_text(ms).removesuffix(".000")


def _stamp_at(tick: _Tick, found: Found) -> Spot:
    """The stamp alone, where it stands as it is usually written; else all that it stamps."""
    for text in dict.fromkeys((_brief(tick.ms), time_text(tick.ms))):
        spot = found.where(f"@{text}" if tick.of_move else f"[{text}]", tick.spot)
        if spot.line == tick.spot.line and spot != tick.spot:
            return spot
    return tick.spot


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
