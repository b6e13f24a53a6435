"""What can come of hearing an answer: a move, a question, an illegality, or no move at all."""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess

REASONS = (
    "no-such-piece",
    "not-your-turn",
    "own-piece",
    "blocked",
    "wrong-movement",
    "pinned",
    "leaves-king-in-check",
    "no-capture-there",
    "must-promote",
    "no-castling-right",
    "castling-through-check",
    "castling-out-of-check",
    "off-board",
)


@dataclass(frozen=True, slots=True)
class MoveHeard:
    """Exactly one legal move was meant."""

    move: chess.Move


@dataclass(frozen=True, slots=True)
class Ambiguous:
    """Several legal moves fit.

    `question` asks which; `words` are the one-word answers, parallel to `moves`. In a script's brace `at` is
    the number, from 0, of the move in question and `fen` the position in which it stands.
    """

    moves: tuple[chess.Move, ...]
    question: str
    words: tuple[str, ...]
    at: int = 0
    fen: str = ""

    def sans(self) -> tuple[str, ...]:
        """The moves in notation, where `fen` is known."""
        board = chess.Board(self.fen)
        return tuple(board.san(move) for move in self.moves)


@dataclass(frozen=True, slots=True)
class Illegal:
    """A move was understood, and the rules forbid it.

    `reason` is one of `REASONS`, `sentence` says what stops it, `move` is the move meant where it is known.
    `at` and `fen` are as in `Ambiguous`.
    """

    reason: str
    sentence: str
    move: chess.Move | None = None
    at: int = 0
    fen: str = ""


@dataclass(frozen=True, slots=True)
class NotAMove:
    """No move was understood; `near` is the nearest verb of the list that was given, if one is near.

    `points` tells that the sentence says how to put what was probably meant.
    """

    sentence: str
    near: str | None = None
    at: int = 0
    fen: str = ""
    points: bool = False


Hearing = MoveHeard | Ambiguous | Illegal | NotAMove


def placed(
    hearing: Ambiguous | Illegal | NotAMove, at: int, board: chess.Board
) -> Ambiguous | Illegal | NotAMove:
    """The same hearing, saying at which of several moves, and in which position, it arose."""
    return replace(hearing, at=at, fen=board.fen())
