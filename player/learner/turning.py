"""Positions, moves and words turned into others in which the same thing holds."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

import chess


@dataclass(frozen=True)
class Turning:
    """A way of turning a board: colours changed over, files mirrored, men moved sideways by `shift` files.

    `how` says it in a sentence for the learner.
    """

    colours: bool = False
    files: bool = False
    shift: int = 0
    how: str = ""

    def square(self, square: chess.Square) -> chess.Square | None:
        """Where this square comes to lie; None where it falls off the board."""
        file, rank = chess.square_file(square), chess.square_rank(square)
        if self.colours:
            rank = 7 - rank
        if self.files:
            file = 7 - file
        file += self.shift
        return chess.square(file, rank) if 0 <= file <= 7 else None

    def board(self, board: chess.Board) -> chess.Board | None:
        """The board turned; None where a man falls off it, or where rights to castle would lie."""
        if (self.files or self.shift) and board.castling_rights:
            return None
        made = chess.Board(None)
        for square, man in board.piece_map().items():
            to = self.square(square)
            if to is None:
                return None
            made.set_piece_at(to, chess.Piece(man.piece_type, man.color != self.colours))
        made.turn = board.turn != self.colours
        rights = [self.square(square) for square in chess.scan_forward(board.castling_rights)]
        made.castling_rights = sum(chess.BB_SQUARES[one] for one in rights if one is not None)
        made.ep_square = self.square(board.ep_square) if board.ep_square is not None else None
        made.halfmove_clock, made.fullmove_number = board.halfmove_clock, board.fullmove_number
        return made if made.is_valid() else None

    def move(self, move: chess.Move) -> chess.Move | None:
        """The move turned, or None."""
        start, end = self.square(move.from_square), self.square(move.to_square)
        return None if start is None or end is None else chess.Move(start, end, move.promotion)

    def words(self, text: str) -> str:
        """Words about the board turned with it: squares, moves, files, sides, wings and shades."""
        text = _MOVE.sub(self._move_words, text)
        text = _PAWN_TAKES.sub(
            lambda found: f"{self._file_name(found[1])}x{self._square_name(found[2])}", text
        )
        text = _SQUARE.sub(lambda found: self._square_name(found.group()), text)
        if self.files or self.shift:
            text = _FILE.sub(lambda found: self._file_name(found[1]) + found[2], text)
        if self.colours:
            text = _swapped(text, ("White", "Black"), ("white", "black"))
        if self.files:
            text = _swapped(
                text, ("kingside", "queenside"), ("king's side", "queen's side"), ("left", "right")
            )
        if (self.colours + self.files + self.shift) % 2:
            text = _swapped(text, ("light", "dark"))
        return text

    def _square_name(self, name: str) -> str:
        to = self.square(chess.parse_square(name))
        return name if to is None else chess.square_name(to)

    def _file_name(self, name: str) -> str:
        to = self.square(chess.parse_square(f"{name}1"))
        return name if to is None else chess.FILE_NAMES[chess.square_file(to)]

    def _move_words(self, found: re.Match[str]) -> str:
        man, origin, taking, square = found.groups()
        if origin and (self.files or self.shift) and origin in chess.FILE_NAMES:
            origin = self._file_name(origin)
        elif origin.isdigit() and self.colours:
            origin = str(9 - int(origin))
        return f"{man}{origin}{taking}{self._square_name(square)}"


WAYS = (
    Turning(colours=True, how="The colours are changed over."),
    Turning(files=True, how="The board is mirrored from side to side."),
    Turning(colours=True, files=True, how="The colours are changed over, and the board is mirrored."),
    *(
        Turning(shift=by, how=f"All men stand {_n} to the {side}.")
        for by, _n, side in (
            (1, "one file further", "right"),
            (-1, "one file further", "left"),
            (2, "two files further", "right"),
            (-2, "two files further", "left"),
        )
    ),
    *(
        Turning(
            colours=True, shift=by, how=f"The colours are changed over, and all men stand one file {way}."
        )
        for by, way in ((1, "further right"), (-1, "further left"))
    ),
)

_MOVE = re.compile(r"\b([KQRBN])([a-h1-8]?)(x?)([a-h][1-8])(?![0-9a-z])")
_PAWN_TAKES = re.compile(r"\b([a-h])x([a-h][1-8])(?![0-9])")
_SQUARE = re.compile(r"(?<![A-Za-z0-9])[a-h][1-8](?![0-9A-Za-z])")
_FILE = re.compile(r"\b([a-h])(-(?:pawns?|files?|rooks?)\b)")


def _swapped(text: str, *pairs: tuple[str, str]) -> str:
    other: dict[str, str] = {}
    for one, two in pairs:
        other |= {one: two, two: one}
    words = "|".join(re.escape(word) for word in sorted(other, key=len, reverse=True))
    change: Callable[[re.Match[str]], str] = lambda found: other[found.group()]  # noqa: E731
    return re.sub(rf"\b(?:{words})\b", change, text)
