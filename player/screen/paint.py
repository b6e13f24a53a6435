"""Painting a board into cells: pure, so that every cell of it can be tested without a screen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

import chess

from player.screen.men import QUADRANTS, drawn

Sign = Literal["left", "reached", "square", "rank", "file", "rising", "falling", "from", "hit"]
"""What is signed on a square: a move left or reached it, the coach shows it, a line runs over it in one of
four directions, or a man on it hits another, which is hit."""


LINES: frozenset[Sign] = frozenset(("rank", "file", "rising", "falling"))


@dataclass(frozen=True, slots=True)
class Size:
    """How large a square is, in cells. A shifted board draws its squares' rims in half cells.

    So a man of an odd number of cells stands in the middle of a square of an even number.
    """

    across: int
    down: int
    shift_x: int
    shift_y: int

    @property
    def width(self) -> int:
        """Cells of a whole board across, without what stands outside it."""
        return 8 * self.across + self.shift_x

    @property
    def height(self) -> int:
        return 8 * self.down + self.shift_y


LARGE, MIDDLE, SMALL, TINY = Size(8, 4, 0, 0), Size(6, 3, 1, 0), Size(4, 2, 1, 1), Size(2, 1, 0, 0)
SIZES = (LARGE, MIDDLE, SMALL, TINY)

OUTSIDE_X, OUTSIDE_Y = 2, 1
"""Cells left of the board for the digits, and below it for the letters."""


class Paint(NamedTuple):
    """One cell: a character, and names of colours in a dress for it and for what lies behind it."""

    text: str
    ink: str
    ground: str
    bold: bool = False


# Signs in the sizes with room for one sign on each side of the letter, and in the smallest, with one cell.
PAIRS: dict[Sign, tuple[str, str]] = {
    "left": ("(", ")"),
    "reached": ("[", "]"),
    "square": ("«", "»"),
    "rank": ("-", "-"),
    "file": ("|", "|"),
    "rising": ("/", "/"),
    "falling": ("\\", "\\"),
    "from": ("›", "›"),
    "hit": ("×", "×"),
}
PLAIN_PAIRS: dict[Sign, tuple[str, str]] = {
    **PAIRS, "square": ("<", ">"), "from": (">", ">"), "hit": ("x", "x")
}  # fmt: skip
# Corners of the sizes with room all round: top left, top right, bottom left, bottom right.
CORNERS: dict[Sign, str] = {
    "left": "╭╮╰╯",
    "reached": "┏┓┗┛",
    "square": "╔╗╚╝",
    "rising": " ╱╱ ",
    "falling": "╲  ╲",
    "hit": "╲╱╱╲",
}


@dataclass(frozen=True, slots=True)
class Picture:
    """What a board shows: the men, whose side it is seen from, and a sign on some squares."""

    board: chess.Board
    flip: bool
    signs: dict[int, Sign]


def square_at(column: int, row: int, flip: bool) -> int:
    """The square in this column and row of the picture, both from 0 at the top left."""
    return chess.square(7 - column, row) if flip else chess.square(column, 7 - row)


def place_of(square: int, flip: bool) -> tuple[int, int]:
    """The column and row of a square in the picture."""
    file, rank = chess.square_file(square), chess.square_rank(square)
    return (7 - file, rank) if flip else (file, 7 - rank)


def is_light(square: int) -> bool:
    """Whether a square is one of the light ones, as h1 is."""
    return (chess.square_file(square) + chess.square_rank(square)) % 2 == 1


def ground(square: int) -> str:
    return "paper" if is_light(square) else "slate"


def row_of(
    picture: Picture,
    size: Size,
    y: int,
    start: int = 0,
    stop: int | None = None,
    *,
    bare: bool = False,
    blocks: bool = True,
) -> list[Paint]:
    """The cells of one row of the board from `start` to `stop`, which is the board's width unless given."""
    return [
        _cell(picture, size, x, y, bare, blocks) for x in range(start, size.width if stop is None else stop)
    ]


def inner(size: Size, square: int, flip: bool) -> tuple[int, int, int, int]:
    """Where in the picture a square's own cells lie: x, y, width and height, the shared rims left out."""
    column, row = place_of(square, flip)
    return (
        column * size.across + size.shift_x,
        row * size.down + size.shift_y,
        size.across - size.shift_x,
        size.down - size.shift_y,
    )


def _cell(picture: Picture, size: Size, x: int, y: int, bare: bool, blocks: bool) -> Paint:
    column, dx = divmod(x, size.across)
    row, dy = divmod(y, size.down)
    on_rim_x = bool(size.shift_x) and dx == 0
    on_rim_y = bool(size.shift_y) and dy == 0
    if on_rim_x or on_rim_y:
        return Paint(" ", "ink", "room") if bare else _rim(picture, size, x, y)
    square = square_at(column, row, picture.flip)
    paint = _inside(picture, size, square, dx - size.shift_x, dy - size.shift_y, blocks)
    if bare and paint.text == " " and not is_light(square):
        return paint._replace(text="░" if blocks else ":")
    return paint


def _rim(picture: Picture, size: Size, x: int, y: int) -> Paint:
    """A cell of which the halves or quarters belong to different squares, or to the room outside."""
    four = [_quarter(picture, size, qx, qy) for qy in (2 * y, 2 * y + 1) for qx in (2 * x, 2 * x + 1)]
    if len(set(four)) == 3:
        # A cell has two colours only: at the edge of the board the dark square gets a quarter of the light.
        four = [one if one == "room" else "slate" for one in four]
    first = next((one for one in four if one != "room"), "room")
    second = next((one for one in four if one != first), first)
    return Paint(QUADRANTS[sum(1 << n for n, one in enumerate(four) if one == first)], first, second)


def _quarter(picture: Picture, size: Size, qx: int, qy: int) -> str:
    """Whose a quarter of a cell is, counted in half cells."""
    x, y = qx - size.shift_x, qy - size.shift_y
    if not (0 <= x < 16 * size.across and 0 <= y < 16 * size.down):
        return "room"
    return ground(square_at(x // (2 * size.across), y // (2 * size.down), picture.flip))


def _inside(picture: Picture, size: Size, square: int, x: int, y: int, blocks: bool) -> Paint:
    man = picture.board.piece_at(square)
    sign = picture.signs.get(square)
    below = ground(square)
    if size == TINY:
        return _tiny(man, sign, below, x, blocks)
    if size == SMALL:
        return _small(man, sign, below, x)
    signed = _signed(size, sign, x, y)
    if signed is not None:
        return Paint(signed, "ink", below, True)
    if size == LARGE:
        if man is None:
            return Paint(" ", "ink", below)
        text, behind = drawn(man.piece_type, not man.color)[y][x]
        return Paint(text, "ink", "light" if behind == "body" else below)
    return _counter(man, below, x, y)


def _tiny(man: chess.Piece | None, sign: Sign | None, below: str, x: int, blocks: bool) -> Paint:
    pairs = PAIRS if blocks else PLAIN_PAIRS
    if man is None:
        return Paint(pairs[sign][x], "ink", below, True) if sign else Paint(" ", "ink", below)
    if x:
        return Paint(pairs[sign][1], "ink", below, True) if sign else Paint(" ", "ink", below)
    return _letter(man, below)


def _small(man: chess.Piece | None, sign: Sign | None, below: str, x: int) -> Paint:
    if x == 1:
        if man is not None:
            return _letter(man, below)
        if sign is not None and (sign in LINES or sign == "hit"):
            return Paint(PAIRS[sign][0], "ink", below, True)
        return Paint(" ", "ink", below)
    if sign is not None:
        lone = man is None and sign in LINES and sign != "rank"
        return Paint(" " if lone else PAIRS[sign][0 if x == 0 else 1], "ink", below, True)
    if man is not None and not man.color:
        return Paint("▐" if x == 0 else "▌", "ink", below)
    return Paint(" ", "ink", below)


def _counter(man: chess.Piece | None, below: str, x: int, y: int) -> Paint:
    """A man as a counter of three by three cells, in the middle of five."""
    if man is None or not 0 < x < 4:
        return Paint(" ", "ink", below)
    if (x, y) == (2, 1):
        return _letter(man, below)
    if man.color:
        return Paint(("╭─╮", "│ │", "╰─╯")[y][x - 1], "ink", below)
    return Paint(("▗▄▖", "▐ ▌", "▝▀▘")[y][x - 1], "ink", below)


def _letter(man: chess.Piece, below: str) -> Paint:
    """A man's letter: White's are capitals in ink, Black's small ones on an inked ground, as FEN has them."""
    if man.color:
        return Paint(man.symbol(), "ink", below, True)
    return Paint(man.symbol(), "light", "ink", True)


def _signed(size: Size, sign: Sign | None, x: int, y: int) -> str | None:
    """The sign's character at this cell of a square with room all round, or None."""
    if sign is None:
        return None
    right, bottom = size.across - size.shift_x - 1, size.down - 1
    middle = (bottom + 1) // 2
    if sign == "rank":
        return "─" if x in (0, right) and y == middle else None
    if sign == "file":
        return "│" if x in (0, right) else None
    if sign == "from":
        return "›" if x in (0, right) and y == middle else None
    if x in (0, right) and y in (0, bottom):
        text = CORNERS[sign][(2 if y else 0) + (1 if x else 0)]
        return None if text == " " else text
    return None


def signs_between(start: int, end: int) -> Iterator[tuple[int, Sign]]:
    """The squares of a line, its ends too, with its direction; nothing where the two are not in line."""
    dx = chess.square_file(end) - chess.square_file(start)
    dy = chess.square_rank(end) - chess.square_rank(start)
    if start == end or not (dx == 0 or dy == 0 or abs(dx) == abs(dy)):
        return
    way: Sign = "file" if dx == 0 else "rank" if dy == 0 else "rising" if dx * dy > 0 else "falling"
    for square in (*chess.SquareSet.between(start, end), start, end):
        yield square, way
