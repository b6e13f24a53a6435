"""Positions to try the words on: played at random, thrown together, near promotion, with en passant in the
air.
"""

from __future__ import annotations

import random

import chess

_MEN = (1, 1, 1, 1, 2, 2, 3, 3, 4, 4, 5)


def positions(number: int, seed: int = 1) -> list[chess.Board]:
    """This many positions with a legal move, the same for the same seed; with their move stacks where
    played.
    """
    source = random.Random(seed)
    kinds = (_played, _played, _thrown, _en_passant)
    out: list[chess.Board] = []
    while len(out) < number:
        board = kinds[len(out) % len(kinds)](source)
        if board is not None and board.is_valid() and any(board.legal_moves):
            out.append(board)
    return out


def _played(source: random.Random) -> chess.Board:
    board = chess.Board()
    for _ in range(source.randint(0, 110)):
        moves = list(board.legal_moves)
        if not moves:
            break
        board.push(source.choice(moves))
    if not any(board.legal_moves):
        board.pop()
    return board


def _thrown(source: random.Random) -> chess.Board | None:
    """A few men anywhere, several of a kind, with pawns about to promote."""
    board = chess.Board(None)
    free = list(range(64))
    source.shuffle(free)
    for colour in chess.COLORS:
        board.set_piece_at(free.pop(), chess.Piece(chess.KING, colour))
        for _ in range(source.randint(1, 9)):
            kind, square = source.choice(_MEN), free.pop()
            if kind == chess.PAWN and (square >> 3 in (0, 7) or source.random() < 0.4):
                square = chess.square(square & 7, 6 if colour else 1)
            if board.piece_at(square) is None:
                board.set_piece_at(square, chess.Piece(kind, colour))
    board.turn = source.random() < 0.5
    return board


def _en_passant(source: random.Random) -> chess.Board | None:
    """A position straight after a double step that can be taken in passing."""
    board = _played(source)
    for move in board.legal_moves:
        if (
            board.piece_type_at(move.from_square) == chess.PAWN
            and abs(move.from_square - move.to_square) == 16
        ):
            after = board.copy()
            after.push(move)
            if after.has_legal_en_passant():
                return after
    return None
