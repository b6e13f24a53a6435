"""The most telling thing about a move at a question: what it allows, what it misses, or what it does."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import chess

from player.facts.exchange import Nodes, OutOfNodes, profit
from player.facts.replies.deeds import Moved, moved
from player.facts.replies.drawbacks import drawbacks
from player.facts.replies.finding import Cause, Deed, Drawback, Finding, FindingKind
from player.facts.replies.harm import (
    Harm,
    by_captures,
    by_threat,
    forces_mate,
    kept,
    mate_by_checks,
    mates_at_once,
    nature,
)
from player.facts.replies.lacks import lacks
from player.facts.replies.question import Question, deeds_with_meets
from player.facts.results import result_known

CAPTURES, CHECKS, THREATS, WINS, PAWNS = 2_000, 120, 300, 300, 150
"""Budgets in positions, a move: captures against it, mates by check, quiet blows, own gains, drawbacks."""

_TELLING = 2
_T = TypeVar("_T")


def find(asked: Question, move: chess.Move) -> Finding:
    """What is to be said about a legal move. ValueError where it is not legal."""
    if not asked.board.is_legal(move):
        raise ValueError(f"{move.uci()} is not legal here")
    made = moved(asked.board, move)
    harm = _harm(asked, made)
    if harm is not None and (harm.kind in ("mate", "stalemate") or harm.gain >= _TELLING):
        return harm
    missed = _missed(asked, made)
    if missed is not None and (missed.kind in ("missed mate", "mates too") or harm is None):
        return missed
    if harm is not None:
        return harm
    return _order(asked, made) or _differs(asked, made)


def _harm(asked: Question, made: Moved) -> Finding | None:
    after, move = made.after, made.move
    if after.is_checkmate():
        return None
    if after.is_stalemate():
        return Finding("stalemate", move)
    mates = mates_at_once(after)
    if mates:
        stood = [reply for reply in mates if reply in asked.threats.mates]
        reply = (stood or mates)[0]
        return Finding("mate", move, reply, reply.to_square, count=1, cause="stands" if stood else "")
    ended = _ended(asked.board, made)
    if ended is not None:
        return ended
    floor = asked.loss + 1
    captured = _unless_mated(made, _within(lambda nodes: by_captures(made, floor, nodes), CAPTURES))
    if captured is not None and captured.gain >= 5:
        return _taking(asked, made, captured)
    check = _within(lambda nodes: mate_by_checks(after, nodes), CHECKS)
    if check is not None:
        return Finding("mate", move, check, check.to_square, count=2)
    if captured is not None:
        return _taking(asked, made, captured)
    if asked.loss:
        return None
    quiet = _unless_mated(made, _within(lambda nodes: by_threat(made, 1, nodes), THREATS))
    if quiet is None:
        return None
    kind, men = nature(after, quiet.reply)
    known: dict[str, FindingKind] = {"fork": "fork", "pin": "pin", "skewer": "skewer", "attack": "attack"}
    return Finding(known[kind], move, quiet.reply, quiet.reply.to_square, quiet.gain, men=men)


def _unless_mated(made: Moved, harm: Harm | None) -> Harm | None:
    """The blow, or None where it is answered by checks that mate in two, which captures alone do not see."""
    if harm is None:
        return None
    then = made.after.copy(stack=False)
    then.push(harm.reply)
    return None if _within(lambda nodes: mate_by_checks(then, nodes), CHECKS) else harm


def _within(look: Callable[[Nodes], _T], budget: int) -> _T | None:
    try:
        return look(Nodes(budget))
    except OutOfNodes:
        return None


def _ended(board: chess.Board, made: Moved) -> Finding | None:
    """A result given away in an ending that is known exactly."""
    before, now = result_known(board), result_known(made.after)
    if before is None or now is None:
        return None
    sign = 1 if board.turn else -1
    if sign * before == 1 and sign * now < 1:
        return Finding("win lost", made.move, gain=-sign * now)
    if before == 0 and sign * now == -1:
        return Finding("draw lost", made.move)
    return None


def _taking(asked: Question, made: Moved, harm: Harm) -> Finding:
    """A capture against the move: why the man falls, and what could take back."""
    reply, board, after = harm.reply, made.board, made.after
    square = _taken_on(after, reply)
    cause: Cause = ""
    if reply in asked.threats.captures and square != made.move.to_square:
        cause = "" if _stands_too(asked, reply) else "stands"
    elif square == made.move.to_square:
        cause = "goes there"
    elif made.move.from_square in chess.SquareSet(chess.between(reply.from_square, reply.to_square)):
        cause = "opened"
    elif made.move.from_square in board.attackers(made.us, square) and not after.is_attacked_by(
        made.us, square
    ):
        cause = "unguarded"
    then = after.copy(stack=False)
    then.push(reply)
    backs = [
        back.from_square for back in then.generate_legal_captures(to_mask=chess.BB_SQUARES[reply.to_square])
    ]
    back = min(backs, key=lambda one: then.piece_type_at(one) or 9, default=None)
    return Finding(
        "wins", made.move, reply, square, harm.gain, men=(reply.from_square,), cause=cause, back=back
    )


def _stands_too(asked: Question, reply: chess.Move) -> bool:
    """Whether the answer leaves the same capture to be made at a profit: then it saves the man no more."""
    if asked.answer is None or not asked.answer.after.is_legal(reply):
        return False
    after = asked.answer.after.copy(stack=False)
    return (_within(lambda nodes: profit(after, reply, nodes), CHECKS) or 0) >= 1


def _taken_on(board: chess.Board, move: chess.Move) -> chess.Square:
    """Where the taken man stands; the square of arrival for a promotion that takes nothing."""
    if board.is_en_passant(move):
        return chess.square(move.to_square & 7, move.from_square >> 3)
    return move.to_square


def _missed(asked: Question, made: Moved) -> Finding | None:
    """A mate or material that the answer gets, and whether the move gets as much."""
    if asked.answer is None:
        return None
    if asked.mate:
        length = _within(lambda nodes: forces_mate(made, nodes), CHECKS)
        if length is None:
            return None
        if length and length <= asked.mate:
            return Finding("mates too", made.move, count=length, merits=_merits(asked, made))
        return Finding("missed mate", made.move, count=asked.mate, merits=_merits(asked, made))
    if asked.win < 1:
        return None
    won = _within(lambda nodes: kept(asked.board, made.move, asked.win, nodes), WINS)
    if won is None:
        return None
    same = won >= asked.win
    target = next((deed.square for deed in asked.deeds if deed.kind == "takes"), -1)
    still = target >= 0 and made.after.color_at(target) == (not made.us)
    return Finding(
        "wins too" if same else "missed win",
        made.move,
        square=target if same or still else -1,
        gain=asked.win,
        merits=_merits(asked, made),
        drawbacks=_drawbacks(made),
    )


def _order(asked: Question, made: Moved) -> Finding | None:
    """A move told a little later that may come first, with the others after it in their order."""
    if asked.answer is None:
        return None
    for later in range(2, len(asked.told), 2):
        if asked.told[later] != made.move:
            continue
        told = list(asked.told[: later + 1])
        own = [told[later], *told[0:later:2]]
        earlier = [own[index // 2] if index % 2 == 0 else told[index] for index in range(later + 1)]
        if _reached(asked.board, told) == _reached(asked.board, earlier) is not None:
            return Finding("order", made.move, count=later // 2, merits=_merits(asked, made))
    return None


def _reached(board: chess.Board, moves: list[chess.Move]) -> object:
    """The position after these moves, or None where one of them is illegal."""
    board = board.copy(stack=False)
    for move in moves:
        if not board.is_legal(move):
            return None
        board.push(move)
    return board._transposition_key()


def _differs(asked: Question, made: Moved) -> Finding:
    merits, against = _merits(asked, made), _drawbacks(made)
    misses = tuple(deed for deed in asked.deeds if lacks(asked, made, deed))
    kind: FindingKind = "differs" if misses or (against and asked.answer is not None) else "sound"
    return Finding(kind, made.move, merits=merits, misses=misses, drawbacks=against)


def _merits(asked: Question, made: Moved) -> tuple[Deed, ...]:
    return deeds_with_meets(made, asked.threats)


def _drawbacks(made: Moved) -> tuple[Drawback, ...]:
    return _within(lambda nodes: drawbacks(made, nodes), PAWNS) or ()
