"""What can be seen of moves: where a man can go, where it is safe, what is threatened, how far a
square is.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

import chess

from player.facts.exchange import Nodes, OutOfNodes, gain_of, profit
from player.facts.strikes import forked_by


@dataclass(frozen=True, slots=True)
class Threat:
    """A move that would mate (`gain` None), or win `gain` pawns' worth by captures alone."""

    move: chess.Move
    gain: int | None = None


def moves_of(board: chess.Board, square: chess.Square) -> list[chess.Move]:
    """The legal moves of the man on a square, by where they go; the four promotions count as four."""
    return sorted(board.generate_legal_moves(chess.BB_SQUARES[square]), key=lambda move: move.to_square)


def mates(board: chess.Board) -> list[chess.Move]:
    """The legal moves that mate at once."""
    found = []
    for move in list(board.legal_moves):
        if not board.gives_check(move):
            continue
        board.push(move)
        if board.is_checkmate():
            found.append(move)
        board.pop()
    return found


def threats(board: chess.Board, nodes: Nodes) -> tuple[list[Threat], bool]:
    """Mates, and captures and promotions that win material by captures alone; the most first.

    The second value tells whether all were looked at within the budget.
    """
    found = [Threat(move) for move in mates(board)]
    mating = {threat.move for threat in found}
    whole = True
    winning: list[Threat] = []
    for move in list(board.legal_moves):
        if move in mating or not gain_of(board, move):
            continue
        try:
            gain = profit(board, move, nodes)
        except OutOfNodes:
            whole = False
            break
        if gain >= 1:
            winning.append(Threat(move, gain))
    winning.sort(key=lambda threat: (-(threat.gain or 0), threat.move.to_square, threat.move.from_square))
    return found + winning, whole


def safe_moves(board: chess.Board, square: chess.Square, nodes: Nodes) -> list[chess.Move]:
    """The legal moves of a man after which no legal capture of it would pay. Raises OutOfNodes."""
    safe = []
    for move in moves_of(board, square):
        board.push(move)
        try:
            takers = [take for take in board.legal_moves if take.to_square == move.to_square]
            if all(profit(board, take, nodes) < 1 for take in takers):
                safe.append(move)
        finally:
            board.pop()
    return safe


def forks(board: chess.Board) -> list[tuple[chess.Move, tuple[chess.Square, ...]]]:
    """The legal moves that fork two men or more, with the men they hit."""
    found = ((move, forked_by(board, move)) for move in list(board.legal_moves))
    return [(move, hit) for move, hit in found if len(hit) > 1]


def way_to(board: chess.Board, origin: chess.Square, target: chess.Square) -> list[chess.Square] | None:
    """A shortest way of the man on `origin` to a square, the other men standing still; None where there is
    none.

    It takes nobody on the way and is not stopped by attacks; a man of the other side may be taken on
    `target`,
    and a king goes to no attacked square. A pawn only goes straight, or takes on `target`.
    """
    man = board.piece_at(origin)
    if man is None:
        return None
    if origin == target:
        return []
    before: dict[chess.Square, chess.Square] = {origin: origin}
    queue = deque([origin])
    while queue:
        here = queue.popleft()
        for there in _steps(board, man, origin, here, target):
            if there in before:
                continue
            before[there] = here
            if there == target:
                way = [there]
                while before[way[0]] != origin:
                    way.insert(0, before[way[0]])
                return way
            queue.append(there)
    return None


def _steps(
    board: chess.Board, man: chess.Piece, origin: chess.Square, here: chess.Square, target: chess.Square
) -> list[chess.Square]:
    bare = board.copy(stack=False)
    bare.remove_piece_at(origin)
    bare.set_piece_at(here, man)
    own = bare.occupied_co[man.color]
    reached = bare.attacks(here)
    if man.piece_type == chess.PAWN:
        ahead = here + (8 if man.color else -8)
        steps = []
        if 0 <= ahead < 64 and not bare.piece_at(ahead):
            steps.append(ahead)
            twice = ahead + (8 if man.color else -8)
            if here >> 3 == (1 if man.color else 6) and not bare.piece_at(twice):
                steps.append(twice)
        enemy = bare.occupied_co[not man.color]
        return steps + ([target] if target in reached and chess.BB_SQUARES[target] & enemy else [])
    free = [s for s in reached if not chess.BB_SQUARES[s] & own and (s == target or not bare.piece_at(s))]
    if man.piece_type == chess.KING:
        free = [s for s in free if not bare.attackers(not man.color, s)]
    return free
