"""The words of claims: plain text, numbers, and things one can be up."""

from __future__ import annotations

import re

_COUNTED = """zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen
sixteen seventeen eighteen nineteen twenty"""
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
_NUMBERS = {word: number for number, word in enumerate(_COUNTED.split())} | {
    "no": 0,
    "never": 0,
    "once": 1,
    "twice": 2,
    "thrice": 3,
    **{word: 10 * number for number, word in enumerate(_TENS.split(), 2)},
}
_TEN = f"(?:{_TENS.replace(' ', '|')})"
NUMBER = r"\d{1,4}|" + "|".join(sorted(_NUMBERS, key=len, reverse=True)) + rf"|{_TEN}[- ][a-z]+"

_FREE = {"a", "an", "the", "is", "are"}
_DASHES = dict.fromkeys(map(ord, "‐‑‒–—―−"), "-")


def claim_plain(sentence: str) -> str:
    """A claim's words without articles, "is" and "are", with plain dashes and one blank between words."""
    text = sentence.translate(_DASHES).replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
    text = re.sub(r"\bthe two bishops\b", "bishop pair", text, flags=re.IGNORECASE)
    text = re.sub(r"\b(?:the |an? )?([a-hA-H])[ -]file\b", r"\1-file", text)
    text = re.sub(r"\s*-\s*(?=[a-hA-H][1-8]\b)", "-", text)
    text = " ".join(word for word in text.split() if word.casefold() not in _FREE)
    return text.rstrip(" .;!")


def number_of(text: str) -> int | None:
    """A count in digits or words, or None."""
    text = text.casefold().strip()
    if text.isdecimal():
        return int(text)
    if text in _NUMBERS:
        return _NUMBERS[text]
    tens = re.fullmatch(rf"({_TEN})[- ](\w+)", text)
    if tens and 0 < _NUMBERS.get(tens[2], 0) < 10:
        return _NUMBERS[tens[1]] + _NUMBERS[tens[2]]
    return None


_THINGS = {
    "pawn": (1, 0, 0, 0), "piece": (0, 1, 0, 0), "minor piece": (0, 1, 0, 0), "knight": (0, 1, 0, 0),
    "bishop": (0, 1, 0, 0), "rook": (0, 0, 1, 0), "queen": (0, 0, 0, 1), "exchange": (0, -1, 1, 0),
}  # fmt: skip


def surplus_of(text: str) -> tuple[int, int, int, int] | None:
    """ "piece for two pawns" as pawns, minor pieces, rooks and queens more; None where it is nothing."""
    up, _, down = text.casefold().partition(" for ")
    more, less = _sum(up), _sum(down) if down else (0, 0, 0, 0)
    if more is None or less is None:
        return None
    pawns, minors, rooks, queens = (a - b for a, b in zip(more, less, strict=True))
    return pawns, minors, rooks, queens


def _sum(text: str) -> tuple[int, int, int, int] | None:
    total = [0, 0, 0, 0]
    for part in re.split(r"\s*,\s*|\s+and\s+", text.casefold().strip()):
        found = re.fullmatch(rf"(?:({NUMBER}) )?(.+?)s?", part)
        thing = _THINGS.get(found[2]) if found else None
        if found is None or thing is None:
            return None
        number = number_of(found[1]) if found[1] else 1
        if number is None:
            return None
        total = [sum_ + number * each for sum_, each in zip(total, thing, strict=True)]
    return total[0], total[1], total[2], total[3]
