"""Squares that words may name without a man there now: in what is only supposed, and on a journey told."""

from __future__ import annotations

import re
from collections.abc import Iterable

import chess

from player.check.prose.geometry import view
from player.check.prose.standing import can_reach
from player.check.prose.words import KIND, KINDS, SQUARE, sentence

_SQUARE = re.compile(rf"(?<![\w{{=-]){SQUARE}\b(?!-)")
_TRIP = re.compile(r"\b(?:trip|tour|route|journey|walk|by way of|travels?)\b", re.IGNORECASE)
_GRANTS = re.compile(
    r"\b(?:[Ii]f|[Uu]nless|[Ww]ould|[Cc]ould|[Mm]ight|[Ss]hould|[Ss]uppose|[Ii]magine|[Pp]icture|[Ww]ithout|[Ww]ere|"
    r"[Ee]ven with|Had)\b|'d\b|\b(?:Put|Place|Set|Give|Stand)\b"
)


def granted(text: str, found: re.Match[str], here: Iterable[chess.Board]) -> bool:
    """Whether the sentence only supposes something, and the square is one that men it speaks of might come
    to in two moves over an empty board: a king, those it names, or a pawn where it says no more than "he".
    """
    first, last = sentence(text, *found.span())
    seen = re.search(
        r"\b(?:guard|attack|cover|hit|defend|protect|watch|eye)(?:s|es|ed|ing)? $",
        text[first : found.start()],
    )
    if seen or not _GRANTS.search(text[first:last]):
        return False
    placed = re.search(
        rf"\b(?:an?|Put|Place|Set|Stand)\b[^.,;:]{{0,25}} {KIND} (?:back )?(?:on|at) $",
        text[first : found.start()],
    )
    names = {KINDS[one.lower()] for one in re.findall(rf"\b({KIND})s?\b", text[first:last], re.IGNORECASE)}
    square = chess.parse_square(found[0])
    return bool(placed) or any(
        square in view(kind, man, 2)
        or (kind == chess.PAWN and chess.square_file(man) == chess.square_file(square))
        for board in here
        for kind in {chess.KING, *(names or {chess.PAWN})}
        for color in chess.COLORS
        for man in board.pieces(kind, color)
    )


def on_a_trip(here: list[chess.Board], text: str, at: int) -> bool:
    """Whether the words tell of a trip, and the square at this character is a step of a man they name: from
    the square named before it, or from where the man stands.
    """
    if not _TRIP.search(text):
        return False
    named = [chess.parse_square(one[0]) for one in _SQUARE.finditer(text, 0, at)][-1:]
    this = chess.parse_square(text[at : at + 2])
    for board in here:
        kinds = [kind for kind in chess.PIECE_TYPES if is_named(kind, text)]
        for kind in kinds:
            empty = chess.Board(None)
            for whence in named:
                empty.set_piece_at(whence, chess.Piece(kind, True))
                if this in empty.attacks(whence):
                    return True
            if not named and can_reach(board, this, kind):
                return True
    return False


def is_named(kind: int | None, words: str) -> bool:
    return kind is not None and bool(re.search(rf"\b{chess.piece_name(kind)}s?\b", words, re.IGNORECASE))
