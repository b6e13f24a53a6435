"""The program in a real pseudo-terminal, its screen read cell by cell as a terminal would show it."""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from player.screen.paint import OUTSIDE_X
from player.screen.rooms import divide

ROOT = Path(__file__).parents[2]
PATIENCE_S = 30.0
"""How long something may take to appear before the test gives up; nothing waits for as long as that."""

LEFT = b"\x1b[?1049l"
"""What a program writes when it gives the terminal its former screen back (xterm's control sequences)."""


class Terminal:
    """`moveteller` with these arguments in a terminal of so many columns and lines."""

    def __init__(
        self,
        *arguments: str,
        folder: Path,
        columns: int = 80,
        lines: int = 24,
        env: Mapping[str, str] | None = None,
    ) -> None:
        import pexpect  # type: ignore[import-untyped]
        import pyte

        whole = {
            key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "COLUMNS", "LINES")
        }
        whole |= {
            "MOVETELLER_HOME": str(folder / "home"),
            "PYTHONPATH": str(ROOT),
            "PYTHONIOENCODING": "utf-8",
            "TERM": "xterm-256color",
            **(env or {}),
        }
        self._screen = pyte.Screen(columns, lines)
        self._stream = pyte.ByteStream(self._screen)
        self.raw = b""
        self._run: Any = pexpect.spawn(
            sys.executable,
            ["-m", "player.cli", *arguments],
            env=whole,
            cwd=str(folder),
            timeout=PATIENCE_S,
            dimensions=(lines, columns),
        )

    @property
    def display(self) -> list[str]:
        """The lines of the terminal as they stand, without blanks at their ends."""
        return [line.rstrip() for line in self._screen.display]

    @property
    def text(self) -> str:
        """The words beside and below the board in one line, since they may be broken anywhere."""
        room = divide(self._screen.columns, self._screen.lines)
        left = room.size.width + OUTSIDE_X + 1 if room.size is not None and room.shape != "tall" else 0
        return " ".join(" ".join(line[left:] for line in self.display).split())

    @property
    def state(self) -> str:
        """The line that says what goes on."""
        return self.display[-2] if len(self.display) > 1 else ""

    @property
    def afterwards(self) -> str:
        """What was written below the shell's own words, once the screen had been left."""
        return self.raw.rpartition(LEFT)[2].decode() if LEFT in self.raw else ""

    @property
    def pid(self) -> int:
        return int(self._run.pid)

    def until(self, true: Callable[[Terminal], bool], what: str = "") -> None:
        """Read until this is true of the screen; fails with the screen where it does not come to be."""
        end = time.monotonic() + PATIENCE_S
        while not true(self):
            assert time.monotonic() < end, "\n".join(["never came:", what, *self.display])
            assert self._read() or true(self), "\n".join(["ended before:", what, *self.display])

    def sees(self, *words: str) -> None:
        """Wait until all these words stand on the screen at once."""
        self.until(lambda one: all(part in one.text for part in words), " + ".join(words))

    def stands(self, words: str) -> None:
        """Wait until the line that says what goes on begins so."""
        self.until(lambda one: one.state.strip().startswith(words), f"state: {words}")

    def types(self, words: str) -> None:
        """Type this and press Enter."""
        self.presses(f"{words}\r")

    def presses(self, keys: str) -> None:
        """Send these characters as a keyboard does."""
        self._run.send(keys.encode())

    def resizes(self, columns: int, lines: int) -> None:
        """The window takes another size."""
        self._screen.resize(lines, columns)
        self._run.setwinsize(lines, columns)

    def kills(self, with_: int = signal.SIGKILL) -> None:
        """End the process by a signal, at once."""
        self._run.kill(with_)
        self.ends()

    def ends(self) -> int | None:
        """Wait for the end: the exit code, None where a signal ended it."""
        end = time.monotonic() + PATIENCE_S
        while self._read():
            assert time.monotonic() < end, "\n".join(["never ended", *self.display])
        self._run.close()
        code: int | None = self._run.exitstatus
        return code

    def close(self) -> None:
        self._run.close(force=True)

    def _read(self) -> bool:
        """Take what the program wrote within a moment; False at its end."""
        import pexpect

        try:
            more = self._run.read_nonblocking(65536, timeout=0.05)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            return False
        self.raw += more
        self._stream.feed(more)
        return True
