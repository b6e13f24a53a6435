"""A handful of doubts at a time: the most doubtful ones about prose first, the others only counted."""

from __future__ import annotations

from collections.abc import Sequence

from player.script.faults import Fault

HANDFUL = 5
_ORDER = (
    "prose-answer",
    "prose-man",
    "prose-check",
    "prose-mate",
    "prose-capture",
    "prose-claim",
    "game-result",
    "prose-result",
    "game-line",
    "prose-wing",
    "prose-turn",
    "prose-side",
    "prose-year",
    "prose-reply",
    "prose-count",
    "prose-name",
    "prose-hit",
    "prose-formed",
    "prose-nudge",
    "prose-square",
    "prose-kin",
    "prose-unproved",
)
"""Codes of the doubts about prose, the surest first."""


def handful(faults: Sequence[Fault], limit: int = HANDFUL) -> tuple[tuple[Fault, ...], int]:
    """The faults and queries to show at a time, in file order, and how many doubts about prose are kept back.

    Only doubts about prose are ever kept back: of them the `limit` surest are shown.
    """
    doubts = sorted(
        (fault for fault in faults if is_doubt(fault)),
        key=lambda fault: (_ORDER.index(fault.code), fault.line),
    )
    back = set(doubts[limit:])
    return tuple(fault for fault in faults if fault not in back), len(back)


def is_doubt(fault: Fault) -> bool:
    """Whether a query is a doubt about prose."""
    return fault.code in _ORDER


def kept_back(number: int) -> str:
    """What is said of doubts that are not shown, in a sentence."""
    doubts = "doubt" if number == 1 else "doubts"
    return (
        f"{number} more {doubts} about prose. Mend these first, or wave them off with fine:; --json has them"
        " all."
    )
