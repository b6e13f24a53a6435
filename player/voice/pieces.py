"""A spoken text made fit for a speech engine: clean, and in pieces that no engine chokes on."""

from __future__ import annotations

import unicodedata

from player.voice.sound import NoSound
from player.wording.pace import pause_ms

PIECE_CHARS = 3_000
LONGEST_WORD = 1_000


def pieces(spoken: str, limit: int = PIECE_CHARS) -> list[str]:
    """The words of `spoken.split()` in stretches of at most `limit` characters, no word lost, none added.

    Cut at a sentence's end where there is one in the second half of a stretch, else between words.
    Characters that are not text (controls, half pairs) are dropped. NoSound for a text with no word, with a
    NUL in it, or with a word of more than 1,000 characters.
    """
    if "\0" in spoken:
        raise NoSound("A text with a zero byte in it cannot be spoken.")
    words = [_clean(word) for word in spoken.split()]
    if not words:
        raise NoSound("There is nothing to say in an empty text.")
    if max(map(len, words)) > min(LONGEST_WORD, limit):
        raise NoSound("A word of more than 1,000 characters cannot be spoken.")
    cut: list[str] = []
    first = 0
    while first < len(words):
        beyond, size = first, -1
        rest = None
        while beyond < len(words) and size + 1 + len(words[beyond]) <= limit:
            size += 1 + len(words[beyond])
            beyond += 1
            if size > limit // 2 and pause_ms(words[beyond - 1]):
                rest = beyond
        if beyond < len(words) and rest is not None:
            beyond = rest
        cut.append(" ".join(words[first:beyond]))
        first = beyond
    return cut


def _clean(word: str) -> str:
    """A word without the characters that are not text; a word of nothing else becomes a dash, to be
    counted.
    """
    return "".join(c for c in word if not unicodedata.category(c).startswith("C")) or "-"
