"""`fine: WORDS` waves off a query about those words of the beat above."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from player.check.where import folded, within
from player.script.faults import Fault, lines_of
from player.script.told import Told, ToldBeat, ToldBoard, ToldFine, ToldIdea, ToldPart, ToldQuestion

_BEATS = (ToldBeat, ToldPart, ToldIdea, ToldQuestion, ToldBoard)


def waved_off(source: str, elements: Sequence[Told], found: Iterable[Fault]) -> tuple[Fault, ...]:
    """What is left of the faults and queries, with a query for each `fine:` that waves off nothing."""
    lines = lines_of(source)
    left = list(found)
    for number, one in enumerate(elements):
        if not isinstance(one, ToldFine):
            continue
        first = _beat_above(elements[:number])
        gone = [
            query
            for query in left
            if query.severity == "query"
            and first <= query.line < one.spot.line
            and query.code != "fine-without-doubt"
            and _is_about(query, lines, folded(one.words))
        ]
        left = [query for query in left if query not in gone]
        if not gone:
            spot = within(source, one.spot, one.words)
            message = "Nothing in the beat above was doubted about these words. This line can go."
            left.append(Fault(spot.line, spot.column, spot.width, "query", "fine-without-doubt", message))
    return tuple(left)


def _beat_above(above: Sequence[Told]) -> int:
    """The line in which the beat above begins, with the cues that belong to it."""
    for one in reversed(above):
        if isinstance(one, _BEATS):
            return one.spot.line
    return 1


def _is_about(query: Fault, lines: Sequence[str], meant: str) -> bool:
    """Whether a query is about these words: they are what it points at, a part of that, or hold it."""
    line = lines[query.line - 1] if query.line <= len(lines) else ""
    words = f" {folded(line[query.column - 1 : query.column - 1 + query.width])} "
    return bool(meant) and bool(words.strip()) and (f" {meant} " in words or words in f" {meant} ")
