"""Physical lines: what word processors do to a text is forgiven, and every character keeps its column."""

from __future__ import annotations

import re
from dataclasses import dataclass

from player.script.faults import CONTROLS, lines_of
from player.script.model import Spot

_QUOTES = dict.fromkeys("\u2018\u2019\u201a\u201b\u2032", "'") | dict.fromkeys(
    "\u201c\u201d\u201e\u201f\u2033", '"'
)
_BLANKS = dict.fromkeys(
    "\t\v\f\x1c\x1d\x1e\x1f\x85\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"
    "\u2028\u2029\u202f\u205f\u3000",
    " ",
)
_UNSEEN = dict.fromkeys("\ufeff\u200b\u200c\u200d\u2060\xad\u200e\u200f\u061c", "")
_HYPHENS = dict.fromkeys("\u2010\u2011\u2012\u2212\ufe63\uff0d", "-")
_PLAIN = {**_QUOTES, **_BLANKS, **_UNSEEN, **_HYPHENS, "\u2026": "..."}
_LONG_DASHES = "\u2013\u2014\u2015"
_CONTROL = re.compile(f"[{CONTROLS}]")
_ODD = re.compile("[^ -~\xa1-\xac\xae-\u024f]")
_NOTATION_AFTER = re.compile(r"[KQRBN]?[a-h][1-8]|[0-9]|[oO](?![a-z])")


@dataclass(frozen=True, slots=True)
class PhysicalLine:
    """One line as it is read: `indent` as it stands, `text` without it and without trailing blanks.

    `number` counts from 1. `columns` has the source column (from 0) of each character of `text` and one more
    for its end; None where column and index differ only by `start`.
    """

    number: int
    indent: str
    text: str
    start: int
    columns: tuple[int, ...] | None = None

    def column(self, index: int) -> int:
        """The source column, from 1, of this character of `text`."""
        if self.columns is None:
            return self.start + index + 1
        return self.columns[min(max(index, 0), len(self.columns) - 1)] + 1

    @property
    def depth(self) -> int:
        """How far the line is indented, in blanks; a tab goes on to the next multiple of four."""
        width = 0
        for mark in self.indent:
            width = width + 4 - width % 4 if mark == "\t" else width + 1
        return width


@dataclass(frozen=True, slots=True)
class Controls:
    """Characters that have no business in a text, with their place."""

    spot: Spot


def physical_lines(source: str) -> tuple[list[PhysicalLine], list[Controls]]:
    """The lines of a script, forgiven what word processors do, and the control characters left out of them.

    Line ends are LF, CRLF or CR. Tabs and odd blanks become blanks, curly quotes straight ones, an ellipsis
    three dots, and a long dash inside notation ("g2-b7", "0-0") a hyphen; other long dashes stay.
    """
    lines: list[PhysicalLine] = []
    controls: list[Controls] = []
    for number, raw in enumerate(lines_of(source), 1):
        if not _ODD.search(raw):
            text = raw.lstrip(" ")
            start = len(raw) - len(text)
            lines.append(PhysicalLine(number, raw[:start], text.rstrip(" "), start))
        else:
            lines.append(_odd_line(number, raw, controls))
    return lines, controls


def _odd_line(number: int, raw: str, controls: list[Controls]) -> PhysicalLine:
    made: list[str] = []
    columns: list[int] = []
    indent: list[str] = []
    for column, mark in enumerate(raw):
        plain = _PLAIN.get(mark, mark)
        if _CONTROL.match(mark):
            controls.append(Controls(Spot(number, column + 1)))
            plain = " "
        elif mark in _LONG_DASHES:
            tight = column and raw[column - 1] in "0123456789oO" and _NOTATION_AFTER.match(raw, column + 1)
            plain = "-" if tight else mark
        if not made and plain in (" ", ""):
            if plain:
                indent.append("\t" if mark == "\t" else " ")
            continue
        made.append(plain)
        columns.extend([column] * len(plain))
    text = "".join(made).rstrip(" ")
    columns.append(len(raw))
    return PhysicalLine(number, "".join(indent), text, len(indent), tuple(columns))
