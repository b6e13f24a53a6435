"""How long a voice is likely to take over a spoken text, before any sound of it has been made.

A fixed number of words a minute is wrong by half for chess talk: "Queen takes h7, mate." has 109 words a
minute and "The next push is in the air." has 256, from one voice at one setting. So a word is weighed by
its syllables, letters and digits, and a pause by its punctuation. The weights are a least-squares fit to
fifty sentences of narration said by eSpeak NG 1.52 at 170 words a minute, where the length comes out within
14 % for every sentence.
"""

from __future__ import annotations

import re
import unicodedata

SLOWEST, FASTEST = 0.5, 3.0

_WORD_MS = 95
_SMALL_WORD_MS = 10
_SYLLABLE_MS = 66
_LETTER_MS = 28
_DIGIT_MS = 300
_WIDE_MS = 180
_COMMA_MS = 220
_STOP_MS = 370
_DASH_MS = 60

# fmt: off
_SMALL_WORDS = frozenset({
    "a", "an", "the", "to", "of", "in", "on", "is", "it", "he", "if", "so", "or", "and", "at", "as",
    "for", "be", "by", "from", "with", "that", "we", "you", "i", "was", "were", "are",
})
# fmt: on
_VOWELS = re.compile(r"[aeiouy]+")
_CLOSERS = "\"'”’»)]}"


def word_times(spoken: str, speed: float = 1.0) -> tuple[tuple[int, ...], int]:
    """The moment each word of `spoken.split()` begins, and the length of the whole, in milliseconds.

    The first word begins at 0, each later word after the one before it, and the length lies past the last
    beginning; an empty text is ((), 0). `speed` is 0.5 to 3.0, 1.0 being about 170 words a minute of ordinary
    narration; ValueError outside that range.
    """
    if not SLOWEST <= speed <= FASTEST:
        raise ValueError(f"speed must be {SLOWEST} to {FASTEST}, not {speed}")
    onsets: list[int] = []
    at = 0.0
    for word in spoken.split():
        onsets.append(round(at))
        at += (_said_ms(word) + pause_ms(word)) / speed
    return tuple(onsets), round(at)


def pause_ms(word: str) -> int:
    """The pause that the punctuation at the end of a word makes, at speed 1; 0 for none."""
    end = word.rstrip(_CLOSERS)[-1:]
    if end in (".", "!", "?", "…", "。", "！", "？"):
        return _STOP_MS
    if end in (",", ";", ":", "，", "、", "；", "："):
        return _COMMA_MS
    return 0


def _said_ms(word: str) -> int:
    plain = unicodedata.normalize("NFKD", word.casefold())
    if not any(c.isalnum() for c in plain):
        return _DASH_MS
    digits = sum(c.isdigit() for c in plain)
    wide = sum(c.isalpha() and unicodedata.east_asian_width(c) in "WF" for c in plain)
    letters = sum(c.isalpha() for c in plain) - wide
    ms = _SMALL_WORD_MS if plain.strip(".,;:!?\"'”’“‘()") in _SMALL_WORDS else _WORD_MS
    ms += _SYLLABLE_MS * _syllables(plain) + _LETTER_MS * letters
    return ms + _DIGIT_MS * digits + _WIDE_MS * wide


def _syllables(plain: str) -> int:
    """Syllables by counting groups of vowels; letters of scripts without these vowels count two to a
    syllable.
    """
    count = 0
    for part in re.findall(r"[a-z]+", plain):
        groups = len(_VOWELS.findall(part))
        silent = groups > 1 and (
            (part.endswith("e") and not part.endswith("le"))
            or (part.endswith("ed") and not part.endswith(("ted", "ded")))
        )
        count += max(1, groups - silent)
    others = sum(c.isalpha() and c > "\u0370" and unicodedata.east_asian_width(c) not in "WF" for c in plain)
    return count + (others + 1) // 2


def clock(ms: int) -> str:
    """A time as minutes and seconds, with hours where there are any."""
    minutes, seconds = divmod(round(ms / 1000), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{seconds:02d}" if hours else f"{minutes}:{seconds:02d}"
