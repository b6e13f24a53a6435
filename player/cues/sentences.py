"""Where the sentences of a text begin and end."""

from __future__ import annotations

import re
from functools import lru_cache

from player.wording.prose_chunk import looks_like_move

_END = re.compile(r"[.!?…]+(?:\s?»(?=\s|$)|[\"'”’“‘»«)\]}])*(?=\s|$)|[。！？]+[」』）]*")
_OPENERS = "\"'“”„‘’«»([{¿¡–—-* \u00a0\u202f"
_NUMBER = re.compile(r"\d{1,3}")
_DOTTED = re.compile(r"(?:[^\W\d]\.)*[^\W\d]")
_SPEECH = re.compile(r"[^\W_]")

# fmt: off
_ABBREVIATIONS = {
    "en": frozenset({
        "mr", "mrs", "ms", "dr", "prof", "st", "vs", "cf", "approx", "ca", "jr", "sr", "vol", "ed", "fig",
        "pp",
    }),
    "de": frozenset({
        "hr", "fr", "dr", "prof", "bzw", "usw", "vgl", "nr", "ca", "st", "evtl", "ggf", "bspw", "sog",
    }),
    "fr": frozenset({"m", "mm", "mme", "mlle", "dr", "pr", "st", "ste", "cf", "env", "ex", "éd", "vol"}),
    "es": frozenset({
        "sr", "sra", "srta", "dr", "dra", "ud", "uds", "prof", "ej", "pág", "vol", "núm", "aprox",
    }),
}
_BEFORE_A_NUMBER = frozenset({"no", "nos", "nr", "p", "fig", "vol", "art", "ch"})
# fmt: on


@lru_cache(maxsize=2048)
def sentences(shown: str, language: str = "en") -> tuple[tuple[int, int], ...]:
    """The (start, end) of every sentence, without the white space between them; () where nothing is written.

    A sentence ends at a full stop, question or exclamation mark or ellipsis and the closing quotes and
    brackets after it, but not at a move number, "e.p.", an abbreviation, a decimal, an initial or a sign of
    judgement inside notation. What has neither letter nor digit goes with its neighbour. Where it is in
    doubt, the text is left whole.
    """
    spans: list[tuple[int, int]] = []
    start = _skip(shown, 0)
    for found in _END.finditer(shown):
        end = found.end()
        if end <= start or not _SPEECH.search(shown, start, end):
            continue
        after = _skip(shown, end)
        if after >= len(shown):
            break
        if _ends(shown, start, found, after, language):
            spans.append((start, end))
            start = after
    last = len(shown.rstrip())
    if start < last:
        if spans and not _SPEECH.search(shown, start, last):
            spans[-1] = (spans[-1][0], last)
        else:
            spans.append((start, last))
    return tuple(spans)


def sentence_at(spans: tuple[tuple[int, int], ...], offset: int) -> int:
    """The number of the sentence to which this character belongs.

    White space belongs to the sentence after it, the very end to the last one. There must be a sentence.
    """
    return next((number for number, (_, end) in enumerate(spans) if offset < end), len(spans) - 1)


def _skip(shown: str, at: int) -> int:
    while at < len(shown) and shown[at].isspace():
        at += 1
    return at


def _ends(shown: str, start: int, found: re.Match[str], after: int, language: str) -> bool:
    """Whether the sentence ends at this mark; `after` is where the next word begins."""
    marks = found.group()
    if marks[0] in "。！？":
        return True
    whole = shown[start : found.start()]
    token = "" if whole[-1:].isspace() else whole.rsplit(None, 1)[-1].lstrip(_OPENERS)
    following = shown[after:].split(None, 1)[0].lstrip(_OPENERS)
    to_move = looks_like_move(following, language)
    if marks.startswith(("..", ".…", "…")):
        return bool(token) and not to_move and not following[:1].islower() and not following[:1].isdigit()
    if marks == ".":
        if not token or (_NUMBER.fullmatch(token) and (to_move or following.startswith(("..", "…")))):
            return False
        if _stays(token, token == whole.lstrip(_OPENERS), following, language):
            return False
    elif looks_like_move(token, language) and (to_move or re.match(r"\d+\.", following)):
        return False
    return to_move or not following[:1].islower()


def _stays(token: str, alone: bool, following: str, language: str) -> bool:
    """Whether a full stop belongs to the word before it: a number in a list, an initial, "e.p.".

    `alone` says that the sentence so far is this word.
    """
    if _NUMBER.fullmatch(token):
        return alone or language == "de"
    if _DOTTED.fullmatch(token) and ("." in token or token.isupper()):
        return True
    low = token.casefold()
    if low in _BEFORE_A_NUMBER and following[:1].isdigit():
        return True
    return low in _ABBREVIATIONS.get(language, _ABBREVIATIONS["en"])
