"""Notation taken apart and put into a language's letters."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

import chess

from player.wording.languages import Language, language

_SAN = re.compile(
    r"(?P<man>[NBRQK])?(?P<file>[a-h])?(?P<rank>[1-8])?(?P<take>x)?(?P<square>[a-h][1-8])"
    r"(?:=(?P<promo>[NBRQ]))?(?P<mark>[+#])?"
)
_KINDS = {"N": chess.KNIGHT, "B": chess.BISHOP, "R": chess.ROOK, "Q": chess.QUEEN, "K": chess.KING}


@dataclass(frozen=True, slots=True)
class San:
    """Standard algebraic notation in its parts; `castle` is True for kingside, False for queenside."""

    man: chess.PieceType
    file: str
    rank: str
    takes: bool
    square: str
    promotion: chess.PieceType | None
    mark: str
    castle: bool | None = None


@lru_cache(maxsize=4096)
def parts(san: str) -> San:
    """Take SAN with English letters apart; ValueError where it is none."""
    if san.startswith("O-O"):
        mark = san[-1] if san[-1] in "+#" else ""
        return San(chess.KING, "", "", False, "", None, mark, castle=not san.startswith("O-O-O"))
    found = _SAN.fullmatch(san)
    if not found:
        raise ValueError(f"no notation: {san!r}")
    return San(
        man=_KINDS.get(found["man"] or "", chess.PAWN),
        file=found["file"] or "",
        rank=found["rank"] or "",
        takes=found["take"] is not None,
        square=found["square"],
        promotion=_KINDS.get(found["promo"] or ""),
        mark=found["mark"] or "",
    )


def in_letters(san: str, words: Language) -> str:
    """SAN with the piece letters of a language; castling keeps its letter O."""
    if words.code == "en" or san.startswith("O"):
        return san
    return "".join(words.letters[_KINDS[c]] if c in _KINDS else c for c in san)


def lettered(san: str, code: str) -> str:
    """SAN with the piece letters of the language with this code. ValueError where it has no words."""
    return in_letters(san, language(code))
