"""Games from a PGN file (PGN standard, 1994), one after another, however large the file."""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import chess
import chess.pgn

Watch = Callable[[chess.Board], bool]
"""Whether the position before a move is of interest."""


@dataclass(slots=True)
class Game:
    """One game: the moves of interest, each with the position before it; `why` it is broken, or ""."""

    number: int
    found: list[tuple[str, chess.Move]] = field(default_factory=list)
    why: str = ""


def games_in(path: Path, watch: Watch, progress: Callable[[int, int], None] | None = None) -> Iterator[Game]:
    """Every game of a file, broken ones too. `progress` is told bytes. Raises OSError."""
    total = os.path.getsize(path)
    with open(path, "rb") as data, io.TextIOWrapper(data, encoding="utf-8-sig", errors="replace") as text:
        number = 0
        while True:
            game = Game(number + 1)
            if chess.pgn.read_game(text, Visitor=_visitor(game, watch)) is None:
                return
            number += 1
            if progress is not None and number % 20 == 0:
                progress(data.tell(), total)
            yield game


def _visitor(game: Game, watch: Watch) -> Callable[[], _Walk]:
    return lambda: _Walk(game, watch)


class _Walk(chess.pgn.BaseVisitor[Game]):
    """Walks the moves played; comments and variations are passed over."""

    def __init__(self, game: Game, watch: Watch) -> None:
        self._game = game
        self._watch = watch

    def begin_variation(self) -> Any:
        return chess.pgn.SKIP

    def visit_move(self, board: chess.Board, move: chess.Move) -> None:
        if board.uci_variant != "chess":
            self._game.why = f"it is a game of {board.uci_variant}, not of chess"
        elif not self._game.why and self._watch(board):
            self._game.found.append((board.epd(), move))

    def handle_error(self, error: Exception) -> None:
        self._game.why = self._game.why or " ".join(str(error).split())[:200] or "it cannot be read"

    def result(self) -> Game:
        return self._game
