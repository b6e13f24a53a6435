"""Ideas that questions point to, and those that earlier scripts of a series have told."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from player.check.where import within
from player.script.boards import mark_key
from player.script.faults import Fault, lines_of
from player.script.model import Spot
from player.script.told import Told, ToldIdea, ToldQuestion
from player.world.files import read_text_forgiving
from player.world.trouble import Trouble

_IDEA = re.compile(r"^[ \t]*(?:\[[\d:.]+\][ \t]*)?idea[ \t]+([^:\n]+):", re.MULTILINE)
_SERIES = re.compile(r"^series:[ \t]*(.+?),[ \t]*(\d+)[ \t]+of[ \t]+\d+[ \t]*$", re.MULTILINE)


def unknown_ideas(source: str, elements: Iterable[Told], known_ideas: Iterable[str]) -> Iterator[Fault]:
    """A query for each `about:` that points to an idea nobody tells; one told later has its query already."""
    told = list(elements)
    known = {mark_key(one.name) for one in told if isinstance(one, ToldIdea)}
    known |= {mark_key(name) for name in known_ideas}
    lines = lines_of(source)
    for one in told:
        if not isinstance(one, ToldQuestion):
            continue
        for name in one.about:
            if mark_key(name) not in known:
                spot = _about_line(source, lines, one.spot, name)
                message = f"No idea named '{name}' has been told up to here, in this lesson or before it."
                fix = f"idea {name}: What it is, in a sentence."
                yield Fault(spot.line, spot.column, spot.width, "query", "about-unknown", message, fix)


def _about_line(source: str, lines: list[str], question: Spot, name: str) -> Spot:
    for number in range(question.line, min(question.line + 40, len(lines) + 1)):
        text = lines[number - 1]
        if text.lstrip().startswith("about:"):
            return within(source, Spot(number, text.index("about:") + 1, 6), name)
    return question


def ideas_in(source: str) -> list[str]:
    """The names of the ideas that a script tells."""
    return [" ".join(found[1].split()) for found in _IDEA.finditer(source)]


def ideas_before(path: Path) -> list[str]:
    """The ideas told by earlier scripts of the same series in the script's folder; none without a series."""
    own = _series(path)
    if own is None:
        return []
    out: list[str] = []
    for other in sorted(path.parent.glob(f"*{path.suffix}")):
        place = _series(other)
        if place is not None and place[0] == own[0] and place[1] < own[1]:
            out += ideas_in(read_text_forgiving(other))
    return out


def _series(path: Path) -> tuple[str, int] | None:
    """Name and number in the series; None where there is none or the file cannot be read."""
    try:
        found = _SERIES.search(read_text_forgiving(path))
    except (OSError, Trouble):
        return None
    return None if found is None else (mark_key(found[1]), int(found[2]))
