"""Taps of one key, counted: how many came before a pause. Pure; times are milliseconds of any clock."""

from __future__ import annotations

from dataclasses import dataclass

WINDOW_MS = 600
"""So long after the last tap its burst is over, and what it meant is decided."""

MENU = 4
"""So many taps, or any longer run, are the menu."""


@dataclass(frozen=True, slots=True)
class Burst:
    """Taps so far: how many, when the first and the last came."""

    count: int = 0
    first_ms: int = 0
    last_ms: int = 0

    def tapped(self, at_ms: int) -> Burst:
        """One tap more."""
        return Burst(self.count + 1, self.first_ms if self.count else at_ms, at_ms)

    def over(self, now_ms: int) -> bool:
        """Whether no further tap can belong to it."""
        return self.count > 0 and now_ms - self.last_ms >= WINDOW_MS

    def due_ms(self, now_ms: int) -> int | None:
        """Milliseconds until it is over; None where nothing was tapped."""
        return max(0, self.last_ms + WINDOW_MS - now_ms) if self.count else None
