"""Squares and files spelled as they sound ("ee four", "the eff file"), put as they are written."""

from __future__ import annotations

import re

_LETTERS = {
    "ay": "a", "bee": "b", "cee": "c", "sea": "c", "see": "c", "dee": "d", "ee": "e", "eff": "f", "ef": "f",
    "gee": "g", "jee": "g", "aitch": "h", "haitch": "h", "aych": "h",
} | {letter: letter for letter in "abcdefgh"}  # fmt: skip
_NUMBERS = {
    "one": "1", "won": "1", "two": "2", "too": "2", "three": "3", "tree": "3", "four": "4", "for": "4",
    "fore": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "ate": "8",
} | {str(number): str(number) for number in range(1, 9)}  # fmt: skip
_WORDS = ("sea", "see", "ay", "a")
"""Letters that are words of their own: taken for letters only where nothing else can be meant."""

_BEFORE = r"(?:attack|guard|defend|protect|cover|take|hit|on|to|from|at|is|reach|play|after|if)\w*\s+"
_NOT_FOUR = r"(?!for\s+(?:white|black|me|him|free|nothing)\b)"
_SQUARE = re.compile(
    rf"\b(?P<letter>{'|'.join(_LETTERS)})[\s-]+{_NOT_FOUR}(?P<number>{'|'.join(_NUMBERS)})\b", re.IGNORECASE
)
_WORD_SQUARE = re.compile(rf"{_BEFORE}$", re.IGNORECASE)
_FILE = re.compile(
    rf"\b(?P<lead>the\s+)?(?P<letter>{'|'.join(_LETTERS)})[\s-]+(?=(?:file|pawns?|rooks?|knights?)\b)", re.I
)


def spelled(said: str) -> str:
    """The words with every square and file that was spelled as it sounds written as "e4" and "e file"."""
    text = _SQUARE.sub(_square, said)
    return _FILE.sub(_file, text)


def _square(found: re.Match[str]) -> str:
    letter = found["letter"].casefold()
    if letter in _WORDS and not _WORD_SQUARE.search(found.string[: found.start()]):
        return found[0]
    return _LETTERS[letter] + _NUMBERS[found["number"].casefold()]


def _file(found: re.Match[str]) -> str:
    letter = found["letter"].casefold()
    if letter in _WORDS and not found["lead"]:
        return found[0]
    return f"{found['lead'] or ''}{_LETTERS[letter]} "
