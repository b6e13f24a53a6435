"""Prose against its own numbers: five of the four, a square said twice, how often a man has moved."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.book import Book
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.sums import count_of
from player.check.prose.words import KIND, KINDS, SQUARE, supposed
from player.facts.place import Place

_N = r"(?P<number>one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_OTHER = _N.replace("number", "other")
_MANY = r"(?:two|three|four|five|six|seven|eight|nine|ten)"
_OF_THE = re.compile(rf"\b{_N} (?:out of|of the) {_OTHER}\b", re.IGNORECASE)
_MEN = re.compile(rf"\b(?:the same|all|just) {_N} men\b")
_MOVED = re.compile(
    rf"\b(?P<kind>{KIND}) has (?:already |now )?moved (?P<number>once|twice|three times|four times)\b"
    rf"(?: in (?P<moves>{_MANY}) moves\b)?"
)
_MATE_IN = re.compile(rf"\bmate in {_N}\b", re.IGNORECASE)
_TWICE = re.compile(rf"\b{SQUARE}(?:(?:,? and|,? or|,)(?: at| on| from)? {SQUARE})+\b", re.IGNORECASE)
_AGAIN = re.compile(
    r"\b(?:trip|tour|route|journey|walk\w*|back|again|twice|repeat\w*|moves?|dance|then|counting)\b",
    re.IGNORECASE,
)
_TIMES = {"once": 1, "twice": 2, "three times": 3, "four times": 4}


def numeral_doubts(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Doubts about numbers that cannot be so beside the words around them."""
    text = passage.text
    for found in _OF_THE.finditer(text):
        if count_of(found["number"]) > count_of(found["other"]):
            yield _doubt(found, f"There are only {found['other']}.")
    for found in _TWICE.finditer(text):
        names = [one.lower() for one in re.findall(SQUARE, found[0], re.IGNORECASE)]
        told = any(found.start() <= at < found.end() for at, _ in passage.turns)
        pair = len(names) == 2 and "," in found[0]
        again = told or pair or (len(names) > 2 and _AGAIN.search(text))
        if len(set(names)) < len(names) and not again:
            yield Doubt(found.start(), found.end(), "prose-square", "One of these squares is said twice.")
    if passage.role not in ("idea", "part"):
        yield from _counted(passage, boards, book)


def _doubt(found: re.Match[str], message: str, group: str = "number") -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-count", message)


def _counted(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Men left in an ending, moves of one man, and mates that claims near by have in another number."""
    text = passage.text
    for found in _MEN.finditer(text) if passage.role == "told" else ():
        men = [boards.of(place).occupied_co for place in (passage.before, passage.at(len(text)))]
        numbers = {
            chess.popcount(one)
            for white, black in ((m[True], m[False]) for m in men)
            for one in (white, black)
        }
        numbers |= {chess.popcount(one[True] | one[False]) for one in men}
        if max(numbers) <= 8 and count_of(found["number"]) not in numbers:
            yield _doubt(found, f"There are {max(numbers)}.")
    for found in _MOVED.finditer(text):
        places = [passage.at(found.start()), *passage.places()]
        kind, number = KINDS[found["kind"]], _TIMES[found["number"]]
        if supposed(text, *found.span()) or boards.of(Place(passage.before.root)).fullmove_number != 1:
            continue
        if not any(number == times for place in places for times in _times(boards, place, kind)):
            yield _doubt(found, f"No {found['kind']} has moved so often.")
        elif found["moves"]:
            own = {len(place.moves) // 2 for place in places} | {
                (len(place.moves) + 1) // 2 for place in places
            }
            if passage.replied and passage.turns:
                own = {(len(passage.at(found.start()).moves) + 1) // 2}
            if count_of(found["moves"]) not in own:
                yield _doubt(found, f"{max(own)} moves are made.", "moves")
    near = book.lines[passage.spot.line : passage.spot.line + 16]
    claimed = {int(one[1]) for line in near if (one := re.search(r"claim:.*\bmate in (\d)", line))}
    for found in _MATE_IN.finditer(text) if passage.question is not None else ():
        if claimed and count_of(found["number"]) not in claimed:
            yield _doubt(found, f"The claim below says {', '.join(map(str, sorted(claimed)))}.")


def _times(boards: Boards, place: Place, kind: int) -> Iterator[int]:
    """How often each man of a kind that has moved has done so."""
    moved: dict[str, int] = {}
    for uci in place.moves:
        moved[uci[2:4]] = moved.pop(uci[:2], 0) + 1
    for name, times in moved.items():
        if boards.of(place).piece_type_at(chess.parse_square(name)) == kind:
            yield times
