"""What the men are worth, and captures searched to the end by plain recursion.

Slow on purpose, and written from the page of definitions alone: python-chess gives the moves, the rest is
counting. Nothing here may import the code it judges.
"""

from __future__ import annotations

import chess

WORTH = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0}
KING_WORTH = 1000


class TooLong(Exception):
    """The search met more positions than a test should wait for."""


def worth_at(board: chess.Board, square: int) -> int:
    """What the man there is worth when two men are compared; the king is worth more than any other."""
    kind = board.piece_type_at(square)
    return KING_WORTH if kind == chess.KING else WORTH[kind or chess.PAWN]


def balance(board: chess.Board, side: chess.Color) -> int:
    """`side`'s men less the other side's."""
    return sum(WORTH[man.piece_type] * (1 if man.color == side else -1) for man in board.piece_map().values())


def best_captures(
    board: chess.Board, low: int = -10_000, high: int = 10_000, left: list[int] | None = None
) -> int:
    """The balance for the side to move after the best captures by both, each free to stop.

    Anywhere on the board, not on one square only. `low` and `high` cut off what cannot matter.
    """
    left = [60_000] if left is None else left
    left[0] -= 1
    if left[0] < 0:
        raise TooLong
    best = balance(board, board.turn)
    if best >= high:
        return best
    low = max(low, best)
    takes = [move for move in board.legal_moves if board.is_capture(move)]
    takes.sort(
        key=lambda move: (
            -(board.piece_type_at(move.to_square) or 1) * 10 + (board.piece_type_at(move.from_square) or 0)
        )
    )
    for move in takes:
        board.push(move)
        try:
            worth = -best_captures(board, -high, -low, left)
        finally:
            board.pop()
        best = max(best, worth)
        low = max(low, worth)
        if low >= high:
            break
    return best


def move_keeps(board: chess.Board, move: chess.Move) -> int:
    """What a move gains when the other side may only go on with captures, or stop."""
    side = board.turn
    before = balance(board, side)
    after = board.copy(stack=False)
    after.push(move)
    return -best_captures(after) - before


def wins_against_all(board: chess.Board, move: chess.Move, amount: int) -> bool:
    """Whether after every legal reply the captures still leave `amount` more than stood before the move."""
    side = board.turn
    wanted = balance(board, side) + amount
    after = board.copy(stack=False)
    after.push(move)
    if not any(after.legal_moves):
        return balance(after, side) >= wanted
    for reply in list(after.legal_moves):
        after.push(reply)
        kept = best_captures(after, wanted - 1, wanted)
        after.pop()
        if kept < wanted:
            return False
    return True


def counts(board: chess.Board) -> dict[str, int]:
    """White's men less Black's, by kind; a knight and a bishop are both a piece."""

    def more(*kinds: chess.PieceType) -> int:
        return sum(
            len(board.pieces(kind, chess.WHITE)) - len(board.pieces(kind, chess.BLACK)) for kind in kinds
        )

    return {
        "pawn": more(chess.PAWN),
        "piece": more(chess.KNIGHT, chess.BISHOP),
        "rook": more(chess.ROOK),
        "queen": more(chess.QUEEN),
    }
