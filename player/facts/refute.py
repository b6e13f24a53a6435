"""Whether a loss of material stands: looked for among all replies a few moves deep, with captures after them.

More than captures alone: a loss that a mate, a check or a double attack makes good again does not stand.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from player.facts.exchange import Nodes, OutOfNodes, gain_of, profit, settled
from player.facts.mates import forced_mate
from player.facts.seen_moves import forks, mates

BUDGET = 15_000


@dataclass(frozen=True, slots=True)
class Refuted:
    """The first move of the other side against a move: it mates in `mate` moves, or wins `loss` pawns' worth.

    That much is what a short look proves; a longer one may win some of it back. With `met` it only seems to:
    by captures alone it wins, but it stands no closer look.
    """

    reply: chess.Move
    mate: int = 0
    loss: int = 0
    met: bool = False


def refutation(board: chess.Board, move: chess.Move, nodes: Nodes | None = None) -> Refuted | None:
    """What there is against a legal move: a mate in one or two, or a loss that stands. Raises OutOfNodes.

    A loss is counted from the material now on the board, this move's own gain included.
    """
    nodes = nodes or Nodes(BUDGET)
    after = board.copy(stack=False)
    after.push(move)
    found = mates(after)
    if found:
        return Refuted(found[0], mate=1)
    gained = gain_of(board, move)
    winning = _winning(after, gained, nodes)
    met: Refuted | None = None
    for reply, loss in winning[:3]:
        stands = _worst(after, reply, gained, loss, nodes)
        if stands:
            return Refuted(reply, loss=stands)
        met = met or Refuted(reply, loss=loss, met=True)
    forced = _mate_in_two(after)
    if forced is not None:
        return Refuted(forced, mate=2)
    if not winning:
        for reply, _ in forks(after)[:3]:
            loss = _stands(after, reply, gained, 1, nodes, 1)
            if loss:
                return Refuted(reply, loss=1)
    return met


def _mate_in_two(board: chess.Board) -> chess.Move | None:
    """A mate in two where one is found soon; None may also be for want of looking."""
    try:
        return forced_mate(board.copy(stack=False), 2, Nodes(2_500))
    except OutOfNodes:
        return None


def _winning(after: chess.Board, gained: int, nodes: Nodes) -> list[tuple[chess.Move, int]]:
    """Captures and promotions that by captures alone leave the mover with less than before, most first."""
    found = []
    for reply in list(after.legal_moves):
        if gain_of(after, reply):
            loss = profit(after, reply, nodes) - gained
            if loss >= 1:
                found.append((reply, loss))
    return sorted(found, key=lambda one: (-one[1], one[0].to_square, one[0].from_square))


def _worst(after: chess.Board, reply: chess.Move, gained: int, loss: int, nodes: Nodes) -> int:
    """The most that is proved lost to a reply: all of it, or a pawn's worth; 0 where nothing is."""
    for need in dict.fromkeys((loss, 3 if loss > 3 else 1, 1)):
        if _stands(after, reply, gained, need, nodes, 2):
            return need
    return 0


def _stands(after: chess.Board, reply: chess.Move, gained: int, need: int, nodes: Nodes, depth: int) -> bool:
    board = after.copy(stack=False)
    lost = gained - gain_of(board, reply)
    board.push(reply)
    return kept(board, lost, need, depth, nodes)


def kept(board: chess.Board, balance: int, need: int, depth: int, nodes: Nodes) -> bool:
    """Whether the side to move ends at least `need` down, whatever it plays; `balance` is where it is now.

    `depth` counts its own moves that are all tried; then only captures, and mates in one, are. Raises
    OutOfNodes.
    """
    nodes.spend()
    if depth < 2 and balance < 0 and balance + settled(board, nodes) > -need:
        return False
    if mates(board):
        return False
    if not depth:
        return balance + settled(board, nodes) <= -need
    moves = list(board.legal_moves)
    if not moves:
        return board.is_check()
    moves.sort(key=lambda one: (-gain_of(board, one), not board.gives_check(one)))
    last: chess.Move | None = None
    for move in moves:
        gain = balance + gain_of(board, move)
        board.push(move)
        try:
            answer = _answer(board, gain, need, depth, nodes, last)
        finally:
            board.pop()
        if answer is None:
            return False
        last = answer
    return True


def _answer(
    board: chess.Board, balance: int, need: int, depth: int, nodes: Nodes, first: chess.Move | None
) -> chess.Move | None:
    """An answer that keeps what was won, or None."""
    moves = list(board.legal_moves)
    moves.sort(key=lambda one: (one != first, -gain_of(board, one), not board.gives_check(one)))
    for move in moves:
        # What only stands by cannot be kept by standing by once more than `need` would have to be taken.
        if balance - gain_of(board, move) > -need and depth < 2:
            continue
        left = balance - gain_of(board, move)
        board.push(move)
        try:
            if kept(board, left, need, depth - 1, nodes):
                return move
        finally:
            board.pop()
    return None


def win_stands(board: chess.Board, move: chess.Move, need: int, nodes: Nodes) -> bool:
    """Whether a move wins `need` pawns' worth, whatever the other side tries. Raises OutOfNodes."""
    after = board.copy(stack=False)
    gained = gain_of(board, move)
    after.push(move)
    return kept(after, -gained, need, 2, nodes)
