"""How the room of the terminal is divided between board and words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from player.screen.paint import LARGE, MIDDLE, OUTSIDE_X, OUTSIDE_Y, SMALL, TINY, Size

Shape = Literal["wide", "tall", "tiny", "blind"]

# Cells that must be left: columns for the narration beside the board, lines for all that stands under it.
_BESIDE: dict[Size, int] = {LARGE: 44, MIDDLE: 40, SMALL: 34, TINY: 18}
_UNDER = 5
_TOLD = 6


@dataclass(frozen=True, slots=True)
class Room:
    """The shape of the screen, the board's size (None where there is no room), and lines for the ways on."""

    shape: Shape
    size: Size | None
    ways: int


def divide(width: int, height: int, *, blocks: bool = True) -> Room:
    """The largest board that leaves room to read: beside the words, or above them on a tall screen."""
    if blocks:
        for size in (LARGE, MIDDLE, SMALL):
            lines = size.height + OUTSIDE_Y + _UNDER
            if width >= size.width + OUTSIDE_X + _BESIDE[size] and height >= lines:
                return Room("wide", size, 3 if height < 30 else 7)
        for size in (LARGE, MIDDLE, SMALL):
            if width >= size.width + OUTSIDE_X + 2 and height >= size.height + OUTSIDE_Y + _UNDER + _TOLD + 3:
                return Room("tall", size, 0)
    if width >= TINY.width + OUTSIDE_X + _BESIDE[TINY] and height >= TINY.height + OUTSIDE_Y + 3:
        return Room("tiny", TINY, 0)
    return Room("blind", None, 0)
