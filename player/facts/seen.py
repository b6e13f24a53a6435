"""What can be seen of the men on a board: who is loose, who hangs, who is pinned, and whose move it
would be.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from player.facts.attacks import pins
from player.facts.exchange import Nodes, OutOfNodes, profit
from player.facts.place import is_playable


def given_move(board: chess.Board, colour: chess.Color) -> chess.Board | None:
    """A board on which `colour` is to move, or None where it cannot be: no moves here, or a check stands."""
    if not is_playable(board):
        return None
    if board.turn == colour:
        return board.copy()
    if board.is_check():
        return None
    given = board.copy(stack=False)
    given.push(chess.Move.null())
    return given


def unguarded(board: chess.Board, colour: chess.Color) -> chess.SquareSet:
    """The men of a side, its king aside, whose squares no own man attacks."""
    own = chess.SquareSet(board.occupied_co[colour] & ~board.kings)
    return chess.SquareSet([square for square in own if not board.attackers(colour, square)])


def attacked_men(board: chess.Board, colour: chess.Color) -> chess.SquareSet:
    """The men of a side whose squares an enemy man attacks directly, pins ignored."""
    own = chess.SquareSet(board.occupied_co[colour])
    return chess.SquareSet([square for square in own if board.attackers(not colour, square)])


@dataclass(frozen=True, slots=True)
class Hanging:
    """A man that can be taken: by legal captures from these squares, unguarded or at a profit of `gain`
    pawns.

    `gain` is None where it would take too long to tell; then only that it is unguarded is known.
    """

    square: chess.Square
    takers: tuple[chess.Square, ...]
    guarded: bool
    gain: int | None


def hanging(board: chess.Board, colour: chess.Color, nodes: Nodes) -> list[Hanging] | None:
    """The men of a side that could legally be taken, were the other side to move, unguarded or at a profit.

    None where the other side cannot be to move (a check stands, or nobody can move here). A man of whom it
    would     take too long to tell is left out unless it is unguarded.
    """
    given = given_move(board, not colour)
    if given is None:
        return None
    found: list[Hanging] = []
    by_target: dict[chess.Square, list[chess.Move]] = {}
    for move in given.generate_legal_captures():
        passing = given.is_en_passant(move)
        victim = chess.square(move.to_square & 7, move.from_square >> 3) if passing else move.to_square
        by_target.setdefault(victim, []).append(move)
    for target, moves in sorted(by_target.items()):
        guarded = bool(board.attackers(colour, target))
        try:
            gain: int | None = max(profit(given, move, nodes) for move in moves)
        except OutOfNodes:
            gain = None
        if not guarded or (gain is not None and gain >= 1):
            takers = tuple(dict.fromkeys(move.from_square for move in moves))
            found.append(Hanging(target, takers, guarded, gain))
    return found


def pinned_men(board: chess.Board, nodes: Nodes) -> list[tuple[chess.Square, chess.Square, chess.Square]]:
    """Every pinned man with the man that pins it and the man behind it. Raises OutOfNodes."""
    return [
        (square, slider, behind)
        for square in chess.SquareSet(board.occupied & ~board.kings)
        for slider, behind in pins(board, square, nodes)
    ]
