"""The words of a language, read from its file in the folder `languages`: adding a language is adding a
file.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from types import MappingProxyType
from typing import Any

import chess

PIECES = {
    "pawn": chess.PAWN,
    "knight": chess.KNIGHT,
    "bishop": chess.BISHOP,
    "rook": chess.ROOK,
    "queen": chess.QUEEN,
    "king": chess.KING,
}

# What a word heard can mean, as one letter each: a phrase is a string of these, and the patterns of
# `grammar.py` are written in them.
KINDS = {
    "take": "T",
    "to": "t",
    "on": "o",
    "from": "f",
    "with": "w",
    "promote": "X",
    "castle": "C",
    "kingside": "s",
    "queenside": "s",
    "check": "c",
    "mate": "c",
    "passant": "e",
    "push": "p",
    "recapture": "r",
    "or": "|",
    "instead": "N",
    "not": "!",
    "ask": "?",
    "ask_first": "/",
    "white": "W",
    "black": "W",
    "and": "&",
    "then": ">",
    "article": "_",
    "filler": "-",
    "both": "2",
    "put": "u",
}


@dataclass(frozen=True, slots=True)
class Token:
    """One understood piece of what was said.

    `kind` is a letter of `KINDS`, or P a man, F a file, R a rank, S a square, B a square off the board, U an
    unknown word. `value` is a piece type, file index, rank index, square, colour or side; `weak` marks a
    sound alike that counts only inside a square.
    """

    kind: str
    value: int
    text: str
    weak: bool = False


@dataclass(frozen=True, slots=True)
class Language:
    """One language: its piece letters, its words for the voice, and every word that is heard."""

    code: str
    name: str
    letters: Mapping[int, str]
    by_letter: Mapping[str, int]
    heard: Mapping[str, tuple[Token, ...]]
    longest: int
    pieces: Mapping[int, str]
    files: Mapping[str, tuple[str, ...]]
    ranks: tuple[str, ...]
    said: Mapping[str, str]
    say: Mapping[str, Mapping[str, str]]
    ask: Mapping[str, str]
    prose: Mapping[str, Any]
    glyphs: Mapping[str, str]
    annotations: Mapping[str, str]
    groups: Mapping[str, tuple[str, ...]]
    never: frozenset[str]
    heard_letters: frozenset[str]


@lru_cache(maxsize=1)
def codes() -> tuple[str, ...]:
    """The codes of the languages there are files for, in alphabetical order."""
    folder = resources.files("player.wording") / "languages"
    return tuple(sorted(entry.name[:-5] for entry in folder.iterdir() if entry.name.endswith(".toml")))


@lru_cache(maxsize=32)
def language(code: str) -> Language:
    """The language with this code; ValueError, naming those there are, where there is no file for it."""
    if code not in codes():
        raise ValueError(f"There are no words for the language {code!r}; there are {', '.join(codes())}.")
    text = (resources.files("player.wording") / "languages" / f"{code}.toml").read_text(encoding="utf-8")
    return _build(code, tomllib.loads(text))


def words_of(code: str) -> Mapping[str, tuple[str, ...]]:
    """Every word and phrase heard in a language, in lower case, by what it means.

    Keys are the six men, `file a` to `file h`, `rank 1` to `rank 8`, and the entries of the file's `hear`
    table ("take", "to", "castle" ...); a speech grammar can be made of them.
    """
    return language(code).groups


def _build(code: str, data: Mapping[str, Any]) -> Language:
    groups: dict[str, list[str]] = {}
    heard: dict[str, list[Token]] = {}

    def hears(group: str, words: list[str], kind: str, value: int, weak: bool = False) -> None:
        for word in words:
            key = " ".join(word.casefold().split())
            token = Token(kind, value, key, weak)
            heard.setdefault(key, [])
            if all((t.kind, t.value) != (kind, value) for t in heard[key]):
                heard[key].append(token)
            if key not in groups.setdefault(group, []):
                groups[group].append(key)

    for piece, words in data["pieces"].items():
        hears(piece, words, "P", PIECES[piece])
    for index, letter in enumerate("abcdefgh"):
        for table in ("files", "fide", "alphabet"):
            hears(f"file {letter}", data[table][letter], "F", index)
        hears(f"file {letter}", data.get("files_misheard", {}).get(letter, []), "F", index, weak=True)
    for digit in "0123456789":
        hears(f"rank {digit}", data["ranks"].get(digit, []), "R", int(digit) - 1)
        hears(f"rank {digit}", data.get("ranks_misheard", {}).get(digit, []), "R", int(digit) - 1, weak=True)
    values = {"kingside": 1, "queenside": 0, "white": 1, "black": 0, "mate": 1}
    for group, words in data["hear"].items():
        hears(group, words, KINDS[group], values.get(group, 0))
    letters = {PIECES[piece]: letter for piece, letter in data["letters"].items()}
    return Language(
        code=code,
        name=data["name"],
        letters=MappingProxyType(letters),
        by_letter=MappingProxyType({letter.lower(): kind for kind, letter in letters.items()}),
        heard=MappingProxyType({key: tuple(tokens) for key, tokens in heard.items()}),
        longest=max(key.count(" ") + 1 for key in heard),
        pieces=MappingProxyType({PIECES[piece]: words[0] for piece, words in data["pieces"].items()}),
        files=MappingProxyType(
            {
                "letters": tuple(data["files"][letter][0] for letter in "abcdefgh"),
                "fide": tuple(data["fide"][letter][0] for letter in "abcdefgh"),
                "alphabet": tuple(data["alphabet"][letter][0] for letter in "abcdefgh"),
            }
        ),
        ranks=tuple(data["ranks"][digit][0] for digit in "12345678"),
        said=MappingProxyType(data["said"]),
        say=MappingProxyType({depth: MappingProxyType(forms) for depth, forms in data["say"].items()}),
        ask=MappingProxyType(data["ask"]),
        prose=MappingProxyType(data["prose"]),
        glyphs=MappingProxyType(data["glyphs"]),
        annotations=MappingProxyType(data["annotations"]),
        groups=MappingProxyType({group: tuple(words) for group, words in groups.items()}),
        heard_letters=frozenset(
            letter for letter in "abcdefgh" if any(token.kind != "F" for token in heard.get(letter, ()))
        ),
        never=frozenset(data.get("never_mended", {}).get("words", ())),
    )
