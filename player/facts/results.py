"""How a game ends with best play, where that can be proved."""

from __future__ import annotations

from collections.abc import Callable

import chess

from player.facts.claim import Claim, Verdict, verdict
from player.facts.exchange import Nodes, OutOfNodes
from player.facts.fortress import held_corner
from player.facts.kpk import pawn_wins
from player.facts.mates import forced_mate
from player.facts.scene import Scene, white_or_black

_DEPTH = 8
_MATE = 2
# The search ends in tables of at most four men; with more than this many it would never get there.
_FEW = 8
# What part of the budget it may spend: what it does not find soon it seldom finds.
_PART = 12


def wins_with_best_play(claim: Claim, scene: Scene) -> Verdict:
    """A side wins whatever the other does; only where that is proved."""
    assert claim.colour is not None
    return _judged(scene, lambda value: value == (1 if claim.colour else -1))


def drawn(claim: Claim, scene: Scene) -> Verdict:
    """With best play neither side wins; only where that is proved."""
    return _judged(scene, lambda value: value == 0)


def _judged(scene: Scene, holds: Callable[[int], bool]) -> Verdict:
    found = outcome(scene.board, scene.nodes)
    if found is None:
        return Verdict("unproved", "Nothing here can prove how this ends.")
    return verdict(holds(found), _in_words(found))


def _in_words(value: int) -> str:
    return f"{white_or_black(value > 0)} wins with best play." if value else "With best play it is a draw."


def outcome(board: chess.Board, nodes: Nodes) -> int | None:
    """1 where White wins with best play, -1 where Black does, 0 for a draw; None where that is not proved.

    From the rules, exact tables, forced mates, and a short search that ends in these.
    """
    board = board.copy(stack=False)
    sign = 1 if board.turn else -1
    known = _known(board)
    if known is not None:
        return sign * known
    budget = Nodes(nodes.left // _PART)
    start = budget.left
    try:
        if forced_mate(board, _MATE, budget) is not None:
            return sign
        few = chess.popcount(board.occupied) <= _FEW
        for depth in range(1, _DEPTH + 1 if few else 1):
            low, high = _bounds(board, depth, -1, 1, budget)
            if low == high:
                return sign * low
    except OutOfNodes:
        pass
    finally:
        nodes.left -= start - max(budget.left, 0)
    return None


def result_known(board: chess.Board) -> int | None:
    """`outcome`, from the rules and the exact tables alone, at once."""
    known = _known(board)
    return None if known is None else known if board.turn else -known


def _bounds(board: chess.Board, depth: int, low: int, high: int, nodes: Nodes) -> tuple[int, int]:
    """The least and the most the side to move gets, as far as `depth` half-moves show."""
    nodes.spend()
    known = _known(board)
    if known is not None:
        return known, known
    if not depth:
        return -1, 1
    least, most = -1, -1
    moves = sorted(board.legal_moves, key=lambda move: (not board.is_capture(move), not move.promotion))
    for move in moves:
        board.push(move)
        try:
            down, up = _bounds(board, depth - 1, -high, -low, nodes)
        finally:
            board.pop()
        least, most = max(least, -down if down == up else -up), max(most, -down)
        if least == 1:
            return 1, 1
    return least, most


def _known(board: chess.Board) -> int | None:
    """What is known without looking further, for the side to move: 1, 0, -1 or None."""
    if not any(board.generate_legal_moves()):
        return -1 if board.is_check() else 0
    men = chess.popcount(board.occupied)
    if men <= 4 and board.is_insufficient_material():
        return 0
    if men == 3:
        wins = pawn_wins(board)
        if wins is not None:
            strong = bool(board.occupied_co[chess.WHITE] & board.pawns)
            return (1 if strong == board.turn else -1) if wins else 0
        return _lone_heavy_man(board)
    if men == 4 and held_corner(board):
        return 0
    return None


def _lone_heavy_man(board: chess.Board) -> int | None:
    """King and queen, or king and rook, against king: won but for a man that can be taken.

    The stronger side to move always wins (published counts of these endings: all of its positions are won);
    so does it after every answer that takes nothing.
    """
    if not board.queens | board.rooks:
        return None
    strong = bool(board.occupied_co[chess.WHITE] & (board.queens | board.rooks))
    if strong == board.turn:
        return 1
    return 0 if any(board.is_capture(move) for move in board.legal_moves) else -1
