"""The one capture routine: what best play of captures, with the right to stop, makes of a position."""

from __future__ import annotations

from dataclasses import dataclass

import chess

VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0}
BUDGET = 4_000


@dataclass(slots=True)
class _Nodes:
    left: int


def gain_of(board: chess.Board, move: chess.Move) -> int:
    """What a move wins at once, in pawns: the man taken, and what a promoted pawn has gained."""
    taken = chess.PAWN if board.is_en_passant(move) else board.piece_type_at(move.to_square)
    gain = VALUES[taken] if taken is not None and board.is_capture(move) else 0
    return gain + (VALUES[move.promotion] - 1 if move.promotion else 0)


def best_gain(board: chess.Board, budget: int = BUDGET) -> int | None:
    """What the side to move wins by captures, in pawns, when both sides capture as best they can or stop.

    Values 1 3 3 5 9; a side in check may stop too. None where the budget of nodes ran out.
    """
    nodes = _Nodes(budget)
    value = _search(board, 0, 99, nodes)
    return value if nodes.left > 0 else None


def _search(board: chess.Board, alpha: int, beta: int, nodes: _Nodes) -> int:
    """Fail-hard search over captures and promotions; standing still is worth 0."""
    nodes.left -= 1
    if nodes.left <= 0:
        return alpha
    best = max(0, alpha)
    if best >= beta:
        return best
    moves = [m for m in board.legal_moves if board.is_capture(m) or m.promotion]
    moves.sort(key=lambda move: -gain_of(board, move))
    for move in moves:
        gain = gain_of(board, move)
        if gain <= best and not move.promotion:
            break
        board.push(move)
        value = gain - _search(board, gain - beta, gain - best, nodes)
        board.pop()
        if value > best:
            best = value
            if best >= beta:
                break
    return best
