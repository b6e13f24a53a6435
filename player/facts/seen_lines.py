"""What can be seen of files, lines and pawns."""

from __future__ import annotations

import chess

from player.facts.claim import Claim
from player.facts.pawns import pawn_state
from player.facts.scene import Scene


def files_without(board: chess.Board, colour: chess.Color | None) -> list[int]:
    """The open files (no pawns), or those half-open for a side (only the other side's pawns)."""
    found = []
    for file in range(8):
        pawns = board.pawns & chess.BB_FILES[file]
        if colour is None:
            if not pawns:
                found.append(file)
        elif pawns and not pawns & board.occupied_co[colour]:
            found.append(file)
    return found


def men_between(board: chess.Board, first: chess.Square, second: chess.Square) -> list[chess.Square] | None:
    """The men strictly between two squares, from the first on; None where they are on no common line."""
    if first == second or not chess.ray(first, second):
        return None
    found = list(chess.SquareSet(chess.between(first, second) & board.occupied))
    return sorted(found, key=lambda square: chess.square_distance(first, square))


def pawns_that_are(board: chess.Board, word: str, colour: chess.Color | None) -> list[chess.Square]:
    """The pawns, of one side or both, that are passed, isolated, doubled or backward."""
    pawns = board.pawns if colour is None else board.pawns & board.occupied_co[colour]
    scene = Scene(board.copy(stack=False))
    return [
        square
        for square in chess.SquareSet(pawns)
        if 8 <= square < 56 and pawn_state(Claim("pawn", square=square, word=word), scene).kind == "true"
    ]


def never_hit_by_pawns(board: chess.Board, square: chess.Square, colour: chess.Color) -> bool:
    """Whether no pawn of a side can ever attack a square by going straight on, blocked or not."""
    ranks = range(square >> 3) if colour else range((square >> 3) + 1, 8)
    beside = [file for file in ((square & 7) - 1, (square & 7) + 1) if 0 <= file <= 7]
    pawns = board.pawns & board.occupied_co[colour]
    return not any(pawns & chess.BB_SQUARES[chess.square(file, rank)] for file in beside for rank in ranks)
