"""Squares and lines named in words: "f3", "e four", "the e-file", "rank 4", "g2-b7", "the long diagonal"."""

from __future__ import annotations

import chess

from player.wording.grammar import runs
from player.wording.languages import Language
from player.wording.tokens import plain, slots

_DIAGONALS = {"light": (chess.H1, chess.A8), "dark": (chess.A1, chess.H8)}


def squares_in(text: str, words: Language) -> list[chess.Square]:
    """The squares that a text names, in order."""
    for run in runs(slots(plain(text), words)):
        found = [token.value for token in run if token.kind == "S" and token.value >= 0]
        if found:
            return found
    return []


def square_in(text: str, words: Language) -> chess.Square | None:
    """The one square that a text names, or None."""
    found = squares_in(text, words)
    return found[0] if len(found) == 1 else None


def line_in(text: str, words: Language) -> list[chess.Square] | None:
    """The squares of the line that a text names, from its first end to its last, or None."""
    named = squares_in(text, words)
    if len(named) == 2:
        first, last = named
        between = sorted(
            chess.SquareSet(chess.between(first, last)), key=lambda s: chess.square_distance(first, s)
        )
        return [first, *between, last] if chess.ray(first, last) else None
    lower = text.casefold()
    if not named and "diagonal" in lower:
        colour = next((colour for colour in _DIAGONALS if colour in lower), None)
        if colour is None:
            return None
        first, last = _DIAGONALS[colour]
        between = sorted(
            chess.SquareSet(chess.between(first, last)), key=lambda s: chess.square_distance(first, s)
        )
        return [first, *between, last]
    if named:
        return None
    for run in runs(slots(plain(text), words)):
        tokens = [token for token in run if token.kind in "FR"]
        if len(tokens) == 1 and tokens[0].kind == "F":
            return [chess.square(tokens[0].value, rank) for rank in range(8)]
        if len(tokens) == 1 and 0 <= tokens[0].value <= 7:
            return [chess.square(file, tokens[0].value) for file in range(8)]
    return None
