"""Faults of meaning, on top of what reading and following find: claims, what is waved off, words to guess."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from player.script.faults import Fault, lines_of
from player.script.follow import follow
from player.script.model import Header, Spot
from player.script.read import read
from player.script.told import Told, ToldBlock, ToldClaim, ToldFine, ToldLesson
from player.wording.lexicon import unsure
from player.world.files import read_text_forgiving


def check_lesson(path: Path) -> tuple[Fault, ...]:
    """All faults and queries of a script, in file order. Raises OSError, or Trouble where it is no text."""
    source = read_text_forgiving(path)
    lesson, faults = read(source)
    told, more = follow(lesson)
    return check_text(source, told, (*faults, *more))


def check_text(source: str, told: ToldLesson, found: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """What was found in a script's text, with claims judged, `fine:` obeyed and guessed words named."""
    elements = list(flat(told.body))
    claims = tuple(unproved(one) for one in elements if isinstance(one, ToldClaim))
    left = waved_off(source, elements, (*found, *claims))
    return tuple(sorted((*left, *guessed(source, told.header)), key=lambda fault: (fault.line, fault.column)))


def flat(body: tuple[Told, ...]) -> Iterator[Told]:
    """Every element in file order, blocks opened up."""
    for one in body:
        yield one
        if isinstance(one, ToldBlock):
            yield from flat(one.body)


def unproved(claim: ToldClaim) -> Fault:
    """A claim that nothing has proved is a query, never a pass."""
    spot = claim.spot
    message = f"Nothing here has proved that {claim.words.strip().rstrip('.')}. It rests on the coach's word."
    return at(spot, "claim-unproved", message)


def waved_off(source: str, elements: list[Told], found: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """The queries that no `fine:` waves off, and one for each `fine:` that waves off nothing."""
    lines = lines_of(source)
    left = list(found)
    for index, one in enumerate(elements):
        if not isinstance(one, ToldFine):
            continue
        above = [other.spot.line for other in elements[:index] if not isinstance(other, ToldFine)]
        first = above[-1] if above else 1
        meant = folded(one.words)
        gone = [
            query
            for query in left
            if query.severity == "query"
            and first <= query.line < one.spot.line
            and about(query, lines, meant)
        ]
        if gone:
            left = [query for query in left if query not in gone]
        else:
            message = f"Nothing in the beat above was doubted about '{one.words}'. This line can go."
            left.append(at(one.spot, "fine-without-doubt", message))
    return tuple(left)


def about(query: Fault, lines: list[str], meant: str) -> bool:
    """Whether a query is about these words of the script."""
    line = lines[query.line - 1] if query.line <= len(lines) else ""
    words = folded(line[query.column - 1 : query.column - 1 + query.width])
    return bool(words) and (words in meant or meant in words)


def guessed(source: str, header: Header) -> Iterator[Fault]:
    """One query for each word that a voice would have to guess, where it first stands."""
    lines = lines_of(source)
    lines = [blank(line) for line in lines]
    spoken = "\n".join(lines)
    for word in unsure(spoken, header.pronounce, language=header.language):
        for number, line in enumerate(lines, 1):
            if word in line:
                spot = Spot(number, line.index(word) + 1, len(word))
                message = f"A voice has to guess how to say '{word}'."
                yield at(spot, "word-guessed", message, f"pronounce {word}: SAY-it-so")
                break


def blank(line: str) -> str:
    """A line with what is not spoken prose, notation and comments, blanked out in place."""
    if line.lstrip().startswith(("#", "pronounce ")):
        return ""
    return re.sub(r"\S*\d\S*", lambda found: " " * len(found.group()), line)


def at(spot: Spot, code: str, message: str, fix: str = "") -> Fault:
    return Fault(spot.line, spot.column, spot.width, "query", code, message, fix)


def folded(text: str) -> str:
    return " ".join(text.casefold().split()).strip(" .,;:!?{}")
