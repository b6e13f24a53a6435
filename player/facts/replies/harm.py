"""What punishes a move, proved against every answer, as far as captures, checks and a short look go."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from player.facts.attacks import SLIDERS, first_behind
from player.facts.exchange import Nodes, OutOfNodes, gain_of, settled_between
from player.facts.material import VALUES
from player.facts.replies.deeds import Moved
from player.facts.strikes import forked_by, worth

_LOST = -99
_CAPTURES = 3
_QUIET = 3
_LAST_TWO = {chess.WHITE: chess.BB_RANK_6 | chess.BB_RANK_7, chess.BLACK: chess.BB_RANK_2 | chess.BB_RANK_3}


@dataclass(frozen=True, slots=True)
class Harm:
    """A reply, and the least it wins in pawns whatever comes, counted from before the move it answers.

    For a mate `gain` is 0 and `count` its length in moves of the side that mates.
    """

    reply: chess.Move
    gain: int = 0
    count: int = 0


def mates_at_once(board: chess.Board) -> list[chess.Move]:
    """The legal moves that mate."""
    found: list[chess.Move] = []
    for move in list(board.legal_moves):
        if board.gives_check(move):
            board.push(move)
            if board.is_checkmate():
                found.append(move)
            board.pop()
    return found


def mate_by_checks(board: chess.Board, nodes: Nodes) -> chess.Move | None:
    """A check after which every answer is mated at once, or None. Raises OutOfNodes."""
    for check in list(board.legal_moves):
        if not board.gives_check(check):
            continue
        board.push(check)
        try:
            if _helpless(board, nodes):
                return check
        finally:
            board.pop()
    return None


def _helpless(board: chess.Board, nodes: Nodes) -> bool:
    """Whether every legal answer, one at least, allows mate at once."""
    answers = list(board.legal_moves)
    for answer in answers:
        nodes.spend()
        nodes.spend()
        board.push(answer)
        try:
            if not mates_at_once(board):
                return False
        finally:
            board.pop()
    return bool(answers)


def forces_mate(made: Moved, nodes: Nodes) -> int:
    """1 where the move mates, 2 where it mates next move whatever comes, else 0. Raises OutOfNodes."""
    if made.after.is_checkmate():
        return 1
    return 2 if _helpless(made.after, nodes) else 0


def kept(board: chess.Board, move: chess.Move, floor: int, nodes: Nodes) -> int:
    """What a move wins at least, in pawns, whatever the other side answers, as captures settle it.

    Exact from `floor` up; below it some smaller number. A mate among the answers, or a game that is
    over without one, counts as everything lost. Raises OutOfNodes.
    """
    won = gain_of(board, move)
    board.push(move)
    try:
        return _kept(board, won, floor, nodes)
    finally:
        board.pop()


def _kept(board: chess.Board, won: int, floor: int, nodes: Nodes) -> int:
    answers = [(gain_of(board, answer), answer) for answer in board.legal_moves]
    if not answers:
        return 99 if board.is_check() else _LOST
    answers.sort(key=lambda pair: -pair[0])
    least = 99
    for gain, answer in answers:
        board.push(answer)
        try:
            mated = board.is_check() and board.is_checkmate()
            over = not mated and not any(board.generate_legal_moves())
            now = _LOST if mated or over else _now(board, won - gain, floor, least, nodes)
        finally:
            board.pop()
        least = min(least, now)
        if least < floor:
            break
    return least


def _now(board: chess.Board, ahead: int, floor: int, least: int, nodes: Nodes) -> int:
    """So much ahead, and what captures add to it; exact only from `floor` up and below `least`."""
    if ahead >= least:
        return ahead
    return ahead + settled_between(board, floor - 1 - ahead, least - ahead, nodes)


def by_captures(made: Moved, floor: int, nodes: Nodes) -> Harm | None:
    """The capture that wins most, `floor` pawns' worth at least, proved; the cheaper taker of two alike."""
    board, won = made.after, gain_of(made.board, made.move)
    replies: list[tuple[int, int, chess.Move]] = []
    for reply in list(board.legal_moves):
        gain = gain_of(board, reply)
        if gain - won < floor:
            continue
        board.push(reply)
        try:
            net = gain - won - settled_between(board, -1, gain - won - floor + 1, nodes)
        finally:
            board.pop()
        if net >= floor:
            replies.append((net, -VALUES[board.piece_type_at(reply.from_square) or 1], reply))
    best: Harm | None = None
    for net, _, reply in sorted(replies, key=lambda one: one[:2], reverse=True)[:_CAPTURES]:
        if best is not None and net <= best.gain:
            break
        sure = kept(board, reply, floor + won, nodes) - won
        if sure >= floor and (best is None or sure > best.gain):
            best = Harm(reply, sure)
    return best


def by_threat(made: Moved, floor: int, nodes: Nodes) -> Harm | None:
    """A quiet reply after which something falls whatever comes: a fork, a pin, a skewer, a trapped man."""
    board, won = made.after, gain_of(made.board, made.move)
    # A pawn so near its last rank may be worth more than what falls, and captures do not see it.
    if board.pawns & board.occupied_co[made.us] & _LAST_TWO[made.us]:
        return None
    best: Harm | None = None
    for reply in _candidates(made)[:_QUIET]:
        try:
            sure = kept(board, reply, floor + won, nodes) - won
        except OutOfNodes:
            return best
        if sure >= floor and (best is None or sure > best.gain):
            best = Harm(reply, min(sure, 9))
    return best


def _candidates(made: Moved) -> list[chess.Move]:
    """Quiet replies worth a proof: those that hit two men, a bigger man, or the man that just moved."""
    board, to = made.after, made.move.to_square
    them = board.occupied_co[not board.turn]
    found: list[tuple[int, chess.Move]] = []
    for reply in list(board.legal_moves):
        if board.is_capture(reply) or board.is_castling(reply) or reply.promotion:
            continue
        if board.is_attacked_by(not board.turn, reply.to_square) and not _covered(board, reply):
            continue
        hit = _hit(board, reply) & them
        if not hit:
            continue
        value = sum(min(worth_at(board, square), 9) for square in hit)
        alone = len(hit) < 2 and not hit & chess.BB_SQUARES[to]
        if alone and not (board.gives_check(reply)):
            continue
        found.append((value, reply))
    return [reply for _, reply in sorted(found, key=lambda pair: -pair[0])]


def _covered(board: chess.Board, reply: chess.Move) -> bool:
    """Whether the square a man goes to is guarded by another of its side, and no pawn hits it."""
    others = board.attackers(board.turn, reply.to_square) - chess.SquareSet(
        chess.BB_SQUARES[reply.from_square]
    )
    pawns = board.attackers(not board.turn, reply.to_square) & board.pawns
    return bool(others) and not pawns


def _hit(board: chess.Board, reply: chess.Move) -> chess.SquareSet:
    """Enemy men that the moved man then attacks and that are worth more than it, or are unguarded."""
    kind = board.piece_type_at(reply.from_square)
    assert kind is not None
    us = board.turn
    board.push(reply)
    try:
        targets = board.attacks(reply.to_square) & board.occupied_co[not us]
        return chess.SquareSet(
            square
            for square in targets
            if worth_at(board, square) > VALUES[kind] or not board.is_attacked_by(not us, square)
        )
    finally:
        board.pop()


def worth_at(board: chess.Board, square: chess.Square) -> int:
    """The value of the man on a square, a king being worth more than anything; 0 where it is empty."""
    piece = board.piece_at(square)
    return 0 if piece is None else worth(piece)


def nature(board: chess.Board, reply: chess.Move) -> tuple[str, tuple[chess.Square, ...]]:
    """What kind of blow a quiet reply is: a fork, a pin or skewer to the king, or an attack; and on whom."""
    forked = forked_by(board, reply)
    if len(forked) >= 2:
        return "fork", tuple(sorted(forked, key=lambda square: -worth_at(board, square)))
    us = board.turn
    then = board.copy(stack=False)
    then.push(reply)
    if then.piece_type_at(reply.to_square) in SLIDERS:
        for front in then.attacks(reply.to_square) & then.occupied_co[not us]:
            behind = first_behind(then, reply.to_square, front)
            if behind is None or then.color_at(behind) == us:
                continue
            if then.piece_type_at(behind) == chess.KING:
                return "pin", (front, behind)
            if worth_at(then, front) > worth_at(then, behind) and not then.is_attacked_by(not us, behind):
                return "skewer", (front, behind)
    targets = then.attacks(reply.to_square) & then.occupied_co[not us]
    hit = max(targets, key=lambda square: worth_at(then, square), default=None)
    return "attack", () if hit is None else (hit,)
