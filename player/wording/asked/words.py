"""The words of a question to the board made plain: one word a thing, and a letter for each thing named.

C side   M a man on a square   K a kind of man   S square   F file   V move   N number   L shade
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

import chess
from rapidfuzz.distance import OSA

from player.wording.asked.lexis import ALPHABET, DROPPED, ONE_WORD, PHRASES, SHORT, SIDES, known_words
from player.wording.claim_words import number_of

_PIECES = {name: kind for kind, name in enumerate(chess.PIECE_NAMES) if name}
_PLURALS = {f"{name}s": kind for name, kind in _PIECES.items()} | {"horse": 2, "horses": 2, "castles": 0}
_KINDS = _PIECES | {name: kind for name, kind in _PLURALS.items() if kind}
_SAN = re.compile(
    r"(?:[oO0]-[oO0](?:-[oO0])?|[KQRBNkqrbn]?[a-hA-H]?[1-8]?x?[a-h][1-8](?:=?[QRBNqrbn])?)[+#!?]*"
)
_LINE = re.compile(r"\b([a-h][1-8])\s*[-–—]\s*([a-h][1-8])\b", re.I)
_PRONOUNS = ("he", "his", "him", "she", "her", "they", "their", "them")
_DIGITS = {
    word: str(number)
    for number, word in enumerate(["one", "two", "three", "four", "five", "six", "seven", "eight"], 1)
}


@dataclass(frozen=True, slots=True)
class Man:
    """A man as a question names it: "me" and "you" are sides seen from the one who asks."""

    kind: chess.PieceType | None
    side: str = ""
    square: chess.Square | None = None
    file: int | None = None


Thing = Man | str | int
"""What a letter stands for: a man, a side ("white", "black", "me", "you"), a square, a file, a number."""


@dataclass(frozen=True, slots=True)
class Plain:
    """A question's words with letters for the things named, and the things, in order."""

    text: str
    things: tuple[tuple[str, Thing], ...]


def plain_question(said: str) -> Plain:
    """The words made plain; never raises."""
    text = said.translate(str.maketrans("’‘‐‑‒–—", "''-----")).strip()
    text = _LINE.sub(r"\1 to \2", text)
    tokens = [_token(word) for word in text.split()]
    words = _joined([one for some in tokens for one in some])
    things: list[tuple[str, Thing]] = []
    return Plain(_named(_simple(words), things), tuple(things))


def _token(word: str) -> list[str]:
    """A word in small letters without punctuation; a move keeps its capitals behind a mark."""
    bare = word.strip("\"()[]{}.,;:?!'")
    square = re.fullmatch(r"[a-hA-H][1-8]", bare)
    if _SAN.fullmatch(bare) and not square:
        return [f"={bare}"]
    low = bare.casefold()
    low = re.sub(r"(?<=[a-z])'s$", " s", low)
    return [SHORT.get(one, one) for one in (SHORT.get(low.replace(" s", "'s")) or low).split() if one]


def _joined(words: list[str]) -> list[str]:
    """Squares that were said in two words put together: "e five", "echo 5"."""
    out: list[str] = []
    words = [part for word in words for part in word.split()]
    at = 0
    while at < len(words):
        word = words[at]
        letter = word if re.fullmatch("[a-h]", word) else ALPHABET.get(word, "")
        after = words[at + 1] if at + 1 < len(words) else ""
        digit = after if re.fullmatch("[1-8]", after) else _DIGITS.get(after, "")
        if letter and digit and not (word == "a" and not after.isdigit()):
            out.append(letter + digit)
            at += 2
            continue
        out.append(word)
        at += 1
    return out


def _simple(words: list[str]) -> list[str]:
    """One word for one thing; slips of the keys put right; words that say nothing left out."""
    text = " ".join(_known(word) for word in words)
    for pattern, instead in PHRASES:
        text = pattern.sub(instead, text)
    return [ONE_WORD.get(word, word) for word in text.split() if word not in DROPPED]


@lru_cache(maxsize=4096)
def _known(word: str) -> str:
    """The word, or the nearest known one where it is a slip of one letter (two in a long word)."""
    if (
        len(word) < 4
        or not word.isalpha()
        or word in known_words()
        or word in _KINDS
        or number_of(word) is not None
    ):
        return word
    allowed = 2 if len(word) >= 8 else 1
    same = [one for one in (*known_words(), *_KINDS) if one[0] == word[0]]
    best = min((OSA.distance(word, one, score_cutoff=allowed), one) for one in same) if same else (9, "")
    return best[1] if best[0] <= allowed else word


def _named(words: list[str], things: list[tuple[str, Thing]]) -> str:
    """The words with a letter for each thing named; the things go into the list."""
    out: list[str] = []
    at = 0
    while at < len(words):
        length, letter, thing = _thing(words, at)
        if letter:
            if words[at] in _PRONOUNS:
                thing = _same_side(thing, things)
            things.append((letter, thing))
            out.append(letter)
        else:
            out.append(words[at])
        at += length
    return " ".join(out)


def _same_side(thing: Thing, things: list[tuple[str, Thing]]) -> Thing:
    """ "Black ... his knights": the side that was named just before, where one was."""
    named = next((str(one) for tag, one in reversed(things) if tag == "C" and one in ("white", "black")), "")
    if not named:
        return thing
    return replace(thing, side=named) if isinstance(thing, Man) else named


def _thing(words: list[str], at: int) -> tuple[int, str, Thing]:
    """How many words the thing at this place takes, its letter and itself; ("" where there is none)."""
    rest = words[at:]
    man = _man(rest)
    if man is not None:
        return man
    word = rest[0]
    after = rest[1] if len(rest) > 1 else ""
    if word.startswith("="):
        return 1, "V", word[1:]
    if word == "file" and re.fullmatch("[a-h]", after):
        return 2, "F", "abcdefgh".index(after)
    file = re.fullmatch(r"([a-h])(?:-file)", word) or (
        re.fullmatch("([a-h])", word) if after == "file" else None
    )
    if file:
        return (1 if "-" in word else 2), "F", "abcdefgh".index(file[1])
    if word == "square" and re.fullmatch(r"[a-h][1-8]", after):
        return 2, "S", chess.parse_square(after)
    if re.fullmatch(r"[a-h][1-8]", word):
        return (2 if after == "square" else 1), "S", chess.parse_square(word)
    if word in SIDES:
        return (2 if after == "s" else 1), "C", SIDES[word]
    if word in ("light", "dark"):
        return 1, "L", word
    number = number_of(word) if word not in ("no", "never") else None
    return (1, "N", number) if number is not None else (1, "", "")


def _man(rest: list[str]) -> tuple[int, str, Thing] | None:
    """A man: "white s knight on f3", "my d-pawn", "e4 pawn", "knights"."""
    length, side = 0, ""
    if rest[0] in SIDES:
        side, length = SIDES[rest[0]], 1
        if rest[1:2] == ["s"]:
            length = 2
    if rest[length : length + 1] and rest[length] in ("own", "remaining", "other"):
        length += 1
    left = rest[length:]
    if not left:
        return None
    square = chess.parse_square(left[0]) if re.fullmatch(r"[a-h][1-8]", left[0]) else None
    if square is not None and len(left) > 1 and (left[1] in _KINDS or left[1] == "man"):
        return length + 2, "M", Man(_KINDS.get(left[1]), side, square)
    file = re.fullmatch(r"([a-h])[- ]?(pawns?|rooks?|knights?)", " ".join(left[:2])) or re.fullmatch(
        r"([a-h])-(pawns?|rooks?|knights?)", left[0]
    )
    if file:
        words = 1 if "-" in left[0] else 2
        return length + words, "K", Man(_KINDS[file[2]], side, None, "abcdefgh".index(file[1]))
    if left[0] not in _KINDS and left[0] != "man":
        return None
    kind = _KINDS.get(left[0])
    length += 1
    tail = left[1:]
    if tail[:1] == ["s"]:
        tail, length = tail[1:], length + 1
    skip = 1 if tail[:1] in (["on"], ["at"], ["of"], ["from"]) else 0
    skip += 1 if tail[skip : skip + 1] == ["square"] else 0
    if kind is not None and side == "" and tail[:1] == ["of"] and tail[1:2] and tail[1] in SIDES:
        return length + 2, "K", Man(kind, SIDES[tail[1]])
    if tail[skip : skip + 1] and re.fullmatch(r"[a-h][1-8]", tail[skip]) and tail[:1] != ["from"]:
        return length + skip + 1, "M", Man(kind, side, chess.parse_square(tail[skip]))
    if kind is None:
        return None
    return length, "K", Man(kind, side)
