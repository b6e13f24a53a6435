"""Understanding a claim: its sentence as data."""

from __future__ import annotations

import re

import chess
from rapidfuzz import fuzz, process

from player.facts.claim import Claim
from player.wording.claim_canon import canonical
from player.wording.claim_form import Filled, Form
from player.wording.claim_forms import EXAMPLES, FORMS, SAME
from player.wording.claim_words import claim_plain

_MOVE = re.compile(
    r"(?:[oO0]-[oO0](?:-[oO0])?|[kqrbnKQRBN]?[a-hA-H]?[1-8]?[xX-]?[a-hA-H][1-8](?:=?[qrbnQRBN])?(?:e\.?p\.?)?)[+#!?]*"
)
_PASSES = re.compile(
    r"(?:if (white|black) (?:pass(?:es|ed)|were to pass)|should (white|black) pass)"
    r"(?:,? then|,|:|(?= )) ?(.+)",
    re.IGNORECASE,
)


def claim_of(sentence: str) -> Claim | None:
    """The claim a sentence makes, or None where it has none of the known forms.

    Articles and "is" are free, numbers are digits or words, case counts only in notation.
    """
    return _claim(claim_plain(sentence))


def _claim(text: str) -> Claim | None:
    passes = _PASSES.fullmatch(text)
    if passes:
        inner = _claim(passes[3].strip())
        colour = (passes[1] or passes[2]).casefold() == "white"
        return None if inner is None else Claim("pass", colour=colour, inner=inner)
    if re.match(r"after ", text, re.IGNORECASE):
        return _after(text)
    return _formed(SAME, text) or _formed(FORMS, canonical(text))


def _formed(forms: tuple[Form, ...], text: str) -> Claim | None:
    """The claim of the first form that the text has."""
    for form in forms:
        found = form.pattern.fullmatch(text)
        if found:
            claim = form.make(Filled(found.groupdict(), found.groupdict().get("things") or ""))
            if claim is not None:
                return claim
    return None


def _after(text: str) -> Claim | None:
    """A claim after moves: the first comma with nothing but moves before it and a claim behind it."""
    for comma in re.finditer("[,:]", text):
        moves = _moves(text[len("after ") : comma.start()])
        inner = _claim(text[comma.end() :].strip()) if moves else None
        if moves and inner is not None:
            return Claim("after", line=moves, inner=inner)
    words = text.split()[1:]
    # Without a comma, as many moves as leave a claim.
    for number in range(len(words) - 1, 0, -1):
        moves = _moves(" ".join(words[:number]))
        inner = _claim(" ".join(words[number:])) if moves else None
        if moves and inner is not None:
            return Claim("after", line=moves, inner=inner)
    return None


def _moves(text: str) -> tuple[str, ...]:
    """The moves of a line with or without numbers; empty where something else is among them."""
    out = []
    for word in text.replace(",", " ").split():
        word = re.sub(r"^\d+\.+", "", word)
        if not word or word.casefold() in ("and", "then", "e.p.", "ep"):
            continue
        if not _MOVE.fullmatch(word):
            return ()
        out.append(word)
    return tuple(out)


def nearest_forms(sentence: str, number: int = 3) -> tuple[str, ...]:
    """The sentences of known form that are most like this one, as examples, the nearest first."""
    plain = claim_plain(sentence).casefold()
    kept = {example: claim_plain(example).casefold() for example in EXAMPLES}
    found = process.extract(plain, kept, scorer=fuzz.token_set_ratio, limit=number)
    return tuple(str(one[2]) for one in found)


def square_of(text: str) -> chess.Square:
    """The square with this name, in any case."""
    return chess.parse_square(text.casefold())
