"""The one clock that everything that waits or plays is given."""

from __future__ import annotations

import time
from typing import Protocol


class Clock(Protocol):
    """A clock that only goes forward."""

    def now_ms(self) -> int:
        """Milliseconds since some fixed moment."""

    def sleep(self, ms: int) -> None:
        """Let this many milliseconds pass."""


class RealClock:
    """The machine's monotonic clock."""

    def now_ms(self) -> int:
        return time.monotonic_ns() // 1_000_000

    def sleep(self, ms: int) -> None:
        time.sleep(max(0, ms) / 1000)


class VirtualClock:
    """A clock that moves only when told to: for tests, and for telling a lesson without waiting."""

    def __init__(self, ms: int = 0) -> None:
        self._ms = ms

    def now_ms(self) -> int:
        return self._ms

    def sleep(self, ms: int) -> None:
        self._ms += max(0, ms)
