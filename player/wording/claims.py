"""Understanding a claim: its sentence as data."""

from __future__ import annotations

import re

from rapidfuzz import fuzz, process

from player.facts.claim import Claim
from player.wording.claim_canon import canonical
from player.wording.claim_form import Filled, Form
from player.wording.claim_forms import EXAMPLES, FORMS, SAME
from player.wording.claim_near import in_own_words, topical
from player.wording.claim_words import claim_plain

_MOVE = re.compile(
    r"(?:[oO0]-[oO0](?:-[oO0])?|[kqrbnKQRBN]?[a-hA-H]?[1-8]?[xX-]?[a-hA-H][1-8](?:=?[qrbnQRBN])?(?:e\.?p\.?)?)[+#!?]*"
)
_PASSES = re.compile(
    r"(?:if (white|black) (?:pass(?:es|ed)|were to pass)|should (white|black) pass)"
    r"(?:,? then|,|:|(?= )) ?(.+)",
    re.IGNORECASE,
)


# "The d-file is open after dxe4": the moves behind the claim.
_BEHIND = re.compile(rf"(?P<claim>.+?),? after (?:moves? )?(?P<line>{_MOVE.pattern}(?: .+)?)", re.IGNORECASE)

# The longest sentence looked at, with the moves of a long game in it; a claim itself has far fewer words.
_LONGEST = 4_000
_WORDS = 24
_DEEPEST = 6
# How much a form's words are like a sentence's, of 100, before it comes first whatever the sentence is about.
_ALIKE = 90


def claim_of(sentence: str) -> Claim | None:
    """The claim a sentence makes, or None where it has none of the known forms.

    Articles and "is" are free, numbers are digits or words, case counts only in notation.
    """
    return _claim(claim_plain(sentence), _DEEPEST) if len(sentence) <= _LONGEST else None


def _claim(text: str, depth: int) -> Claim | None:
    """The claim of plain words, with at most `depth` prefixes such as "after e4"."""
    if text[:6].casefold() == "after ":
        return _after(text, depth - 1) if depth else None
    behind = _BEHIND.fullmatch(text)
    if behind and depth and all(_moves(word) is not None for word in behind["line"].split()):
        return _after(f"after {behind['line']}, {behind['claim']}", depth - 1)
    passes = _PASSES.fullmatch(text)
    if passes:
        inner = _claim(passes[3].strip(), depth - 1) if depth else None
        colour = (passes[1] or passes[2]).casefold() == "white"
        return None if inner is None else Claim("pass", colour=colour, inner=inner)
    if len(text.split()) > _WORDS:
        return None
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


def _after(text: str, depth: int) -> Claim | None:
    """A claim after moves: the first comma with nothing but moves before it and a claim behind it.

    Without such a comma, as many moves as leave a claim.
    """
    text = re.sub(r"^after moves? ", "after ", text, flags=re.IGNORECASE)
    words = text.replace(",", " , ").replace(":", " : ").split()[1:]
    found = [_moves(word) for word in words]
    run = next((at for at, moves in enumerate(found) if moves is None), len(words))
    stops = [at for at in range(1, min(run + 1, len(words))) if words[at] in ",:"]
    for at in (*stops, *range(min(run, len(words) - 1), 0, -1)):
        if not _may_begin(words, at):
            continue
        line = tuple(move for moves in found[:at] for move in moves or ())
        inner = _claim(_joined(words[at:]), depth) if line else None
        if inner is not None:
            return Claim("after", line=line, inner=inner)
    return None


def _joined(words: list[str]) -> str:
    """The words as one text again, without a comma before them."""
    return re.sub(r" ([,:])", r"\1", " ".join(words)).lstrip(",: ")


def _may_begin(words: list[str], at: int) -> bool:
    """Whether the words from here on are few, or have a prefix of their own, as a claim must."""
    first = next((word for word in words[at : at + 2] if word not in ",:"), "").casefold()
    return len(words) - at <= _WORDS or first in ("after", "if", "should")


def _moves(word: str) -> tuple[str, ...] | None:
    """The move that a word of a line is, nothing for a number or a comma; None where it is something else."""
    word = re.sub(r"^\d+\.+", "", word)
    if not word or word in ",:" or word.casefold() in ("and", "then", "e.p.", "ep"):
        return ()
    return (word,) if _MOVE.fullmatch(word) else None


def nearest_forms(sentence: str, number: int = 3) -> tuple[str, ...]:
    """The sentences of known form that are most like this one, the nearest first, each a claim by itself.

    First those about the same thing, then those in much the same words; about the sentence's own man, square
    or side where it has one and the form has one.
    """
    sentence = sentence[:_LONGEST]
    plain = claim_plain(sentence).casefold()
    kept = {example: claim_plain(example).casefold() for example in EXAMPLES}
    found = process.extract(plain, kept, scorer=fuzz.token_set_ratio, limit=number + 1)
    alike = [str(one[2]) for one in found]
    worded = found[0][1] >= _ALIKE if found else False
    ordered = dict.fromkeys((*alike[:worded], *topical(sentence), *alike))
    return tuple(_told(example, sentence) for example in ordered)[:number]


def _told(example: str, sentence: str) -> str:
    """The example in the sentence's own words, where they make a claim, and another one than the sentence."""
    own = in_own_words(example, sentence)
    return own if claim_of(own) is not None else example
