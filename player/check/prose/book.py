"""What a lesson counts as a whole, and how counting doubts are made."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from player.check.prose.doubt import Doubt
from player.check.prose.words import COUNTS, SQUARE
from player.script.faults import lines_of
from player.script.told import Told, ToldBeat, ToldBlock, ToldLesson, ToldPart, Turn

N = r"(?P<number>no|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen)"
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
PART = re.compile(
    rf"^(?:The )?(?P<nth>{'|'.join(ORDINALS)}) (?P<noun>[a-z]+)\b|^(?P<noun2>[A-Z][a-z]+) {N}\b",
    re.IGNORECASE,
)
_LAST_PART = re.compile(r"^The last (?P<noun>[a-z]+)\b")
NOUN = re.compile(rf"\b{N} (?P<noun>[a-z]+s)\b", re.IGNORECASE)


@dataclass(slots=True)
class Book:
    """What a lesson counts as a whole: its titles, its numbered parts, and what its script lines ask for."""

    lines: tuple[str, ...]
    titles: dict[str, int] = field(default_factory=dict)
    parts: dict[str, list[tuple[int, int]]] = field(default_factory=dict)
    last: set[str] = field(default_factory=set)
    retold: dict[int, int] = field(default_factory=dict)
    claims: dict[int, set[str]] = field(default_factory=dict)
    side: str = "white"

    def below(self, line: int, pattern: str, reach: int = 4) -> re.Match[str] | None:
        """The first of the next lines that this pattern matches."""
        for text in self.lines[line : line + reach]:
            found = re.match(pattern, text)
            if found:
                return found
        return None


def book_of(source: str, told: ToldLesson) -> Book:
    """Reads what can be counted of a lesson as a whole."""
    book = Book(tuple(lines_of(source)), side=told.header.side)
    for titled in NOUN.finditer(told.header.title or ""):
        book.titles[titled["noun"].lower()] = COUNTS[titled["number"].lower()]
    for one in told.body:
        if isinstance(one, ToldPart):
            title = one.title.shown
            noun = NOUN.match(title)
            if noun:
                book.titles.setdefault(noun["noun"].lower(), COUNTS[noun["number"].lower()])
            found = PART.match(title)
            last = _LAST_PART.match(title)
            if found:
                name = (found["noun"] or found["noun2"]).lower()
                book.parts.setdefault(name, []).append((one.spot.line, nth_of(found)))
            elif last:
                book.last.add(last["noun"])
        if isinstance(one, ToldBlock) and one.kind == "retell":
            book.retold[one.spot.line] = sum(_turns(inner) for inner in one.body)
    for number, line in enumerate(book.lines, 1):
        if re.match(r"\s*claim:", line):
            book.claims[number] = set(re.findall(rf"\b{SQUARE}\b", line))
    return book


def _turns(one: Told) -> int:
    return sum(isinstance(deed.do, Turn) for deed in one.text.deeds) if isinstance(one, ToldBeat) else 0


def nth_of(found: re.Match[str]) -> int:
    if found["nth"]:
        return ORDINALS.index(found["nth"].lower()) + 1
    return COUNTS[found["number"].lower()]


def counted(found: re.Match[str], group: str = "number") -> int:
    return COUNTS.get((found[group] or "a").lower(), 1)


def count_doubt(found: re.Match[str], message: str) -> Doubt:
    return Doubt(found.start(), found.end(), "prose-count", message)
