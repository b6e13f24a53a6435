"""Queries waved off by `fine:`, once it is known what each of these lines speaks about."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from player.check.where import folded
from player.script.faults import Fault, lines_of


@dataclass(frozen=True, slots=True)
class Wave:
    """A `fine:` line: its words and their place, and the first line of the beat above it."""

    words: str
    line: int
    column: int
    width: int
    own_line: int
    first: int


def waved(source: str, waves: Sequence[Wave], found: Iterable[Fault]) -> tuple[Fault, ...]:
    """What is left, in file order and each once, with a query for each `fine:` that waves off nothing."""
    lines = lines_of(source)
    left = list(found)
    for wave in waves:
        gone = [
            query
            for query in left
            if query.severity == "query"
            and wave.first <= query.line < wave.own_line
            and query.code != "fine-without-doubt"
            and _is_about(query, lines, folded(wave.words))
        ]
        left = [query for query in left if query not in gone]
        if not gone:
            message = "Nothing in the beat above was doubted about these words. This line can go."
            left.append(Fault(wave.line, wave.column, wave.width, "query", "fine-without-doubt", message))
    return tuple(sorted(dict.fromkeys(left), key=lambda fault: (fault.line, fault.column)))


def _is_about(query: Fault, lines: Sequence[str], meant: str) -> bool:
    """Whether a query is about these words: they are what it points at, a part of that, or hold it."""
    line = lines[query.line - 1] if query.line <= len(lines) else ""
    words = f" {folded(line[query.column - 1 : query.column - 1 + query.width])} "
    return bool(meant) and bool(words.strip()) and (f" {meant} " in words or words in f" {meant} ")
