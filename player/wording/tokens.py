"""From what was typed or heard to understood words: every way of taking each piece of it."""

from __future__ import annotations

import re
from functools import lru_cache

import chess

from player.wording.languages import Language, Token
from player.wording.notation import FIGURINES, compact

# One reading of a chunk is a run of tokens; a slot holds every reading of one chunk.
Run = tuple[Token, ...]
Slot = tuple[Run, ...]

_DASHES = str.maketrans("–—−‐‑×’‘“”…", "-----x''\"\" ", "\ufe0e\ufe0f")
_NUMBER = re.compile(
    r"^\s*\d+\s*(?:\.\s*)+(?=\D|0\s*-?\s*0)|^\s*\d+\s+(?=\S*[a-hA-H♔-♟]\S*\d)|^\s*(?:\.\s*)+(?=\w)"
)
_CASTLING = re.compile(r"(?<![\w-])[oO0]\s*-?\s*[oO0](\s*-?\s*[oO0])?(?![\w-])")
_PASSANT = re.compile(r"(?<!\w)e\.\s+p\b\.?", re.IGNORECASE)
_TRIM = ".,;:!?\"'()[]{}"
_MARKS = {"+": "c", "++": "c", "#": "c", "-": "-", "=": "X", ":": "T", "!": "-", "?": "-", "~": "-"}
_GLUED = re.compile(r"^([a-zäöüßéèêçñ]{3,})([a-h][1-8])$")


def plain(said: str) -> str:
    """The text with dashes, quotes and multiplication signs made plain, and no move number before it."""
    return _NUMBER.sub("", said.translate(_DASHES).replace("\u00a0", " ")).strip()


def slots(said: str, words: Language) -> list[Slot]:
    """Every reading of every chunk of `said` (already `plain`), in order; an unknown word is a token U."""
    said = _PASSANT.sub("e.p.", said)
    said = _CASTLING.sub(lambda found: "O-O-O" if found.group(1) else "O-O", said)
    capitals = not any(c.islower() for c in said)
    raw = said.split()
    lowered = [_trimmed(chunk).casefold() for chunk in raw]
    out: list[Slot] = []
    at = 0
    while at < len(raw):
        length, slot = _phrase(lowered, at, words)
        if slot is None:
            length, slot = 1, _chunk(raw[at], words, capitals)
            if slot is None:
                length, slot = _mistyped(lowered, at, words)
        elif length == 1 and len(lowered[at]) == 1:
            slot = _letter(raw[at], slot, words, capitals)
        if length == 1 and raw[at][-1:] in ",.;-" and any(run and run[0].kind == "N" for run in slot):
            slot = tuple((Token("N", 0, lowered[at], weak=True),) for _ in slot)
        if out and any(run and run[-1].kind == "F" for run in out[-1]):
            ranks = tuple(run for run in slot if run and run[0].kind == "R" and not run[0].weak)
            slot = ranks or slot  # straight after a file "un" is a one, and no article
        out.append(slot)
        at += length
    return [_not_an_article(slot, out[number + 1 :]) for number, slot in enumerate(out)]


def _not_an_article(slot: Slot, after: list[Slot]) -> Slot:
    """A word that is both a rank and an article ("un") is the rank, but for straight before a man."""
    if not any(run and run[0].kind == "R" and not run[0].weak for run in slot):
        return slot
    if after and any(run and run[0].kind == "P" for run in after[0]):
        return slot
    return tuple(run for run in slot if not run or run[0].kind != "_")


def _trimmed(chunk: str) -> str:
    return chunk.strip(_TRIM) or chunk


def _phrase(lowered: list[str], at: int, words: Language) -> tuple[int, Slot | None]:
    heard = words.heard
    for length in range(min(words.longest, len(lowered) - at), 0, -1):
        key = lowered[at] if length == 1 else " ".join(lowered[at : at + length])
        tokens = heard.get(key)
        if tokens is not None:
            return length, tuple((token,) for token in tokens)
    return 0, None


def _letter(chunk: str, slot: Slot, words: Language, capitals: bool) -> Slot:
    """A lone letter that is also a word: it may be a man or a file as well."""
    more = compact(_trimmed(chunk), words, capitals) or ()
    if more and all(run[0].kind == "P" for run in more):  # a capital B in mixed case is the bishop
        return more
    known = {(run[0].kind, run[0].value) for run in slot}
    return slot + tuple(run for run in more if (run[0].kind, run[0].value) not in known)


def _chunk(chunk: str, words: Language, capitals: bool) -> Slot | None:
    mark = _MARKS.get(chunk.strip('."'))
    if mark is not None:
        return ((Token(mark, int("#" in chunk or "++" in chunk), chunk),),)
    bare = chunk.strip(_TRIM)
    if len(bare) == 1 and bare in "0123456789":
        return ((Token("R", int(bare) - 1, bare),),)
    if chunk.strip(".,()") == "":
        return ((),)
    for text in dict.fromkeys((chunk.strip('.,;"[]{}'), _trimmed(chunk))):
        found = compact(text, words, capitals)
        if found:
            return found
    text = _trimmed(chunk)
    if "-" in text.strip("-"):
        return _hyphened(text, words, capitals)
    glued = _GLUED.match(text.casefold())
    if glued and glued.group(1) in words.heard:
        word = words.heard[glued.group(1)][0]
        return ((word, Token("S", chess.parse_square(glued.group(2)), glued.group(2))),)
    return None


def _hyphened(text: str, words: Language, capitals: bool) -> Slot | None:
    whole = words.heard.get(text.casefold().replace("-", " "))
    if whole is not None:
        return tuple((token,) for token in whole)
    runs: list[Run] = [()]
    for part in text.split("-"):
        if not part:
            continue
        tokens = words.heard.get(part.casefold())
        slot: Slot | None = None
        if tokens is not None:
            slot = tuple((t,) if t.kind != "-" else () for t in tokens if t.kind != "_")
        if not slot:
            slot = compact(part, words, capitals)
        elif len(part) == 1:
            slot = _letter(part, slot, words, capitals)
        if not slot:
            _, slot = _mistyped([part.casefold()], 0, words)
        runs = [run + more for run in runs for more in slot][:8]
    return tuple(runs)


def _mistyped(lowered: list[str], at: int, words: Language) -> tuple[int, Slot]:
    """The known word or phrase that a mistyped one must be, or a token U. Only words are mended, never
    squares.
    """
    for length in (3, 2, 1):
        key = " ".join(lowered[at : at + length])
        if at + length <= len(lowered):
            meant = _nearest(key, words.code, tuple(words.heard))
            if meant is not None:
                return length, tuple((Token(t.kind, t.value, t.text, t.weak),) for t in words.heard[meant])
    return 1, ((Token("U", 0, lowered[at]),),)


@lru_cache(maxsize=2048)
def _nearest(key: str, code: str, known: tuple[str, ...]) -> str | None:
    from rapidfuzz.distance import OSA

    from player.wording.languages import language

    if len(key) < 3 or any(c.isdigit() for c in key) or key in language(code).never:
        return None
    best: list[str] = []
    least = 3
    for word in known:
        if word.count(" ") != key.count(" ") or len(word) < 4 or abs(len(word) - len(key)) > 2:
            continue
        allowed = 1 if len(word) < 7 else 2
        distance = OSA.distance(key, word, score_cutoff=allowed)
        if distance > allowed or not _likely(key, word, distance):
            continue
        if distance < least:
            best, least = [word], distance
        elif distance == least:
            best.append(word)
    heard = language(code).heard
    telling = [word for word in best if heard[word][0].kind != "-"]
    meanings = {tuple((t.kind, t.value) for t in heard[word]) for word in telling}
    return telling[0] if len(meanings) == 1 else None


def _likely(key: str, word: str, distance: int) -> bool:
    """Whether one can be a slip for the other: a changed first letter, or a changed letter in a short word,
    cannot.
    """
    if sorted(key) == sorted(word):
        return True
    if len(word) <= 4:
        return key[0] == word[0] and len(key) != len(word)
    return key[0] == word[0] or (distance == 1 and len(key) != len(word))


__all__ = ["FIGURINES", "Run", "Slot", "plain", "slots"]
