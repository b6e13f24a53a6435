"""The one capture routine: what best play of captures, with the right to stop, makes of a position."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from player.facts.material import VALUES

BUDGET = 4_000


class OutOfNodes(Exception):
    """The budget of positions to look at is used up: nothing is proved either way."""


@dataclass(slots=True)
class Nodes:
    """How many positions may still be looked at. Several searches may share one budget."""

    left: int = BUDGET

    def spend(self) -> None:
        """Count one position. Raises OutOfNodes when there is none left."""
        self.left -= 1
        if self.left < 0:
            raise OutOfNodes


def gain_of(board: chess.Board, move: chess.Move) -> int:
    """What a move wins at once, in pawns: the man taken, and what a promoted pawn has gained."""
    gain = 0
    if board.is_en_passant(move):
        gain = VALUES[chess.PAWN]
    elif board.is_capture(move):
        gain = VALUES[board.piece_type_at(move.to_square) or chess.PAWN]
    return gain + (VALUES[move.promotion] - 1 if move.promotion else 0)


def best_gain(board: chess.Board, budget: int = BUDGET) -> int | None:
    """What the side to move wins by captures, in pawns, when both sides capture as best they can or stop.

    Values 1 3 3 5 9; a capture that promotes gains that too, any other promotion is no capture, and a side in
    check may stop too.
    None where the budget of nodes ran out.
    """
    try:
        return settled(board, Nodes(budget))
    except OutOfNodes:
        return None


def settled(board: chess.Board, nodes: Nodes) -> int:
    """`best_gain` with a shared budget. Raises OutOfNodes; the board is then as it was."""
    return _search(board, 0, 99, nodes)


def settled_between(board: chess.Board, low: int, high: int, nodes: Nodes) -> int:
    """`settled`, exact only strictly between `low` and `high`, and quicker; else at or past the nearer bound.

    What is at most `low` may come out as `low` (or 0, where that is more). Raises OutOfNodes.
    """
    return _search(board, low, high, nodes)


def profit(board: chess.Board, move: chess.Move, nodes: Nodes) -> int:
    """What a legal move wins once the captures after it are played out, in pawns. Raises OutOfNodes."""
    gain = gain_of(board, move)
    board.push(move)
    try:
        return gain - settled(board, nodes)
    finally:
        board.pop()


def gains(board: chess.Board, least: int, nodes: Nodes) -> bool:
    """Whether the side to move wins `least` pawns' worth or more, sooner told than all it wins."""
    return least <= 0 or _search(board, least - 1, least, nodes) >= least


def pays(board: chess.Board, move: chess.Move, nodes: Nodes) -> bool:
    """Whether a legal move wins something once the captures after it are played out. Raises OutOfNodes."""
    gain = gain_of(board, move)
    if gain <= 0:
        return False
    board.push(move)
    try:
        return not gains(board, gain, nodes)
    finally:
        board.pop()


def _search(board: chess.Board, alpha: int, beta: int, nodes: Nodes) -> int:
    """Fail-hard search over the legal captures; standing still is worth 0."""
    nodes.spend()
    best = max(0, alpha)
    if best >= beta:
        return best
    moves = [
        (gain_of(board, move), -VALUES[board.piece_type_at(move.from_square) or chess.PAWN], move)
        for move in board.generate_legal_captures()
    ]
    # The most that can be taken first, by the man of least worth; the king, worth most, last of all.
    moves.sort(key=lambda entry: (-entry[0], -entry[1] or 99))
    for gain, _, move in moves:
        if gain <= best:
            break
        board.push(move)
        try:
            value = gain - _search(board, gain - beta, gain - best, nodes)
        finally:
            board.pop()
        if value > best:
            best = value
            if best >= beta:
                break
    return best
