"""Printing one line after another: cleaned, broken to a width, in letters that the stream has."""

from __future__ import annotations

import textwrap
import unicodedata

from player.world.clean import clean_line
from player.world.world import World

_PLAIN = str.maketrans(
    {
        "\u2018": "'",
        "\u2019": "'",
        "\u201a": ",",
        "\u201c": '"',
        "\u201d": '"',
        "\u201e": '"',
        "\u00ab": '"',
        "\u00bb": '"',
        "\u2010": "-",
        "\u2011": "-",
        "\u2012": "-",
        "\u2013": "-",
        "\u2014": "-",
        "\u2026": "...",
        "\u00a0": " ",
        "\u00d7": "x",
        "\u00bd": "1/2",
        "\u00df": "ss",
        "\u00e6": "ae",
        "\u00f8": "o",
        "\u0153": "oe",
    }
)
_MEN = str.maketrans("\u2654\u2655\u2656\u2657\u2658\u265a\u265b\u265c\u265d\u265e", "KQRBNKQRBN")

NARROWEST = 10
"""A terminal that says it has no more columns than these is not believed."""


class Page:
    """Prints lines of words on a world's output.

    `width` is the most cells a line may take; 0 means what the terminal has at the time, without which there
    is no limit. Characters that the output cannot have become
    the nearest plain ones.
    """

    def __init__(self, world: World, width: int = 0) -> None:
        self._world = world
        self._width = width
        self._prompted = False

    def line(self, who: str, text: str) -> None:
        """Print who speaks and what, over as many lines as the width asks for."""
        said = clean_line(f"{who}: {text}")
        for piece in broken(self._fit(said), self._width or self._columns()):
            self._write(f"{piece}\n")

    def _columns(self) -> int:
        """The terminal's columns but one: some terminals begin a line anew when the last is full."""
        columns = self._world.terminal_size().columns if self._world.stdout_is_terminal else 0
        return columns - 1 if columns > NARROWEST else 0

    def prompt(self) -> None:
        """The mark behind which the learner types; the cursor stays there."""
        self._write("> ")

    def typed(self, text: str) -> None:
        """What came from an input that does not show itself."""
        self._write(f"{self._fit(clean_line(text))}\n")

    def end_prompt(self) -> None:
        """Leave the line of the prompt where nothing was typed."""
        self._write("\n")

    def _fit(self, text: str) -> str:
        return text if self._world.can_show(text) else plain(text)

    def _write(self, text: str) -> None:
        self._world.stdout.write(text)
        self._world.stdout.flush()


def plain(text: str) -> str:
    """The text in ASCII: quotes and dashes as typewriters have them, letters without their accents."""
    text = text.translate(_PLAIN).translate(_MEN)
    bare = unicodedata.normalize("NFKD", text)
    return "".join("" if unicodedata.combining(c) else c if c.isascii() else "?" for c in bare)


def cells(text: str) -> int:
    """How many cells of a terminal the text takes: two for a wide character, none for a combining mark."""
    wide = sum(unicodedata.east_asian_width(c) in "WF" for c in text)
    return len(text) + wide - sum(bool(unicodedata.combining(c)) for c in text)


def broken(text: str, width: int) -> list[str]:
    """The text in lines of at most `width` cells, broken at blanks where there are any; 0 means one line."""
    if width <= 0 or cells(text) <= width:
        return [text]
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        for piece in _pieces(word, width):
            if not line:
                line = piece
            elif cells(line) + 1 + cells(piece) <= width:
                line = f"{line} {piece}"
            else:
                lines.append(line)
                line = piece
    return [*lines, line]


def _pieces(word: str, width: int) -> list[str]:
    """A word, cut where it is longer than a whole line."""
    if cells(word) <= width:
        return [word]
    if cells(word) == len(word):
        return textwrap.wrap(word, width) or [word]
    pieces = [""]
    for character in word:
        if pieces[-1] and cells(pieces[-1] + character) > width:
            pieces.append("")
        pieces[-1] += character
    return pieces
