"""What an outside engine thinks of a move."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class View:
    """What an engine thinks of one move, from the side of the mover.

    `pawns` is what it thinks of the position after the move, in pawns (1.0 is a pawn ahead), at most 100;
    `mate` is positive where the mover mates in so many moves, negative where the mover is mated, else 0.
    `line` is how it goes on after the move (UCI), the reply first; it may be empty.
    """

    pawns: float = 0.0
    mate: int = 0
    line: tuple[str, ...] = ()

    @property
    def rank(self) -> float:
        """A number by which views compare: mates before pawns, a shorter mate before a longer one."""
        if self.mate > 0:
            return 10_000.0 - self.mate
        return -10_000.0 - self.mate if self.mate < 0 else self.pawns
