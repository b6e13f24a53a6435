"""The text of one logical line, taken apart into words and braces by the grammar beside this file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import TYPE_CHECKING, Literal, cast

if TYPE_CHECKING:
    from lark import Lark, Token

# The tokens of the grammar, where no backslash stands.
_BRACE = (
    r"\{(?P<deed>(?:[^{}@:\\]|:(?![\s}]))*)"
    r"(?:@(?P<stamp> *[^{}:\s\\]*(?::[^{}:\s\\]+)* *))?"
    r"(?::(?=[\s}])(?P<say>[^{}\\]*))?\}"
)
_COMMON = re.compile(rf"(?:[^{{}}\\]|{re.sub('[?]P<[a-z]+>', '?:', _BRACE)})*")
_PART = re.compile(rf"{_BRACE}|[^{{}}]+")
_SCAN = re.compile(r"\\.|[{}]")
_NO_BRACES = str.maketrans("{}\\", "   ")
MOST_BROKEN = 12
"""After so many broken braces in one line the rest of it is taken as words."""
_NOTATION = re.compile(r" *(?:show +)?[A-Za-z0-9=+#x-]+")
_MOVE_BEFORE = re.compile(r"(?<=[\s(])(?:[A-Z]?[a-h]?[1-8]?x?[a-h][1-8](?:=[A-Z])?|O-O(?:-O)?)[+#]?\s?$")


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a line as written, and where it begins in the line's text."""

    text: str
    at: int

    @property
    def end(self) -> int:
        return self.at + len(self.text)


@dataclass(frozen=True, slots=True)
class RawBrace:
    """A brace as written. `say` begins after its colon; `stamp` after its @. None where they do not stand."""

    deed: Piece
    stamp: Piece | None
    say: Piece | None
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Broken:
    """A brace that is not as it should be: the kind, and from where to where."""

    kind: Literal["unclosed", "stray", "order"]
    start: int
    end: int


Raw = Piece | RawBrace


def parse(text: str) -> tuple[list[Raw], list[Broken]]:
    """The words and braces of one logical line; broken braces are mended, and told."""
    if _COMMON.fullmatch(text):
        return _common(text), []
    from lark.exceptions import UnexpectedInput

    try:
        return by_grammar(text), []
    except UnexpectedInput:
        pass
    raws: list[Raw] = []
    parts, broken = _mended(text)
    for at, part in parts:
        try:
            raws += _parsed(part, at)
        except UnexpectedInput as error:
            where = at + (error.pos_in_stream or 0)
            broken.append(Broken("order", where, where + 1))
            raws.append(Piece(part.strip("{}"), at))
    return raws, broken


def by_grammar(text: str) -> list[Raw]:
    """The same by the grammar alone; lark's UnexpectedInput where the text is not one of its lines."""
    return _parsed(text, 0)


def _common(text: str) -> list[Raw]:
    """Lines without a backslash or a broken brace, as nearly all are: no grammar is loaded."""
    raws: list[Raw] = []
    for found in _PART.finditer(text):
        if found["deed"] is None:
            raws.append(Piece(found[0], found.start()))
            continue
        deed, stamp, say = (
            None if found[name] is None else Piece(found[name], found.start(name))
            for name in ("deed", "stamp", "say")
        )
        assert deed is not None
        raws.append(RawBrace(deed, stamp, say, found.start(), found.end()))
    return raws


@lru_cache(maxsize=1)
def _grammar() -> Lark:
    from lark import Lark

    text = files("player.script").joinpath("grammar.lark").read_text(encoding="utf-8")
    return Lark(text, parser="lalr", maybe_placeholders=True)


def _parsed(text: str, base: int) -> list[Raw]:
    raws: list[Raw] = []
    for child in _grammar().parse(text).children:
        if isinstance(child, str):
            raws.append(_piece(child, base))
            continue
        first, deed, stamp, say, last = cast("list[Token]", child.children)
        raws.append(
            RawBrace(
                _piece(deed, base) if deed is not None else Piece("", base + _pos(first) + 1),
                _piece(stamp, base, 1) if stamp is not None else None,
                _piece(say, base, 1) if say is not None else None,
                base + _pos(first),
                base + _pos(last) + 1,
            )
        )
    return raws


def _pos(token: Token) -> int:
    return token.start_pos or 0


def _piece(token: Token, base: int, skip: int = 0) -> Piece:
    return Piece(str(token)[skip:], base + _pos(token) + skip)


def _mended(text: str) -> tuple[list[tuple[int, str]], list[Broken]]:
    """The text in parts that each have their braces in order, with what was wrong."""
    parts: list[tuple[int, str]] = []
    broken: list[Broken] = []
    begin, opened = 0, -1
    for found in _SCAN.finditer(text):
        at = found.start()
        if len(broken) == MOST_BROKEN:
            parts.append((at, text[at:].translate(_NO_BRACES)))
            return parts, broken
        if found[0] == "{":
            if opened >= 0:
                broken.append(Broken("unclosed", opened, at))
                begin = _close(parts, text, begin, opened, at)
            opened = at
        elif found[0] == "}":
            if opened < 0:
                broken.append(Broken("stray", at, at + 1))
                parts += _opened(text, begin, at)
                begin = at + 1
            opened = -1
    if opened >= 0:
        broken.append(Broken("unclosed", opened, len(text)))
        begin = _close(parts, text, begin, opened, len(text))
    parts.append((begin, text[begin:]))
    return [(at, part) for at, part in parts if part], broken


def _opened(text: str, begin: int, at: int) -> list[tuple[int, str]]:
    """The text before a brace that closes nothing; a move that stands there is taken as its own."""
    move = _MOVE_BEFORE.search(text, begin, at)
    if move is None:
        return [(begin, text[begin:at])]
    start = move.start()
    return [(begin, text[begin:start]), (start - 1, f"{{{move[0]}}}")]


def _close(parts: list[tuple[int, str]], text: str, begin: int, opened: int, limit: int) -> int:
    """Closes an open brace after its first word, or before `limit` where it says other words."""
    end = limit
    if ": " not in text[opened:limit]:
        found = _NOTATION.match(text, opened + 1, limit)
        end = found.end() if found else limit
    parts.append((begin, text[begin:end].rstrip(" ,.;") + "}"))
    return end
