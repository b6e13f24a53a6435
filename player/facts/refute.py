"""What an answer to a wrong move proves: mate at once, or a man that falls."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from player.facts.exchange import BUDGET, best_gain, gain_of


@dataclass(frozen=True, slots=True)
class Refutation:
    """The reply that punishes a move: it mates, or wins `gain` pawns' worth by captures on `square`."""

    kind: Literal["mate", "wins"]
    reply: chess.Move
    square: chess.Square
    gain: int


def refutation(board: chess.Board, move: chess.Move) -> Refutation | None:
    """The reply that refutes a legal move, by a mate in one or by the capture routine; None without proof.

    A reply that wins material counts only where it leaves the mover at least a pawn worse off than before
    the move.
    """
    won = gain_of(board, move)
    after = board.copy()
    after.push(move)
    best: Refutation | None = None
    for reply in list(after.legal_moves):
        after.push(reply)
        mate = after.is_checkmate()
        after.pop()
        if mate:
            return Refutation("mate", reply, reply.to_square, 0)
    for reply in after.legal_moves:
        gain = gain_of(after, reply)
        if not gain:
            continue
        then = after.copy(stack=False)
        then.push(reply)
        back = best_gain(then, BUDGET)
        if back is None:
            continue
        net = gain - back - won
        if net >= 1 and (best is None or net > best.gain):
            best = Refutation("wins", reply, reply.to_square, net)
    return best
