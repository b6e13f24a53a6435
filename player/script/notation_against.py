"""Notation in a brace against its moves: check marks and move numbers that are not so."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import chess

from player.script.found import Found
from player.script.model import Spot
from player.script.told import Turn
from player.script.vocabulary import vocabulary
from player.wording.san import lettered

_TOKEN = re.compile(r"(?:(?P<number>\d{1,4})\s*\.+\s*)?(?P<move>\S+)")
_NOT_A_MOVE = re.compile(r"\d+\.*|\.+|e\.?p\.?|and|then|[,;]|1-0|0-1|1/2-1/2|\(=\)", re.IGNORECASE)
_MARKS = re.compile(r"[+#]+(?=[!?]*$)")


@dataclass(frozen=True, slots=True)
class WrittenMove:
    """A move as written in a brace, where it begins there, and its number if it has one."""

    text: str
    at: int
    number: int | None


@lru_cache(maxsize=256)
def written_moves(deed: str) -> tuple[WrittenMove, ...]:
    """The words of a deed, without move numbers and "e.p."; in notation they are its moves."""
    return tuple(
        WrittenMove(found["move"], found.start("move"), int(found["number"]) if found["number"] else None)
        for found in _TOKEN.finditer(deed)
        if not _NOT_A_MOVE.fullmatch(found["move"])
    )


def notation_against(deed: str, turns: Sequence[Turn], spot: Spot, found: Found, language: str) -> None:
    """A told check or mate that is none is a fault, another move number than the game's a query."""
    written = written_moves(deed)
    if len(written) != len(turns):
        return
    for move, turn in zip(written, turns, strict=True):
        san = lettered(turn.san, language)
        marks = _MARKS.search(move.text)
        wrong = ""
        if marks and turn.san[-1] not in "+#":
            wrong = f"{san} does not give check."
        elif marks and marks[0] == "#" and turn.san[-1] == "+":
            wrong = f"{san} is not mate."
        if wrong:
            found.fault(found.where(move.text, spot), "no-check", wrong, f"{{{san}}}")
        number = len(turn.before.moves) // 2 + 1
        if move.number not in (None, number) and turn.before.root == chess.STARTING_FEN:
            found.query(
                found.where(f"{move.number}.", spot),
                "wrong-number",
                f"This is move {number} of the game, not {move.number}.",
                f"{{{number}.{'..' if len(turn.before.moves) % 2 else ''}{san}}}",
            )
            return


def checks_against(deed: str, turn: Turn, spot: Spot, found: Found, language: str) -> None:
    """A fault where the words that are the move name a check or a mate that it does not give."""
    said = vocabulary(language)
    if said.denied.search(deed):
        return
    for pattern, marks, wrong in ((said.mate, "#", "is not mate"), (said.check, "+#", "does not give check")):
        named = pattern.search(deed)
        san = lettered(turn.san, language)
        if named and turn.san[-1] not in marks:
            found.fault(found.where(named[0], spot), "no-check", f"{san} {wrong}.", f"{{{san}}}")
            return
