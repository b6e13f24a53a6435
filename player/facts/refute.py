"""What an answer to a wrong move proves: mate at once, a man that falls, a fork, a win or a draw let slip."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from player.facts.exchange import Nodes, OutOfNodes, gain_of, settled
from player.facts.results import result_known
from player.facts.scene import Played
from player.facts.strikes import forked_by, keeps_less

RefutationKind = Literal["mate", "stalemate", "wins", "fork", "win lost", "draw lost"]
_BUDGET = 700
_FORKS = 4


@dataclass(frozen=True, slots=True)
class Refutation:
    """What is proved against a move.

    "mate": the reply mates. "wins": the reply takes on `square`, and captures leave the mover `gain` pawns'
    worth down. "fork": the reply hits `forked`, and whatever comes wins as much. "stalemate": the move ends
    the game so. "win lost": a won ending is now a draw or lost; "draw lost": a drawn one is lost.
    """

    kind: RefutationKind
    reply: chess.Move | None = None
    square: chess.Square | None = None
    gain: int = 0
    forked: tuple[chess.Square, ...] = ()


def refutation(board: chess.Board, move: chess.Move) -> Refutation | None:
    """What refutes a legal move: mate in one, captures, forks, and exactly known endings; None without proof.

    Material counts only where the mover ends up at least a pawn worse off than before the move. What comes
    of too long a look is left out.
    """
    after = board.copy(stack=2)
    after.push(move)
    ended = _ended(board, after)
    if ended is not None:
        return ended
    mate = _mate(after)
    if mate is not None:
        return mate
    won = gain_of(board, move)
    nodes = Nodes(_BUDGET)
    best: Refutation | None = None
    try:
        best = _by_captures(after, won, nodes)
        if best is None and not after.is_game_over():
            best = _by_fork(after, won, nodes)
    except OutOfNodes:
        pass
    return best


def _ended(board: chess.Board, after: chess.Board) -> Refutation | None:
    """A stalemate, or a result given away in an ending that is known exactly."""
    if after.is_stalemate():
        return Refutation("stalemate")
    before, now = result_known(board), result_known(after)
    if before is None or now is None:
        return None
    sign = 1 if board.turn else -1
    if sign * before == 1 and sign * now < 1:
        return Refutation("win lost", gain=-sign * now)
    if before == 0 and sign * now == -1:
        return Refutation("draw lost")
    return None


def _mate(after: chess.Board) -> Refutation | None:
    for reply in list(after.legal_moves):
        if not after.gives_check(reply):
            continue
        after.push(reply)
        mated = after.is_checkmate()
        after.pop()
        if mated:
            return Refutation("mate", reply, reply.to_square)
    return None


def _by_captures(after: chess.Board, won: int, nodes: Nodes) -> Refutation | None:
    """The capture that wins most; the cheaper taker of two that win the same."""
    best: Refutation | None = None
    replies = sorted(
        ((gain_of(after, reply), reply) for reply in after.legal_moves), key=lambda pair: -pair[0]
    )
    for gain, reply in replies:
        if gain - won < 1 or (best is not None and gain - won <= best.gain):
            break
        after.push(reply)
        try:
            net = gain - settled(after, nodes) - won
        except OutOfNodes:
            if best is None:
                raise
            return best
        finally:
            after.pop()
        if net >= 1 and (best is None or net > best.gain):
            best = Refutation("wins", reply, _taken_on(after, reply), net)
    return best


def _taken_on(board: chess.Board, move: chess.Move) -> chess.Square:
    """Where the taken man stands."""
    if board.is_en_passant(move):
        return chess.square(move.to_square & 7, move.from_square >> 3)
    return move.to_square


def _by_fork(after: chess.Board, won: int, nodes: Nodes) -> Refutation | None:
    """A quiet reply that forks, where no answer keeps the mover from losing a pawn's worth or more."""
    tried = 0
    for reply in after.legal_moves:
        if after.is_capture(reply) or after.is_castling(reply):
            continue
        forked = forked_by(after, reply)
        if len(forked) < 2:
            continue
        tried += 1
        if tried > _FORKS:
            return None
        then = after.copy(stack=False)
        then.push(reply)
        if keeps_less(Played(after, reply, then, ""), won + 1, nodes) is None:
            return Refutation("fork", reply, reply.to_square, won + 1, forked)
    return None
