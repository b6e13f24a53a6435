"""The one world that a run is given: nothing else reaches for streams, folders or the clock."""

from __future__ import annotations

import contextlib
import io
import os
import shutil
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TextIO

from player.world.clock import Clock, RealClock
from player.world.folders import Folders, folders_for


@dataclass(frozen=True)
class World:
    """Everything outside the program that it may touch.

    `now` tells the date and time of day with its time zone, `terminal_size` the columns and lines at the
    moment (a window may be resized), `platform` is as `sys.platform` has it, `here` the folder that relative
    paths start from.
    """

    stdin: TextIO
    stdout: TextIO
    stderr: TextIO
    env: Mapping[str, str]
    folders: Folders
    clock: Clock
    now: Callable[[], datetime]
    stdin_is_terminal: bool
    stdout_is_terminal: bool
    terminal_size: Callable[[], os.terminal_size]
    platform: str
    here: Path

    @property
    def terminal_is_plain(self) -> bool:
        """Whether the terminal, if there is one, can do no more than print one line after another."""
        return self.env.get("TERM", "") == "dumb"

    @property
    def colour_wanted(self) -> bool:
        """Whether to colour output: not off a terminal, nor where NO_COLOR is not empty (no-color.org)."""
        return self.stdout_is_terminal and not self.terminal_is_plain and not self.env.get("NO_COLOR")

    def can_show(self, text: str) -> bool:
        """Whether the encoding of the output has all the characters of the text."""
        try:
            text.encode(self.stdout.encoding or "ascii")
        except (UnicodeEncodeError, LookupError):
            return False
        return True


def real_world() -> World:
    """The world that this process is in. Raises Trouble where there is no home folder.

    Streams that are closed become empty ones, and a character that a stream cannot write becomes a question
    mark, never an error.
    """
    stdin = sys.stdin or io.StringIO()
    stdout = sys.stdout or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    stderr = sys.stderr or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    for stream in (stdin, stdout, stderr):
        if isinstance(stream, io.TextIOWrapper):
            with contextlib.suppress(ValueError, OSError):
                stream.reconfigure(errors="replace")
    return World(
        stdin=stdin,
        stdout=stdout,
        stderr=stderr,
        env=os.environ,
        folders=folders_for(os.environ),
        clock=RealClock(),
        now=lambda: datetime.now().astimezone(),
        stdin_is_terminal=_is_terminal(stdin),
        stdout_is_terminal=_is_terminal(stdout),
        terminal_size=shutil.get_terminal_size,
        platform=sys.platform,
        here=Path.cwd(),
    )


def _is_terminal(stream: TextIO) -> bool:
    with contextlib.suppress(ValueError):  # a closed stream is none
        return stream.isatty()
    return False
