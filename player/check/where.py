"""Where words stand in a script."""

from __future__ import annotations

from player.script.faults import lines_of
from player.script.model import Spot


def within(source: str, spot: Spot, words: str, reach: int = 1) -> Spot:
    """The spot of these words, or of their first line, in the `reach` lines from a spot on; else the spot."""
    lines = lines_of(source)
    wanted = words.strip().splitlines()[0].strip() if words.strip() else ""
    for number in range(spot.line, min(spot.line + reach, len(lines) + 1)):
        line = lines[number - 1]
        start = spot.column - 1 if number == spot.line else 0
        at = line.find(wanted, start) if wanted else -1
        if at >= 0:
            return Spot(number, at + 1, len(wanted))
    return spot


def folded(text: str) -> str:
    """Words to be compared: one case, one blank between, no marks at the ends."""
    return " ".join(text.casefold().split()).strip(" .,;:!?{}")
