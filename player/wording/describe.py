"""A position in words: in one breath, man by man, round a square, along a line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import chess

from player.facts.material import surplus, value
from player.wording.changes import changed
from player.wording.examine import examine, where
from player.wording.languages import language as language_of
from player.wording.names import colour_name, listed, name, with_article
from player.wording.places import line_in, square_in
from player.wording.say import Naming, square_said

Depth = Literal["gist", "pieces", "whole", "around", "line", "square"]

__all__ = ["Depth", "changed", "describe", "examine", "where"]

At = Callable[[chess.Square], str]

_GIST_WORDS = 20
_ORDER = (chess.KING, chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT, chess.PAWN)
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")
_ROUND = ((0, 1), (1, 1), (1, 0), (1, -1), (0, -1), (-1, -1), (-1, 0), (-1, 1))


def describe(
    board: chess.Board, depth: Depth, *, about: str = "", language: str = "en", naming: Naming = "letters"
) -> str:
    """The position in plain English.

    "gist" is at most twenty words; "pieces" names every man, kings first; "whole" says the material
    before that; "square" says what stands on the
    square `about`, "around" what stands next to it, "line" what stands along `about` ("the e-file", "rank 4",
    "g2-b7"). Where `about` names no such place the answer says what to name. `language` gives the words for
    squares only.
    """
    words = language_of(language)

    def at(square: chess.Square) -> str:
        return square_said(square, "short", naming, words)

    if depth == "gist":
        return _gist(board, at)
    if depth == "pieces":
        return _pieces(board, at)
    if depth == "whole":
        return f"{_material(board, _GIST_WORDS)} {_pieces(board, at)}"
    if depth == "line":
        line = line_in(about, words)
        return _line(board, line, at) if line else "Name a line, such as the e-file, rank 4, or g2 to b7."
    square = square_in(about, words)
    if square is None:
        return "Name a square, such as f3."
    if depth == "square":
        return _square(board, square, at)
    return _around(board, square, at)


def _gist(board: chess.Board, at: At) -> str:
    turn, kings = _turn(board), _kings(board, at)
    room = _GIST_WORDS - len(turn.split()) - len(kings.split())
    return f"{turn} {_material(board, room)} {kings}"


def _turn(board: chess.Board) -> str:
    side = colour_name(board.turn)
    if board.king(board.turn) is not None and board.is_valid():
        if board.is_checkmate():
            return f"Checkmate; {colour_name(not board.turn)} has won."
        if board.is_stalemate():
            return f"{side} is stalemated."
        if board.is_check():
            return f"{side} to move, in check."
    return f"{side} to move."


def _material(board: chess.Board, room: int) -> str:
    """Who has more, in at most `room` words (five are always enough)."""
    if not board.occupied:
        return "The board is empty."
    total = chess.popcount(board.occupied)
    over = surplus(board)
    if not over:
        return f"Material is equal, {total} men."
    white = [(kind, number) for kind, number in over.items() if number > 0]
    black = [(kind, -number) for kind, number in over.items() if number < 0]
    if not black or not white:
        side, more = ("White", white) if white else ("Black", black)
        text = f"{side} is up {listed([_some(kind, number) for kind, number in reversed(more)])}."
        return (
            text if len(text.split()) <= room else f"{side} has {sum(number for _, number in more)} men more."
        )
    ours = listed([_some(kind, number) for kind, number in reversed(white)])
    theirs = listed([_some(kind, number) for kind, number in reversed(black)])
    ahead = value(board, chess.WHITE) >= value(board, chess.BLACK)
    text = f"White has {ours} for {theirs}." if ahead else f"Black has {theirs} for {ours}."
    return text if len(text.split()) <= room else f"Material is uneven, {total} men."


def _some(kind: chess.PieceType, number: int) -> str:
    return with_article(kind) if number == 1 else f"{_count(number)} {name(kind)}s"


def _count(number: int) -> str:
    return _NUMBERS[number] if number < len(_NUMBERS) else str(number)


def _kings(board: chess.Board, at: At) -> str:
    """Where the kings are, in at most six words."""
    white, black = board.king(chess.WHITE), board.king(chess.BLACK)
    if white is None and black is None:
        return "No kings."
    if white is None or black is None:
        there = black if white is None else white
        assert there is not None
        return f"Only a {'black' if white is None else 'white'} king, {at(there)}."
    return f"Kings {at(white)} and {at(black)}."


def _pieces(board: chess.Board, at: At) -> str:
    sides = []
    for colour in chess.COLORS:
        parts = []
        for kind in _ORDER:
            squares = list(board.pieces(kind, colour))
            if squares:
                plural = "s" if len(squares) > 1 else ""
                parts.append(f"{name(kind)}{plural} {', '.join(at(square) for square in squares)}")
        sides.append(
            f"{colour_name(colour)}: {'; '.join(parts)}." if parts else f"{colour_name(colour)} has no men."
        )
    return " ".join([*sides, _turn(board)])


def _man(board: chess.Board, square: chess.Square) -> str:
    """Who stands on a square: "white knight"; "nobody" where it is empty."""
    piece = board.piece_at(square)
    return "nobody" if piece is None else f"{'white' if piece.color else 'black'} {name(piece.piece_type)}"


def _square(board: chess.Board, square: chess.Square, at: At) -> str:
    shade = "light" if chess.BB_LIGHT_SQUARES & chess.BB_SQUARES[square] else "dark"
    piece = board.piece_at(square)
    if piece is None:
        return f"{at(square)}, a {shade} square, is empty."
    return f"On {at(square)}, a {shade} square, stands a {_man(board, square)}."


def _around(board: chess.Board, square: chess.Square, at: At) -> str:
    """The eight neighbours: the men first, clockwise from above as White sees the board, then the empty
    squares.
    """
    men, empty = [], []
    file, rank = chess.square_file(square), chess.square_rank(square)
    for across, along in _ROUND:
        if 0 <= file + across <= 7 and 0 <= rank + along <= 7:
            near = chess.square(file + across, rank + along)
            if board.piece_at(near):
                men.append(f"{_man(board, near)} {at(near)}")
            else:
                empty.append(at(near))
    parts = [_square(board, square, at)]
    if men:
        parts.append(f"Next to it: {', '.join(men)}.")
    if empty:
        parts.append(f"Empty: {', '.join(empty)}." if men else "All the squares next to it are empty.")
    return " ".join(parts)


def _line(board: chess.Board, line: list[chess.Square], at: At) -> str:
    ends = f"From {at(line[0])} to {at(line[-1])}"
    men = [f"{_man(board, square)} {at(square)}" for square in line if board.piece_at(square)]
    if not men:
        return f"{ends} the line is empty."
    return f"{ends}: {', '.join(men)}."
