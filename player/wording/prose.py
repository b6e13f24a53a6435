"""Prose for the voice: notation said properly, names respelled, and every spoken word tied to what is
shown.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from player.wording.languages import Language
from player.wording.languages import language as language_of
from player.wording.lexicon import built_in
from player.wording.prose_chunk import Piece, looks_like_move, pieces
from player.wording.say import Naming
from player.wording.utterance import Utterance

_CHUNK = re.compile(r"\S+")
_NUMBER = re.compile(r"^[(\[]*(\d+)\.+$|^[(\[]*(\d+)…$")
_EDGE = ".,;:!?\"'“”‘’()[]…"


def speakable(
    shown: str, *, language: str = "en", naming: Naming = "letters", lexicon: Mapping[str, str] | None = None
) -> Utterance:
    """What a voice is given for this text, with one span of `shown` for every spoken word.

    Notation becomes words, signs that a voice would read out wrongly become words or nothing, and the words
    of `lexicon` (over the built-in one) become their respellings. ValueError for an unknown language.
    """
    words = language_of(language)
    respelled = built_in(language)
    own = {} if lexicon is None else {word.casefold(): text for word, text in lexicon.items()}
    chunks = [(found.group(), found.start()) for found in _CHUNK.finditer(shown)]
    phrases = _phrases(own, respelled)
    spoken: list[str] = []
    spans: list[tuple[int, int]] = []
    moved = False  # whether the last thing said was a move, which a comma parts from the next one
    at = 0
    while at < len(chunks):
        start = chunks[at][1]
        taken = _phrase_at(chunks, at, phrases, own, respelled) if phrases else 0
        if taken:
            at += taken
            end = chunks[at - 1][1] + len(chunks[at - 1][0])
            key = " ".join(text for text, _ in chunks[at - taken : at])
            for word in _respell(key, own, respelled):
                spoken.append(word)
                spans.append((start, end))
            moved = False
            continue
        castles = _castles(chunks, at, moved, words)
        for piece in _in_place(chunks, at, words, naming, own, respelled):
            if (piece.notation or castles) and moved and spoken[-1][-1].isalnum():
                spoken[-1] += ","
            moved = piece.notation or castles
            for word in piece.words:
                if not any(c.isalnum() for c in word):
                    if spoken and word in (",", ".", "?", "!", ";", ":") and spoken[-1][-1].isalnum():
                        spoken[-1] += word
                    continue
                spoken.append(word)
                spans.append((start + piece.start, start + piece.end))
        at += 1
    return Utterance(" ".join(spoken), shown, tuple(spans), language)


def _in_place(
    chunks: list[tuple[str, int]],
    at: int,
    words: Language,
    naming: Naming,
    own: Mapping[str, str],
    respelled: Mapping[str, str],
) -> tuple[Piece, ...]:
    """The spoken pieces of one chunk, seeing its neighbours."""
    chunk = chunks[at][0]
    key = chunk.strip(_EDGE).casefold()
    if key in own or key in respelled:
        return (Piece(tuple(_respell(chunk, own, respelled)), 0, len(chunk)),)
    if key.endswith(("'s", "’s")) and (key[:-2] in own or key[:-2] in respelled):
        return (Piece(tuple(_respell(chunk, own, respelled)), 0, len(chunk)),)
    if len(key) == 1 and key == "a" and words.prose.get("file_after") and _is_file(chunks, at, words):
        return (
            Piece(
                (chunk.replace("A", "a").strip('()[]"“”').replace("a", words.files[naming][0]),),
                0,
                len(chunk),
            ),
        )
    number = _NUMBER.match(chunk) if chunk[-1] in ".…" else None
    if number and at + 1 < len(chunks) and looks_like_move(chunks[at + 1][0], words.code):
        text = words.prose["number"].format(number=number.group(1) or number.group(2))
        return (Piece(tuple(text.split()), 0, len(chunk), notation=True),)
    return pieces(chunk, words.code, naming)


def _castles(chunks: list[tuple[str, int]], at: int, moved: bool, words: Language) -> bool:
    """Whether a chunk is the word for castling among moves in notation."""
    if chunks[at][0].strip(_EDGE).casefold() != words.groups["castle"][0].casefold():
        return False
    return moved or (at + 1 < len(chunks) and looks_like_move(chunks[at + 1][0], words.code))


def _is_file(chunks: list[tuple[str, int]], at: int, words: Language) -> bool:
    """Whether a lone "a" is the file and not the article, by its neighbours."""
    chunk = chunks[at][0]
    if chunk[-1] in ".,;:!?)":
        return True
    after = chunks[at + 1][0].strip(_EDGE).casefold() if at + 1 < len(chunks) else ""
    before = chunks[at - 1][0].casefold() if at else ""
    return not after or after in words.prose["file_after"] or before in words.prose["file_before"]


def _respell(text: str, own: Mapping[str, str], respelled: Mapping[str, str]) -> list[str]:
    """The respelling of a word or phrase, with the punctuation that ended it."""
    bare = text.strip(_EDGE)
    tail = "".join(c for c in text[text.rfind(bare) + len(bare) :] if c in ".,;:!?")
    key = " ".join(bare.casefold().split())
    possessive = ""
    if key not in own and key not in respelled and key.endswith(("'s", "’s")):
        key, possessive = key[:-2], "'s"
    said = own[key] if key in own else respelled[key]
    return _clean_respelling(said, possessive + tail)


@lru_cache(maxsize=1024)
def _cleaned(said: str) -> tuple[str, ...]:
    return tuple("".join(c for c in word if c.isalnum() or c in "-'.") for word in said.lower().split())


def _clean_respelling(said: str, tail: str) -> list[str]:
    out = [word for word in _cleaned(said) if any(c.isalnum() for c in word)]
    if out:
        out[-1] += tail
    return out


def _phrases(
    own: Mapping[str, str], respelled: Mapping[str, str]
) -> Mapping[str, tuple[tuple[str, ...], ...]]:
    """The entries of more than one word, by their first word, longest first."""
    extra = tuple(sorted(key for key in own if " " in key))
    return _phrase_table(extra, tuple(key for key in respelled if " " in key))


@lru_cache(maxsize=64)
def _phrase_table(
    extra: tuple[str, ...], built: tuple[str, ...]
) -> Mapping[str, tuple[tuple[str, ...], ...]]:
    table: dict[str, list[tuple[str, ...]]] = {}
    for key in extra + built:
        parts = tuple(key.split())
        table.setdefault(parts[0], []).append(parts)
    return {first: tuple(sorted(entries, key=len, reverse=True)) for first, entries in table.items()}


def _phrase_at(
    chunks: list[tuple[str, int]],
    at: int,
    phrases: Mapping[str, tuple[tuple[str, ...], ...]],
    own: Mapping[str, str],
    respelled: Mapping[str, str],
) -> int:
    entries = phrases.get(chunks[at][0].lstrip(_EDGE).casefold())
    for entry in entries or ():
        heard = [chunk.casefold() for chunk, _ in chunks[at : at + len(entry)]]
        if heard:
            heard[0] = heard[0].lstrip(_EDGE)
            heard[-1] = heard[-1].rstrip(_EDGE)
        if tuple(heard) == entry:
            return len(entry)
    return 0
