"""What an outside engine may add to a reply: a small protocol, so that nothing here depends on one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from player.facts.place import Place


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


class Judge(Protocol):
    """An engine behind a door. It may be slow; it may fail by raising, and then nothing was asked."""

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]:
        """A view of each of these legal moves (UCI); a move it has no view of may be missing."""
        ...
