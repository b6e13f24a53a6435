"""The command in a world made up for a test."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from player.cli.main import run
from tests.worlds import printed, scratch_world


@dataclass(frozen=True)
class Ran:
    """How a run ended and what it printed."""

    code: int
    out: str
    err: str


def moveteller(folder: Path, *arguments: str, typed: str = "", **world: Any) -> Ran:
    """Run `moveteller` with these arguments in a folder, whose home lies inside it."""
    made = scratch_world(folder, typed, **world)
    code = run(arguments, made)
    return Ran(code, printed(made), printed(made, errors=True))
