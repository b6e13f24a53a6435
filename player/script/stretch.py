"""A stretch of text joined from several physical lines, with the way back to where each character stood."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

from player.script.model import Spot
from player.script.physical import PhysicalLine


@dataclass(frozen=True, slots=True)
class Stretch:
    """`text` is made of pieces of lines joined by single blanks.

    `pieces` holds, for each, its offset in `text`, the line, and the index in that line where it begins.
    """

    text: str
    pieces: tuple[tuple[int, PhysicalLine, int], ...]

    def spot(self, start: int, end: int | None = None) -> Spot:
        """Where the characters from `start` to `end` stand in the script, at most to their line's end."""
        number = max(0, bisect_right(self.pieces, start, key=lambda piece: piece[0]) - 1)
        offset, line, index = self.pieces[number]
        limit = self.pieces[number + 1][0] - 1 if number + 1 < len(self.pieces) else len(self.text)
        first = line.column(start - offset + index)
        last = line.column(min(limit if end is None else end, limit) - offset + index)
        return Spot(line.number, first, max(1, last - first))

    def cut(self, start: int, end: int | None = None) -> Stretch:
        """The part from `start` to `end`, without blanks at its ends."""
        stop = len(self.text) if end is None else end
        while start < stop and self.text[start] == " ":
            start += 1
        while stop > start and self.text[stop - 1] == " ":
            stop -= 1
        kept: list[tuple[int, PhysicalLine, int]] = []
        for number, (offset, line, index) in enumerate(self.pieces):
            after = self.pieces[number + 1][0] if number + 1 < len(self.pieces) else len(self.text) + 1
            if after > start and (offset < stop or not kept):
                begin = max(offset, start)
                kept.append((begin - start, line, index + begin - offset))
        return Stretch(self.text[start:stop], tuple(kept))


def joined(pieces: list[tuple[PhysicalLine, int]]) -> Stretch:
    """A stretch of these lines, each from the given index to its end."""
    offset = 0
    texts = []
    made = []
    for line, index in pieces:
        text = line.text[index:]
        texts.append(text)
        made.append((offset, line, index))
        offset += len(text) + 1
    return Stretch(" ".join(texts), tuple(made))
