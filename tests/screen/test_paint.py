"""The painted board: every size shows every man and every sign without help from colour."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from player.screen.men import ACROSS, DOWN, SHAPES, drawn
from player.screen.paint import (
    SIZES,
    TINY,
    Paint,
    Picture,
    Sign,
    Size,
    inner,
    is_light,
    row_of,
    signs_between,
    square_at,
)

SIGNS: tuple[Sign, ...] = ("left", "reached", "square", "rank", "file", "rising", "falling", "from", "hit")


def cells(picture: Picture, size: Size, square: int, *, blocks: bool = True) -> list[Paint]:
    """A square's own cells, row by row."""
    x, y, width, height = inner(size, square, picture.flip)
    return [
        cell
        for row in range(y, y + height)
        for cell in row_of(picture, size, row, blocks=blocks)[x : x + width]
    ]


def shape(painted: list[Paint]) -> tuple[tuple[str, bool], ...]:
    """What is left of cells without their colours: characters, and which are reversed."""
    return tuple((cell.text, cell.ground == "ink") for cell in painted)


def alone(square: int, man: str, sign: Sign | None = None, *, flip: bool = False) -> Picture:
    board = chess.Board(None)
    if man:
        board.set_piece_at(square, chess.Piece.from_symbol(man))
    return Picture(board, flip, {square: sign} if sign else {})


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("square", [chess.A1, chess.B1])
def test_twelve_men_and_an_empty_square_differ_without_colour(size: Size, square: int) -> None:
    shapes = {shape(cells(alone(square, man), size, square)) for man in ["", *"KQRBNPkqrbnp"]}
    assert len(shapes) == 13


@pytest.mark.parametrize("size", SIZES[:3])
@pytest.mark.parametrize("man", ["", "N", "n"])
def test_every_sign_differs_from_every_other_and_from_none(size: Size, man: str) -> None:
    shapes = {shape(cells(alone(chess.E4, man, sign), size, chess.E4)) for sign in [None, *SIGNS]}
    assert len(shapes) == 10


@pytest.mark.parametrize("blocks", [True, False])
@pytest.mark.parametrize("man", ["", "N", "n"])
def test_the_smallest_board_has_a_sign_for_each(man: str, blocks: bool) -> None:
    shapes = {
        shape(cells(alone(chess.E4, man, sign), TINY, chess.E4, blocks=blocks)) for sign in [None, *SIGNS]
    }
    assert len(shapes) >= (9 if blocks or not man else 8)


@pytest.mark.parametrize("size", SIZES)
def test_a_sign_leaves_the_man_readable(size: Size) -> None:
    for sign in SIGNS:
        plain = cells(alone(chess.E4, "N"), size, chess.E4)
        signed = cells(alone(chess.E4, "N", sign), size, chess.E4)
        kept = sum(one == other for one, other in zip(plain, signed, strict=True))
        assert kept >= len(plain) // 3
        if size != SIZES[0]:
            assert "N" in "".join(cell.text for cell in signed)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("flip", [False, True])
def test_every_row_has_the_board_s_width(size: Size, flip: bool) -> None:
    picture = Picture(chess.Board(), flip, {})
    for y in range(size.height):
        assert len(row_of(picture, size, y)) == size.width


@pytest.mark.parametrize("size", SIZES)
@given(square=st.sampled_from(chess.SQUARES), flip=st.booleans())
def test_a_square_s_cells_have_its_colour_and_no_other_s(size: Size, square: int, flip: bool) -> None:
    empty = cells(alone(square, "", flip=flip), size, square)
    assert {cell.ground for cell in empty} == {"paper" if is_light(square) else "slate"}


@pytest.mark.parametrize("size", SIZES)
@settings(max_examples=12)
@given(square=st.sampled_from(chess.SQUARES), flip=st.booleans())
def test_a_man_changes_no_cell_outside_his_square(size: Size, square: int, flip: bool) -> None:
    empty, full = alone(square, "", flip=flip), alone(square, "q", "hit", flip=flip)
    x, y, width, height = inner(size, square, flip)
    for row in range(size.height):
        for column, (one, other) in enumerate(
            zip(row_of(empty, size, row), row_of(full, size, row), strict=True)
        ):
            inside = x <= column < x + width and y <= row < y + height
            assert inside or one == other


def test_white_s_h1_is_light_and_stands_bottom_right() -> None:
    # FIDE Laws of Chess, article 2.1: the near corner square to the right of the player is white.
    assert is_light(chess.H1)
    assert square_at(7, 7, False) == chess.H1
    assert square_at(7, 7, True) == chess.A8
    assert is_light(chess.A8)


@given(start=st.sampled_from(chess.SQUARES), end=st.sampled_from(chess.SQUARES))
def test_a_line_has_its_ends_and_all_between(start: int, end: int) -> None:
    signs = dict(signs_between(start, end))
    ray = chess.SquareSet.ray(start, end)
    if start == end or not ray:
        assert not signs
    else:
        assert set(signs) == set(chess.SquareSet.between(start, end)) | {start, end}
        assert len(set(signs.values())) == 1


@pytest.mark.parametrize(
    ("start", "end", "sign"),
    [
        ("g2", "b7", "falling"),
        ("a1", "h8", "rising"),
        ("h8", "a1", "rising"),
        ("e1", "e8", "file"),
        ("a4", "h4", "rank"),
    ],
)
def test_a_line_knows_its_way(start: str, end: str, sign: Sign) -> None:
    assert set(dict(signs_between(chess.parse_square(start), chess.parse_square(end))).values()) == {sign}


@pytest.mark.parametrize("size", SIZES)
def test_without_colour_dark_squares_are_hatched(size: Size) -> None:
    picture = Picture(chess.Board(None), False, {})
    for square in chess.SQUARES:
        x, y, width, _ = inner(size, square, False)
        text = "".join(cell.text for cell in row_of(picture, size, y, bare=True)[x : x + width])
        assert text == (" " if is_light(square) else "░") * width


def test_plain_letters_serve_an_output_without_blocks() -> None:
    picture = Picture(chess.Board(), False, {chess.E4: "hit", chess.E2: "square", chess.D4: "from"})
    for y in range(TINY.height):
        assert all(cell.text.isascii() for cell in row_of(picture, TINY, y, blocks=False, bare=True))


def test_the_drawings_fill_a_square_and_no_more() -> None:
    assert set(SHAPES) == set(chess.PIECE_TYPES)
    for kind, rows in SHAPES.items():
        assert len(rows) == DOWN
        assert all(len(row) == ACROSS for row in rows)
        for solid in (False, True):
            assert [len(row) for row in drawn(kind, solid)] == [ACROSS // 2] * (DOWN // 2)


@pytest.mark.parametrize("kind", chess.PIECE_TYPES)
def test_a_black_man_has_more_ink_than_a_white_one(kind: int) -> None:
    def ink(solid: bool) -> int:
        weights = {" ": 0, "█": 4, "▘": 1, "▝": 1, "▖": 1, "▗": 1, "▛": 3, "▜": 3, "▙": 3, "▟": 3}
        return sum(weights.get(text, 2) for row in drawn(kind, solid) for text, _ in row)

    assert ink(True) > 1.25 * ink(False)
