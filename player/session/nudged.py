"""Nudges are kept apart: the next rung takes a try, or five seconds since the last."""

from __future__ import annotations

from player.stage.inputs import Did, Input, Typed
from player.stage.state import State
from player.stage.understand import understand
from player.world.clock import Clock

APART_MS = 5_000
SOON = "soon"
"""What a wish for a nudge carries that comes too soon."""


class Apart:
    """Marks a wish for a nudge that comes too soon after the last, with no try between."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._last: tuple[str, int, int] | None = None

    def marked(self, state: State, given: Input) -> Input:
        """The same input, or the wish marked as too soon; told at once there is no waiting."""
        asked, telling = state.asked, state.telling
        if asked is None or (telling.at_once and not telling.by_beat):
            return given
        meant = understand(state, given.text) if isinstance(given, Typed) else given
        if not isinstance(meant, Did) or meant.verb != "nudge":
            return given
        now, last = self._clock.now_ms(), self._last
        if last is not None and last[:2] == (asked.ask.key, asked.tries) and now - last[2] < APART_MS:
            return Did("nudge", SOON)
        self._last = (asked.ask.key, asked.tries, now)
        return given
