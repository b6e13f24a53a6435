"""Ideas that questions point to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from player.check.where import within
from player.script.boards import mark_key
from player.script.faults import Fault, lines_of
from player.script.model import Spot
from player.script.told import Told, ToldIdea, ToldQuestion


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
