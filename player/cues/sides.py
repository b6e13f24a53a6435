"""Who sits at the bottom of the board, as the script has it so far."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(slots=True)
class Sides:
    """`side:` turns the board for Black; a `view:` decides instead, until a later part has a `side:`."""

    side: str
    view: str = ""
    _part: int = -1

    def told(self, side: str, view: str, part: int) -> None:
        """A `side:` or `view:` line in this part; "" changes nothing."""
        if side:
            self.side = side
            if part != self._part:
                self.view = ""
        if view:
            self.view, self._part = view, part

    @property
    def flip(self) -> bool:
        """Whether Black sits at the bottom."""
        return (self.view or self.side) == "black"
