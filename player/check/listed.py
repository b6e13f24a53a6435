"""A number of good replies, said in prose, held against the replies that the script itself tells there."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import chess

from player.check.orders import Count, Step
from player.check.where import within
from player.facts.place import Place
from player.script.answers import NUMBERS
from player.script.faults import Fault
from player.script.model import Spot
from player.script.told import Text, Told, ToldBeat, ToldBlock, ToldLesson, ToldQuestion, Turn

_SAID = re.compile(
    r"\b(?P<who>White|Black)(?: now| here| then)?(?: really| still| only)? ha(?:s|d)"
    r"(?: only| just| at least| about| here| now)? (?P<number>\d{1,2}|[a-z]+) "
    r"(?:(?:reasonable|sensible|good|sound|decent|serious|playable|main|natural|healthy|fair|honest|real|"
    r"proper|respectable)(?:,? (?:and )?)?)+ "
    r"?(?:replies|reply|answers?|moves?|tries|ways|choices?|options?|defen[cs]es?|roads?|doors?)\b"
)


def counts_in(source: str, told: ToldLesson) -> tuple[Count, ...]:
    """Every such number, with the position that it is said of."""
    return tuple(_counts(source, told.body)) if told.header.language == "en" else ()


def listed_doubts(counts: Sequence[Count], steps: Sequence[Step]) -> Iterator[Fault]:
    """A query for each number that is not the number of moves told or answered at that place."""
    for count in counts:
        moves = list(dict.fromkeys(step.san for step in steps if step.at == count.at))
        if len(moves) != count.number:
            who = "White" if " w " in count.at else "Black"
            listed = f"{len(moves)} ({', '.join(moves)})" if moves else "none"
            message = (
                f"The words give {who} {count.number} such moves here; the script tells "
                f"{listed} from this position."
            )
            yield Fault(count.line, count.column, count.width, "query", "replies-not-listed", message)


def _counts(source: str, body: Sequence[Told]) -> Iterator[Count]:
    for one in body:
        if isinstance(one, ToldBlock) and one.kind in ("aside", "instead"):
            yield from _of_text(source, one.title, one.inner, one.spot)
            yield from _counts(source, one.body)
        elif isinstance(one, ToldBeat):
            yield from _of_text(source, one.text, one.before, one.spot)
        elif isinstance(one, ToldQuestion):
            yield from _of_text(source, one.text, one.place, one.spot)


def _of_text(source: str, text: Text, place: Place, spot: Spot) -> Iterator[Count]:
    for found in _SAID.finditer(text.shown):
        word = found["number"]
        number = NUMBERS.get(word, word)
        if not number.isdigit():
            continue
        here = place
        for deed in text.deeds:
            if isinstance(deed.do, Turn) and deed.at <= found.start():
                here = deed.do.after
        if not here.playable or (here.board().turn == chess.WHITE) != (found["who"] == "White"):
            continue
        reach = 1 + text.shown.count("\n") + 20
        at = within(source, spot, found.group(), reach)
        yield Count(" ".join(here.fen.split()[:4]), int(number), at.line, at.column, at.width)
