"""What an outside engine may add to a reply: a small protocol, so that nothing here depends on one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from player.engine.view import View
from player.facts.place import Place

__all__ = ["Judge", "View"]


class Judge(Protocol):
    """An engine behind a door. It may be slow; it may fail by raising, and then nothing was asked."""

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]:
        """A view of each of these legal moves (UCI); a move it has no view of may be missing."""
        ...
