"""Checking as the command does it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from player.check.looked import look
from player.check.series import check_all
from player.check.waving import waved
from player.facts.budgets import BUDGET
from player.script.faults import Fault


def faults_in(path: Path) -> tuple[Fault, ...]:
    """All that is found in the script at this path, in file order, with `fine:` obeyed."""
    (one,) = check_all([path])
    assert not one.trouble, one.trouble
    return one.faults


def faults_of(source: str, known_ideas: Sequence[str] = ()) -> tuple[Fault, ...]:
    """The same for a text, with the ideas told earlier in its series."""
    found = look(source, known_ideas, BUDGET, None)
    return waved(source, found.waves, found.faults)
