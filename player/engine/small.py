"""A small search of the program's own, for where no engine is: it knows men, mates and nothing else.

Full width to a depth of three moves by turns after the move asked about, then captures until they are over.
It sees what is won and lost by force within its depth, and cannot tell one quiet move from another.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import chess

from player.engine.view import View
from player.facts.exchange import Nodes, OutOfNodes, gain_of, settled_between
from player.facts.material import VALUES, value
from player.facts.place import Place

NODES = 15_000
"""Positions looked at for one move; some half a second on a slow machine."""
DEPTHS = (1, 3)
"""Moves by turns after the one asked about; a depth that the budget does not reach is left out."""
_MATE = 1_000
_CHECKED = 2
"""How many checks may be answered past the depth."""

_Line = tuple[chess.Move, ...]


@dataclass(frozen=True, slots=True)
class SmallSearch:
    """Gives the same views for the same question, on every machine."""

    nodes: int = NODES

    @property
    def identity(self) -> str:
        """What its views depend on."""
        return f"built-in {self.nodes} {DEPTHS}"

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]:
        """Its view of each of these legal moves (UCI), all to the same depth.

        Positions that cannot come about in a game are not searched: there are then no views.
        """
        board = place.board()
        wanted = [move for move in map(chess.Move.from_uci, dict.fromkeys(moves)) if board.is_legal(move)]
        if not board.is_valid():
            return {}
        views: dict[str, View] = {}
        for depth in DEPTHS:
            try:
                views = {move.uci(): self._view(board, move, depth) for move in wanted}
            except OutOfNodes:
                break
        return views

    def _view(self, board: chess.Board, move: chess.Move, depth: int) -> View:
        after = board.copy(stack=False)
        after.push(move)
        search = _Search(Nodes(self.nodes))
        worth, line = search.found(after, _balance(after), depth, -_MATE, _MATE, 1, _CHECKED)
        return _view_of(-worth, tuple(one.uci() for one in line))

    def close(self) -> None:
        """Nothing is held."""


def _view_of(worth: int, line: tuple[str, ...]) -> View:
    """`worth` is the mover's; a mate is worth so many half-moves less than `_MATE`, counted from the move."""
    if abs(worth) > _MATE // 2:
        moves = (_MATE - abs(worth) + 1) // 2
        return View(100.0 if worth > 0 else -100.0, moves if worth > 0 else -moves, line)
    return View(float(max(-100, min(100, worth))), 0, line)


class _Search:
    """One search with one budget. Raises OutOfNodes; the board is then as it was."""

    def __init__(self, nodes: Nodes) -> None:
        self._nodes = nodes
        self._good: dict[int, chess.Move] = {}

    def found(
        self, board: chess.Board, balance: int, depth: int, alpha: int, beta: int, ply: int, checks: int
    ) -> tuple[int, _Line]:
        """What the position is worth to the side to move, in pawns, and the line that shows it.

        `balance` is what its men are worth more than the other side's. Exact between `alpha` and `beta`.
        """
        self._nodes.spend()
        in_check = board.is_check()
        if depth == 0 and in_check and checks:
            depth, checks = 1, checks - 1
        if depth == 0:
            return balance + settled_between(board, alpha - balance, beta - balance, self._nodes), ()
        if board.is_insufficient_material():
            return 0, ()
        best, line = -_MATE * 2, tuple[chess.Move, ...]()
        moves = self._ordered(board, ply)
        if not moves:
            return (ply - _MATE if in_check else 0), ()
        for move in moves:
            gain = gain_of(board, move)
            board.push(move)
            try:
                worth, rest = self.found(
                    board, -(balance + gain), depth - 1, -beta, -max(alpha, best), ply + 1, checks
                )
            finally:
                board.pop()
            if -worth > best:
                best, line = -worth, (move, *rest)
            if best >= beta:
                self._good[ply] = move
                break
        return best, line

    def _ordered(self, board: chess.Board, ply: int) -> list[chess.Move]:
        """The legal moves: what takes most with least first, then what was good at this depth elsewhere."""
        good = self._good.get(ply)

        def key(move: chess.Move) -> tuple[int, int]:
            gain = gain_of(board, move)
            man = VALUES[board.piece_type_at(move.from_square) or chess.PAWN]
            return (-gain, man if gain else 0 if move == good else 1)

        return sorted(board.legal_moves, key=key)


def _balance(board: chess.Board) -> int:
    """What the men of the side to move are worth more than the other side's, in pawns."""
    return value(board, board.turn) - value(board, not board.turn)
