"""The board on the screen: what it shows, how large, and which cells of it to draw anew."""

from __future__ import annotations

import chess
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.geometry import Size as Room
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
    row_of,
    signs_between,
    square_at,
)
from player.script.told import Shown


class BoardView(Widget):
    """Shows a place and what is signed on it. A change draws only the squares it touches."""

    can_focus = False

    def __init__(self, dress: Dress, *, blocks: bool = True, id: str | None = None) -> None:
        super().__init__(id=id)
        self._dress = dress
        self._blocks = blocks
        self._grid: Size = TINY
        self._picture = Picture(chess.Board(None), False, {})
        self._move: str | None = None
        self._shown: Shown = Shown(())
        self._looks: dict[Paint, Style] = {}

    @property
    def square_size(self) -> Size:
        """The size of its squares now."""
        return self._grid

    @property
    def picture(self) -> Picture:
        """What it shows now."""
        return self._picture

    def wear(self, dress: Dress) -> None:
        """Change the dress."""
        self._dress = dress
        self._looks.clear()
        self.refresh()

    def fit(self, size: Size) -> None:
        """Take this size."""
        if size != self._grid or self.styles.width is None:
            self._grid = size
            self.styles.width = size.width + OUTSIDE_X
            self.styles.height = size.height + OUTSIDE_Y
            self.refresh(layout=True)

    def show(self, place: Place, move: str | None, flip: bool) -> None:
        """The board now stands so; the squares a move left and reached are signed until the next one."""
        self._move = move
        self._redraw(place.board(), flip)

    def mark(self, shown: Shown) -> None:
        """Sign what the coach shows; empty marks take the signs off."""
        self._shown = shown
        self._redraw(self._picture.board, self._picture.flip)

    def _redraw(self, board: chess.Board, flip: bool) -> None:
        before = self._picture
        self._picture = Picture(board, flip, signs_of(self._move, self._shown))
        if before.flip != flip:
            self.refresh()
            return
        changed = [square for square in chess.SQUARES if look(before, square) != look(self._picture, square)]
        if changed:
            self.refresh(*(self.region_of(square) for square in changed))

    def region_of(self, square: int) -> Region:
        """The cells of this widget that are the square's own."""
        x, y, width, height = inner(self._grid, square, self._picture.flip)
        return Region(OUTSIDE_X + x, y, width, height)

    def get_content_width(self, container: Room, viewport: Room) -> int:
        return self._grid.width + OUTSIDE_X

    def get_content_height(self, container: Room, viewport: Room, width: int) -> int:
        return self._grid.height + OUTSIDE_Y

    def render_line(self, y: int) -> Strip:
        size = self._grid
        if y > size.height:
            return Strip.blank(self.size.width)
        if y == size.height:
            return Strip([Segment(self._letters(), self._style(Paint(" ", "quiet", "room")))])
        outside = self._style(Paint(" ", "quiet", "room"))
        segments = [Segment(self._digit(y), outside)]
        text, last = "", None
        for paint in row_of(self._picture, size, y, bare=self._dress.bare, blocks=self._blocks):
            style = paint._replace(text="")
            if last is not None and style != last:
                segments.append(Segment(text, self._style(last)))
                text = ""
            text, last = text + paint.text, style
        if last is not None:
            segments.append(Segment(text, self._style(last)))
        return Strip(segments)

    def _digit(self, y: int) -> str:
        size = self._grid
        row, dy = divmod(y, size.down)
        if row > 7 or dy != (size.shift_y or (size.down // 2)):
            return " " * OUTSIDE_X
        return f"{chess.square_rank(square_at(0, row, self._picture.flip)) + 1} "

    def _letters(self) -> str:
        size = self._grid
        cells = [" "] * (OUTSIDE_X + size.width)
        for column in range(8):
            middle = size.shift_x + (size.across - size.shift_x - 1) // 2
            file = chess.square_file(square_at(column, 0, self._picture.flip))
            cells[OUTSIDE_X + column * size.across + middle] = chess.FILE_NAMES[file]
        return "".join(cells)

    def _style(self, paint: Paint) -> Style:
        key = paint._replace(text="")
        if key not in self._looks:
            ink, ground = getattr(self._dress, paint.ink), getattr(self._dress, paint.ground)
            solid = self._dress.bare and paint.ground == "ink"
            self._looks[key] = Style(
                color=ink, bgcolor=ground, bold=paint.bold or None, reverse=solid or None
            )
        return self._looks[key]


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
