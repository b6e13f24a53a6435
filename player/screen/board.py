"""The board on the screen: what it shows, how large, and which cells of it to draw anew."""

from __future__ import annotations

from itertools import groupby

import chess
from rich.segment import Segment
from rich.style import Style
from textual.app import ComposeResult
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from player.facts.place import Place
from player.screen.dress import Dress
from player.screen.paint import (
    OUTSIDE_X,
    OUTSIDE_Y,
    TINY,
    Paint,
    Picture,
    Sign,
    Size,
    inner,
    place_of,
    row_of,
    signs_between,
    square_at,
)
from player.script.told import Shown


class Column(Widget):
    """One file of the board with its letter, or the digits left of it.

    A change is written from the left edge of a widget on, so a board in one piece would write most of a row
    for every square.
    """

    can_focus = False

    def __init__(self, board: BoardView, number: int) -> None:
        super().__init__()
        self._board = board
        self._number = number

    def render_line(self, y: int) -> Strip:
        return self._board.strip(self._number, y)


class BoardView(Widget):
    """Shows a place and what is signed on it. A change draws only the squares it touches."""

    can_focus = False
    DEFAULT_CSS = "BoardView { layout: horizontal; } BoardView > Column { height: 100%; }"

    def __init__(self, dress: Dress, *, blocks: bool = True, id: str | None = None) -> None:
        super().__init__(id=id)
        self._dress = dress
        self._blocks = blocks
        self._grid: Size = TINY
        self._picture = Picture(chess.Board(None), False, {})
        self._move: str | None = None
        self._shown: Shown = Shown(())
        self._inks: dict[Paint, Style] = {}
        self._digits = Column(self, -1)
        self._columns = [Column(self, number) for number in range(8)]
        self.fit(TINY)

    def compose(self) -> ComposeResult:
        yield self._digits
        yield from self._columns

    @property
    def square_size(self) -> Size:
        """The size of its squares now."""
        return self._grid

    @property
    def picture(self) -> Picture:
        """What it shows now."""
        return self._picture

    def fit(self, size: Size) -> None:
        """Take this size."""
        if size == self._grid and self.styles.width is not None:
            return
        self._grid = size
        self.styles.width = size.width + OUTSIDE_X
        self.styles.height = size.height + OUTSIDE_Y
        self._digits.styles.width = OUTSIDE_X
        for number, column in enumerate(self._columns):
            column.styles.width = self._span(number)[1] - self._span(number)[0]
        self._draw_all()

    def show(self, place: Place, move: str | None, flip: bool) -> None:
        """The board now stands so; the squares a move left and reached are signed until the next one."""
        self._move = move
        self._change(Picture(chess.Board(place.fen), flip, signs_of(move, self._shown)))

    def mark(self, shown: Shown) -> None:
        """Sign what the coach shows; empty marks take the signs off."""
        self._shown = shown
        before = self._picture
        self._change(Picture(before.board, before.flip, signs_of(self._move, shown)))

    def _change(self, picture: Picture) -> None:
        before, self._picture = self._picture, picture
        if before.flip != picture.flip:
            self._draw_all()
            return
        for square in chess.SQUARES:
            if look(before, square) != look(picture, square):
                x, y, width, height = inner(self._grid, square, picture.flip)
                number = place_of(square, picture.flip)[0]
                self._columns[number].refresh(Region(x - self._span(number)[0], y, width, height))

    def _draw_all(self) -> None:
        for column in (self._digits, *self._columns):
            column.refresh()

    def _span(self, number: int) -> tuple[int, int]:
        """From where to where a column's cells go; the rim at the right edge belongs to the last one."""
        across = self._grid.across
        return number * across, (number + 1) * across + (self._grid.shift_x if number == 7 else 0)

    def strip(self, number: int, y: int) -> Strip:
        """A line of a column, or of the digits (-1)."""
        size = self._grid
        outside = self._ink(Paint(" ", "quiet", "room"))
        if number < 0:
            return Strip([Segment(self._digit(y), outside)])
        start, stop = self._span(number)
        if y >= size.height:
            return Strip([Segment(self._letter(number, stop - start) if y == size.height else "", outside)])
        segments: list[Segment] = []
        cells = row_of(self._picture, size, y, start, stop, bare=self._dress.bare, blocks=self._blocks)
        for style, run in groupby(cells, key=lambda paint: paint._replace(text="")):
            segments.append(Segment("".join(paint.text for paint in run), self._ink(style)))
        return Strip(segments)

    def _digit(self, y: int) -> str:
        size = self._grid
        row, dy = divmod(y, size.down)
        if row > 7 or dy != (size.shift_y or (size.down // 2)):
            return " " * OUTSIDE_X
        return f"{chess.square_rank(square_at(0, row, self._picture.flip)) + 1} "

    def _letter(self, number: int, width: int) -> str:
        size = self._grid
        file = chess.square_file(square_at(number, 0, self._picture.flip))
        middle = size.shift_x + (size.across - size.shift_x - 1) // 2
        return (" " * middle + chess.FILE_NAMES[file]).ljust(width)

    def _ink(self, paint: Paint) -> Style:
        key = paint._replace(text="")
        if key not in self._inks:
            ink, ground = getattr(self._dress, paint.ink), getattr(self._dress, paint.ground)
            solid = self._dress.bare and paint.ground == "ink"
            self._inks[key] = Style(color=ink, bgcolor=ground, bold=paint.bold or None, reverse=solid or None)
        return self._inks[key]


def look(picture: Picture, square: int) -> tuple[chess.Piece | None, Sign | None]:
    """Everything that a square's cells depend on."""
    return picture.board.piece_at(square), picture.signs.get(square)


def signs_of(move: str | None, shown: Shown) -> dict[int, Sign]:
    """The sign on each square: of the move made just now, and over it what the coach shows."""
    signs: dict[int, Sign] = {}
    if move is not None and len(move) >= 4 and move[:2] != move[2:4]:
        signs[chess.parse_square(move[:2])] = "left"
        signs[chess.parse_square(move[2:4])] = "reached"
    for mark in shown.marks:
        start = chess.parse_square(mark.square)
        end = chess.parse_square(mark.to) if mark.to else None
        if mark.kind == "line" and end is not None:
            signs.update(signs_between(start, end))
        elif mark.kind == "hit" and end is not None:
            signs[start], signs[end] = "from", "hit"
        else:
            signs[start] = "square"
    return signs
