"""The words of a language that say something about a move which can be checked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

import chess

from player.wording.languages import language as language_of

_MATE = re.compile(r"(?:check)?mat(?:e|es|ing)", re.IGNORECASE)
_IDIOMS = {"fr": (r"\b(?:à|au|son|mon|ton|un|le|ce|leur|notre|votre) tour\b",)}
"""Phrases in which the name of a man names no man."""

_ORDINARY = frozenset({"come", "como", "por", "mange"})
"""Words for a capture that mean other things as well."""

_MEN = {name: kind for kind, name in enumerate(chess.PIECE_NAMES) if name}
_MAN = re.compile(
    rf"\b(?:(?P<color>white|black)(?:'?s)? )?(?:(?P<file>[a-h])-)?(?P<man>{'|'.join(_MEN)})s?\b"
    r"(?!'s? (?:side|wing|flank|pawn|knight|bishop|rook|own|square|file|place|head|road))(?!s' )",
    re.IGNORECASE,
)
_NEGATED = re.compile(
    r"\b(?:no|not|never|without|instead of|rather than|nor|cannot|avoid\w*|stop\w*|prevent\w*|before|"
    r"if|would|could|threat\w*|next|plan\w*|ready|prepar\w*|want\w*|hop(?:e|es|ed|ing)|about|allow\w*|against|to(?!"
    r" (?:[a-h][1-8]|the|a|an|its|his|her|our|one)\b))\b|n't\b",
    re.IGNORECASE,
)
_WITH = re.compile(r"\bwith (?:a )?$", re.IGNORECASE)
_NOT_WITH = re.compile(
    r"\b(?:no|not|never|instead|rather|nor|cannot|if|would|could|threat\w*|next|plan\w*)\b|n't\b",
    re.IGNORECASE,
)
_CAPTURE = re.compile(
    r"\b(?:(?:re)?captur(?:es?|ed|ing)|takes? back|taking back|"
    r"(?:takes?|taking|took|snaps?|grabs?|wins?) (?:off )?(?:on [a-h][1-8]|[a-h][1-8]|"
    r"(?:the|a|that|this|his|her|its|white's|black's) (?:[a-h]-)?(?:pawn|knight|bishop|rook|queen))|"
    r"(?:trad(?:es?|ing)|exchang(?:es?|ing)) (?:off )?(?:the )?(?:pawns|knights|bishops|rooks|queens|pieces)|"
    r"(?:takes?|taking|took) (?:something|somebody|a man|a piece|(?:him|her)(?=$|[.,;!]))|"
    r"takes?(?=$|[.,;!])|en passant)\b",
    re.IGNORECASE,
)
_CHECK = re.compile(
    r"\b(?:checks?|checking|checkmates?|mates?|mating)\b(?! (?:that|whether|if|out|up)\b)", re.IGNORECASE
)
_WING = re.compile(r"\b(?P<wing>king|queen)(?:'s )?-?\s?(?:side|wing|flank)\b", re.IGNORECASE)
_SIDE = re.compile(
    r"^(?:(?:and|now|then|so|here|but|at once|again)\s+)*(?P<color>White|Black)(?:'s (?!turn)| [a-z])"
)


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Patterns for the words of one language. `kinds` are its names of men, `letters` its letters for them.

    `capture`, `wing` and `side` are None for languages in which ordinary words would be taken for them;
    `idle` are phrases to look away from. `words` are the language's own words for castling, its wings, a
    capture and the two colours, by name; empty for English, which has patterns of its own.
    """

    man: re.Pattern[str]
    kinds: Mapping[str, chess.PieceType]
    letters: Mapping[str, chess.PieceType]
    check: re.Pattern[str]
    mate: re.Pattern[str]
    denied: re.Pattern[str]
    capture: re.Pattern[str] | None = None
    wing: re.Pattern[str] | None = None
    side: re.Pattern[str] | None = None
    idle: re.Pattern[str] | None = None
    words: Mapping[str, re.Pattern[str]] = field(default_factory=dict)

    def is_denied(self, words: str, found: re.Match[str]) -> bool:
        """Whether the clause before takes it back: "without check"."""
        clause = re.split(r"[,;:.!?]", words[: found.start()])[-1]
        if _WITH.search(clause) and not _NOT_WITH.search(clause):
            return False
        return bool(self.denied.search(clause))


@lru_cache(maxsize=32)
def vocabulary(code: str) -> Vocabulary:
    """The vocabulary of a language; ValueError for a language there are no words for."""
    words = language_of(code)
    letters = {letter: kind for kind, letter in words.letters.items() if kind != chess.PAWN}
    if code == "en":
        return Vocabulary(
            man=_MAN,
            kinds=_MEN,
            letters=letters,
            check=_CHECK,
            mate=_MATE,
            denied=_NEGATED,
            capture=_CAPTURE,
            wing=_WING,
            side=_SIDE,
        )
    kinds = {word: kind for name, kind in _MEN.items() for word in words.groups[name] if len(word) > 2}
    checks = [word for group in ("check", "mate") for word in words.groups[group]]
    wings = [word for group in ("kingside", "queenside") for word in words.groups[group] if " " in word]
    denied = [*words.groups["not"], *words.groups["ask"], *words.groups["ask_first"]]
    return Vocabulary(
        man=_any_of(kinds),
        kinds=kinds,
        letters=letters,
        check=_any_of(checks),
        mate=_any_of(words.groups["mate"]),
        denied=_any_of(denied),
        words={
            name: _any_of(word for word in words.groups[name] if len(word) > 2 and word not in _ORDINARY)
            for name in ("castle", "kingside", "queenside", "take", "white", "black")
        },
        idle=re.compile("|".join([*map(re.escape, wings), *_IDIOMS.get(code, ())]) or "(?!)", re.IGNORECASE),
    )


def _any_of(words: Iterable[str]) -> re.Pattern[str]:
    """Any of these words or phrases, the longest that fits."""
    listed = sorted(map(re.escape, words), key=len, reverse=True)
    return re.compile(rf"\b(?P<man>{'|'.join(listed) or '(?!)'})(?!\w)", re.IGNORECASE)
