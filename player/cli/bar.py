"""A bar on stderr for what takes more than a second, or off a terminal a line now and then."""

from __future__ import annotations

from player.world.world import World

_AFTER_MS = 1000
_BETWEEN_MS = 200
_BETWEEN_LINES_MS = 5000
_CELLS = 24


class Bar:
    """Call it with how much is done, of how much; `close` ends its line. Off a terminal it prints lines."""

    def __init__(self, world: World, what: str) -> None:
        self._world = world
        self._what = what
        self._begun = world.clock.now_ms()
        self._last: int | None = None
        self._drawn = False

    def __call__(self, done: int, total: int) -> None:
        now = self._world.clock.now_ms()
        on_terminal = self._world.stderr.isatty() and not self._world.terminal_is_plain
        after, between = (_AFTER_MS, _BETWEEN_MS) if on_terminal else (_BETWEEN_LINES_MS, _BETWEEN_LINES_MS)
        if now - self._begun < after or (self._last is not None and now - self._last < between):
            return
        self._last = now
        share = min(1.0, done / total) if total else 1.0
        if on_terminal:
            full = round(share * _CELLS)
            bar = "#" * full + "-" * (_CELLS - full)
            print(f"\r{self._what} [{bar}] {share:4.0%}", end="", file=self._world.stderr, flush=True)
            self._drawn = True
        else:
            print(f"{self._what}: {share:.0%}", file=self._world.stderr, flush=True)

    def close(self) -> None:
        """Wipe the bar off its line."""
        if self._drawn:
            wide = len(self._what) + _CELLS + 10
            print(f"\r{' ' * wide}\r", end="", file=self._world.stderr, flush=True)
            self._drawn = False
