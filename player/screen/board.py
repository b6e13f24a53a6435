"""The board: drawn line by line in three sizes, both ways up, legible without colour."""

from __future__ import annotations

import chess
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget

from player.facts.place import Place
from player.screen.dress import Dress
from player.script.told import Shown

SIZES = ((6, 3), (4, 2), (2, 1))
"""Cells across and down that one square takes, the largest first."""

WHITE = dict(zip("KQRBNP", "♔♕♖♗♘♙", strict=True))
BLACK = dict(zip("kqrbnp", "♚♛♜♝♞♟", strict=True))


def size_for(width: int, height: int) -> tuple[int, int]:
    """The largest size of a square that leaves the board whole in this room, with its letters and digits."""
    for across, down in SIZES:
        if across * 8 + 2 <= width and down * 8 + 1 <= height:
            return across, down
    return SIZES[-1]


class BoardView(Widget):
    """Shows a place; redraws only the squares that changed."""

    def __init__(self, dress: Dress, *, figures: bool = True) -> None:
        super().__init__()
        self._dress = dress
        self._figures = figures
        self._square = SIZES[-1]
        self._flip = False
        self._board = chess.Board(None)
        self._left: int | None = None
        self._reached: int | None = None
        self._marked: frozenset[int] = frozenset()

    def fit(self, width: int, height: int) -> None:
        """Take the largest size there is room for."""
        self._square = size_for(width, height)
        across, down = self._square
        self.styles.width = across * 8 + 2
        self.styles.height = down * 8 + 1
        self.refresh()

    def show(self, place: Place, move: str | None, flip: bool) -> None:
        """The board now stands so; the squares a move left and reached are signed until the next one."""
        before = [self._cell(square) for square in chess.SQUARES]
        turned = flip != self._flip
        self._board, self._flip, self._marked = place.board(), flip, frozenset()
        known = move is not None and len(move) >= 4
        self._left = chess.parse_square(move[:2]) if known and move else None
        self._reached = chess.parse_square(move[2:4]) if known and move else None
        if turned:
            self.refresh()
            return
        changed = [s for s in chess.SQUARES if self._cell(s) != before[s]]
        if changed:
            self.refresh(*(self._region(square) for square in changed))

    def mark(self, shown: Shown) -> None:
        """Sign these squares; a line is signed at its ends and all between."""
        squares: set[int] = set()
        for mark in shown.marks:
            ends = [chess.parse_square(name) for name in (mark.square, mark.to) if name]
            squares.update(ends)
            if mark.kind == "line" and len(ends) == 2:
                squares.update(chess.SquareSet.between(*ends))
        old, self._marked = self._marked, frozenset(squares)
        changed = old ^ self._marked
        if changed:
            self.refresh(*(self._region(square) for square in changed))

    def _cell(self, square: int) -> tuple[str, str]:
        """The man, and the sign about him: left, reached, marked, or none."""
        piece = self._board.piece_at(square)
        man = piece.symbol() if piece else ""
        if man and self._figures:
            man = WHITE.get(man) or BLACK[man]
        if square in self._marked:
            return man, "<>"
        if square == self._reached:
            return man, "[]"
        return man, "()" if square == self._left else ""

    def _at(self, row: int, column: int) -> int:
        return chess.square(7 - column, row) if self._flip else chess.square(column, 7 - row)

    def _region(self, square: int) -> Region:
        across, down = self._square
        file, rank = chess.square_file(square), chess.square_rank(square)
        column, row = (7 - file, rank) if self._flip else (file, 7 - rank)
        return Region(2 + column * across, row * down, across, down)

    def get_content_width(self, container: Size, viewport: Size) -> int:
        return self._square[0] * 8 + 2

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return self._square[1] * 8 + 1

    def render_line(self, y: int) -> Strip:
        across, down = self._square
        row, inner = divmod(y, down)
        outside = Style.parse(self._dress.outside)
        if row > 8 or (row == 8 and inner):
            return Strip.blank(self.size.width)
        if row == 8:
            files = "hgfedcba" if self._flip else "abcdefgh"
            return Strip([Segment("  " + "".join(f.center(across) for f in files), outside)])
        digit = str(row + 1 if self._flip else 8 - row)
        segments = [Segment(f"{digit} " if inner == down // 2 else "  ", outside)]
        for column in range(8):
            square = self._at(row, column)
            light = (chess.square_file(square) + chess.square_rank(square)) % 2 == 1
            ground = self._dress.light if light else self._dress.dark
            segments.append(Segment(self._text(square, inner == down // 2), Style.parse(ground)))
        return Strip(segments)

    def _text(self, square: int, middle: bool) -> str:
        across = self._square[0]
        if not middle:
            return " " * across
        man, sign = self._cell(square)
        if across == 2:
            return (man or (sign[:1] if sign else " ")) + (sign[1:] if sign else " ")
        left, right = sign[:1] or " ", sign[1:] or " "
        return f"{left}{man or ' '}{right}".center(across)
