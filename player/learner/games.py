"""Games of a PGN file as lessons in which every move of one side is asked."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import chess
import chess.pgn

from player.world.clean import clean_line
from player.world.files import read_text_forgiving
from player.world.trouble import Trouble


def read_game(file: Path, number: int = 1) -> chess.pgn.Game:
    """The game of this number in a PGN file. Raises OSError, or Trouble where it cannot be had."""
    text = io.StringIO(read_text_forgiving(file))
    game = None
    for _ in range(number):
        game = chess.pgn.read_game(text)
        if game is None:
            break
    if game is None:
        raise Trouble(f"There is no game number {number} in {file.name}.")
    if game.errors and not game.variations:
        raise Trouble(f"Game {number} of {file.name} cannot be read: {clean_line(str(game.errors[0]))}.")
    if not game.variations:
        raise Trouble(f"Game {number} of {file.name} has no moves.")
    if not isinstance(game.board(), chess.Board) or game.board().chess960:
        raise Trouble(f"Game {number} of {file.name} is not played by the usual rules.")
    return game


def games_in(file: Path) -> Iterator[chess.pgn.Game]:
    """The games of a PGN file that follow the usual rules, one by one. Raises OSError or Trouble."""
    text = io.StringIO(read_text_forgiving(file))
    while (game := chess.pgn.read_game(text)) is not None:
        if not game.errors and not game.board().chess960:
            yield game


def game_script(game: chess.pgn.Game, side: Literal["white", "black", "both"]) -> str:
    """A script that tells the game's main line and asks each move of this side."""
    board = game.board()
    white, black = (_name(game.headers.get(one, "")) for one in ("White", "Black"))
    lines = [
        "script: 1",
        f"title: {white or 'White'} against {black or 'Black'}",
        f"side: {side}",
        "",
    ]
    if board.fen() != chess.STARTING_FEN:
        lines += [f"board: {board.fen()}", ""]
    for move in game.mainline_moves():
        asked = side == "both" or board.turn == (side == "white")
        if asked:
            lines += [f"question: What does {'White' if board.turn else 'Black'} play?", ""]
        lines += [f"{{{board.san(move)}}}.", ""]
        board.push(move)
    result = game.headers.get("Result", "*")
    ends = {"1-0": "White won.", "0-1": "Black won.", "1/2-1/2": "It ended in a draw."}
    lines += [ends.get(result, "Here the game breaks off."), ""]
    return "\n".join(lines)


def _name(text: str) -> str:
    """A player's name as it can stand in a title, "" for none."""
    name = clean_line(text).translate(str.maketrans("{}[]\\#", "      ")).strip()
    return "" if set(name) <= {"?", " ", "."} else name[:60]
