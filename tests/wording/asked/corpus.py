"""The questions of corpus.txt with what a true answer to each holds."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import chess

from player.wording.asked import BoardReply

FILE = Path(__file__).with_name("corpus.txt")


@dataclass(frozen=True, slots=True)
class Case:
    """One question, the moves that lead to its board, and what is wanted of the answer."""

    number: int
    words: str
    board: chess.Board
    wanted: str

    @property
    def held_out(self) -> bool:
        return self.number % 3 == 2


def cases() -> Iterator[Case]:
    board, wanted, number = chess.Board(), "", 0
    for line in FILE.read_text(encoding="utf-8").splitlines():
        line = line.strip()
        if not line or line.startswith("#"):
            continue
        if line.startswith("@"):
            fen, _, moves = line[1:].partition(";")
            board = chess.Board() if fen.strip() == "startpos" else chess.Board(fen.strip())
            for san in moves.split():
                board.push_san(san)
        elif line.startswith("="):
            wanted = line[1:].strip()
        else:
            yield Case(number, line, board.copy(), wanted)
            number += 1


def wrong(case: Case, reply: BoardReply | None) -> str:
    """What an answer lacks; "" where it holds all that is wanted."""
    if reply is None:
        return "not understood"
    wanted, text = case.wanted, reply.text.casefold()
    squares = re.search(r"sq: ([a-h][1-8](?: [a-h][1-8])*)$", wanted)
    if squares and {chess.parse_square(one) for one in squares[1].split()} != set(reply.squares):
        return f"squares: {reply}"
    number = re.search(r"n: (\d+)", wanted)
    if number and reply.number != int(number[1]):
        return f"number: {reply}"
    moves = re.search(r"mv: (.*)", wanted)
    if moves and set(moves[1].split()) != {case.board.san(move) for move in reply.moves}:
        return f"moves: {reply}"
    if re.match("yes|no$", wanted) and reply.yes is not (wanted != "no"):
        return f"yes or no: {reply}"
    if wanted == "none" and (reply.squares or reply.moves or reply.number):
        return f"none: {reply}"
    words = re.search(r"has: (.*)", wanted)
    if words and words[1].casefold() not in text:
        return f"words: {reply}"
    if wanted in ("white", "black", "empty") and wanted not in text:
        return f"words: {reply}"
    if (wanted == "unknown") != (reply.standing == "unknown"):
        return f"standing: {reply}"
    return ""
