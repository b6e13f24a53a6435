"""Reading the files of answers: positions, what is said, and what it must come to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import chess

from player.wording.hearing import Ambiguous, Hearing, Illegal, MoveHeard, NotAMove

FOLDER = Path(__file__).parent / "answers"


@dataclass(frozen=True)
class Answer:
    """One line of a file of answers."""

    file: str
    line: int
    fen: str
    played: tuple[str, ...]
    said: str
    expected: str
    language: str = "en"

    def board(self) -> chess.Board:
        """The position, with the moves that were played."""
        board = chess.Board(self.fen)
        for san in self.played:
            board.push_san(san)
        return board


def answers(name: str) -> Iterator[Answer]:
    """The lines of one file."""
    fen = chess.STARTING_FEN
    played: tuple[str, ...] = ()
    language = "en"
    for number, text in enumerate((FOLDER / name).read_text(encoding="utf-8").split("\n"), start=1):
        if text.startswith("language:"):
            language = text.removeprefix("language:").strip()
        elif text.startswith("@"):
            position, _, moves = text[1:].partition(";")
            fen, played = position.strip(), tuple(moves.split())
        elif "\t" in text:
            expected, said = text.split("\t", 1)
            yield Answer(name, number, fen, played, said, expected, language)


def came_to(board: chess.Board, hearing: Hearing) -> str:
    """What was heard, written as in a file of answers."""
    match hearing:
        case MoveHeard(move):
            return board.san(move)
        case Ambiguous(moves=moves):
            return "? " + " ".join(sorted(board.san(move) for move in moves))
        case Illegal(reason=reason):
            return f"! {reason}"
        case NotAMove():
            return "-"


def right(board: chess.Board, expected: str, hearing: Hearing) -> bool:
    """Whether what was heard is what was expected."""
    got = came_to(board, hearing)
    if expected.startswith("!"):
        return got.startswith("!") and got[2:] in expected[2:].split("/")
    if expected.startswith("?"):
        return got == "? " + " ".join(sorted(expected[2:].split()))
    return got == expected


def misread(board: chess.Board, expected: str, hearing: Hearing) -> bool:
    """Whether a move was taken that was not the one meant: the one thing that may never happen."""
    return isinstance(hearing, MoveHeard) and board.san(hearing.move) != expected
