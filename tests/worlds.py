"""A world made up for a test: streams in memory, folders inside a scratch folder, a clock moved by hand."""

from __future__ import annotations

import io
import os
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

from player.world.clock import Clock, VirtualClock
from player.world.folders import OWN_HOME, folders_for
from player.world.world import World


def scratch_world(
    folder: Path,
    typed: str = "",
    *,
    env: Mapping[str, str] | None = None,
    clock: Clock | None = None,
    now: datetime = datetime(2026, 3, 1, 19, 30, tzinfo=UTC),
    terminal: bool = False,
    columns: int = 80,
    lines: int = 24,
    encoding: str = "utf-8",
    platform: str = "linux",
) -> World:
    """A world whose four folders lie in `folder`; `typed` is all that stands on its input.

    What was printed is read with `printed`. `terminal` says whether input and output are one.
    """
    whole_env = {OWN_HOME: str(folder / "home"), **(env or {})}
    return World(
        stdin=io.StringIO(typed),
        stdout=io.TextIOWrapper(io.BytesIO(), encoding=encoding, errors="replace", newline="\n"),
        stderr=io.TextIOWrapper(io.BytesIO(), encoding=encoding, errors="replace", newline="\n"),
        env=whole_env,
        folders=folders_for(whole_env),
        clock=clock or VirtualClock(),
        now=lambda: now,
        stdin_is_terminal=terminal,
        stdout_is_terminal=terminal,
        terminal_size=lambda: os.terminal_size((columns, lines)),
        platform=platform,
        here=folder,
    )


def printed(world: World, *, errors: bool = False) -> str:
    """All that a world of `scratch_world` was given to print so far, on its output or among its errors."""
    stream = world.stderr if errors else world.stdout
    assert isinstance(stream, io.TextIOWrapper)
    stream.flush()
    buffer = stream.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue().decode(stream.encoding)
