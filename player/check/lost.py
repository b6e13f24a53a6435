"""Where a script cannot be followed: after a lost move nobody knows the board, so it is no measure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from player.script.faults import Fault

_LOST = frozenset(
    ["illegal-move", "not-a-move", "ambiguous-move", "two-moves", "impossible-board", "bad-board"]
)
_BOARD = re.compile(r"\s*(?:\[[\d:.]+\] *)?board:")


def lost_from(lines: Sequence[str], found: Iterable[Fault]) -> dict[int, int]:
    """For each line, from 1, on which the board is not known: from which column on.

    That is from the brace on in which a move is lost, for the moves before it in there are not played either.
    A move lost in a block is lost until the block ends, and in any case until the next `board:` line.
    """
    lost: dict[int, int] = {}
    for fault in found:
        if fault.severity != "fault" or fault.code not in _LOST or not 0 < fault.line <= len(lines):
            continue
        start = _brace(lines[fault.line - 1], fault.column)
        lost[fault.line] = min(start, lost.get(fault.line, start))
        depth = _depth(lines[fault.line - 1])
        for number in range(fault.line + 1, len(lines) + 1):
            line = lines[number - 1]
            if line.strip() and (_depth(line) < depth or _BOARD.match(line)):
                break
            lost[number] = 1
    return lost


def _brace(line: str, column: int) -> int:
    """The column, from 1, of the brace that is open at this one; the column itself where none is."""
    opened = line.rfind("{", 0, column)
    return opened + 1 if opened >= 0 and line.find("}", opened, column - 1) < 0 else column


def _depth(line: str) -> int:
    return len(line) - len(line.lstrip())
