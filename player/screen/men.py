"""The men as small drawings: silhouettes of sixteen by eight dots for a square of eight by four cells.

A dot is half a cell wide and half a cell high, as the quadrant blocks of Unicode have it. Black men are drawn
solid, White's as outlines, so that the sides are told apart without colour.
"""

from __future__ import annotations

from functools import lru_cache

import chess

ACROSS, DOWN = 16, 8
"""Dots of a drawing."""

# '#' belongs to the man; 'x' does too, but is drawn the other way round: a slit, an eye.
SHAPES: dict[int, tuple[str, ...]] = {
    chess.KING: (
        ".......##.......",
        ".....######.....",
        "..####.##.####..",
        "..############..",
        "..############..",
        "...##########...",
        "....########....",
        "...##########...",
    ),
    chess.QUEEN: (
        ".##...####...##.",
        ".##...####...##.",
        "..###.####.###..",
        "..############..",
        "...##########...",
        "....########....",
        "....########....",
        "...##########...",
    ),
    chess.ROOK: (
        "................",
        "..####.##.####..",
        "..############..",
        "...##########...",
        "....########....",
        "....########....",
        "...##########...",
        "..############..",
    ),
    chess.BISHOP: (
        ".......##.......",
        "......####......",
        "....######x#....",
        "...######x###...",
        "...##########...",
        "....########....",
        "......####......",
        "..############..",
    ),
    chess.KNIGHT: (
        "......#..#......",
        ".....#######....",
        "...###x######...",
        ".#############..",
        ".######.######..",
        ".....########...",
        "....########....",
        "...##########...",
    ),
    chess.PAWN: (
        "................",
        "......####......",
        "....########....",
        "....########....",
        "......####......",
        ".....######.....",
        "....########....",
        "...##########...",
    ),
}

QUADRANTS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""By the sum of their dots: 1 top left, 2 top right, 4 bottom left, 8 bottom right."""

Cell = tuple[str, str]
"""A character, and what lies behind it: "ground" of the square or "body" of a man."""


@lru_cache(maxsize=12)
def drawn(kind: int, solid: bool) -> tuple[tuple[Cell, ...], ...]:
    """The rows of cells of a man; None of them knows its colours."""
    dots = [[_dot(kind, x, y, solid) for x in range(ACROSS)] for y in range(DOWN)]
    return tuple(tuple(_cell(dots, x, y) for x in range(0, ACROSS, 2)) for y in range(0, DOWN, 2))


def _dot(kind: int, x: int, y: int, solid: bool) -> str:
    """'#' for ink, 'o' for the body of an outlined man, '.' for the square."""
    here = _at(kind, x, y)
    if here == ".":
        return "."
    if solid:
        return "#" if here == "#" else "."
    edge = any(_at(kind, x + dx, y + dy) == "." for dx, dy in ((-1, 0), (1, 0), (0, -1), (0, 1)))
    return "#" if edge or here == "x" else "o"


def _at(kind: int, x: int, y: int) -> str:
    return SHAPES[kind][y][x] if 0 <= x < ACROSS and 0 <= y < DOWN else "."


def _cell(dots: list[list[str]], x: int, y: int) -> Cell:
    four = (dots[y][x], dots[y][x + 1], dots[y + 1][x], dots[y + 1][x + 1])
    ink = sum(1 << n for n, dot in enumerate(four) if dot == "#")
    body = four.count("o") > four.count(".")
    return QUADRANTS[ink], "body" if body else "ground"
