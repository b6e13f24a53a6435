"""A question as the replies see it: the answer, what it does, and what stands against the side to move."""

from __future__ import annotations

from dataclasses import dataclass, field

import chess

from player.facts.exchange import Nodes, OutOfNodes, gain_of, profit
from player.facts.replies.deeds import Moved, deeds, moved
from player.facts.replies.finding import Deed
from player.facts.replies.harm import by_captures, forces_mate, kept, mates_at_once

_EACH = 1_500


@dataclass(frozen=True, slots=True)
class Threats:
    """What the other side would do if the side to move passed: mates, and captures that win (in pawns)."""

    mates: tuple[chess.Move, ...] = ()
    captures: dict[chess.Move, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Question:
    """The position, the answer (None where none is known), and the moves told from the answer on.

    `mate` is the number of moves in which the answer mates, or 0; `win` what it wins at least, in pawns;
    `loss` what it gives up to a capture all the same.
    """

    board: chess.Board
    answer: Moved | None = None
    told: tuple[chess.Move, ...] = ()
    deeds: tuple[Deed, ...] = ()
    threats: Threats = Threats()
    mate: int = 0
    win: int = 0
    loss: int = 0


def question(
    board: chess.Board, answer: chess.Move | None = None, told: tuple[chess.Move, ...] = ()
) -> Question:
    """Everything that the replies at one question have in common. ValueError where the answer is illegal."""
    if answer is not None and not board.is_legal(answer):
        raise ValueError(f"{answer.uci()} is not legal here")
    threats = threats_here(board)
    if answer is None:
        return Question(board, threats=threats)
    made = moved(board, answer)
    mate = win = loss = 0
    nodes = Nodes(_EACH)
    try:
        mate = forces_mate(made, nodes)
        if not mate:
            win = max(0, kept(board, answer, 1, nodes))
            harm = by_captures(made, 1, nodes) if win < 1 else None
            loss = harm.gain if harm is not None else 0
    except OutOfNodes:
        pass
    return Question(board, made, told, deeds_with_meets(made, threats), threats, mate, min(win, 9), loss)


def threats_here(board: chess.Board) -> Threats:
    """The threats against the side to move; none where it is in check, when the check is all that matters."""
    if board.is_check():
        return Threats()
    passed = board.copy(stack=False)
    passed.push(chess.Move.null())
    captures: dict[chess.Move, int] = {}
    nodes = Nodes(_EACH)
    try:
        for move in list(passed.legal_moves):
            if gain_of(passed, move):
                gain = profit(passed, move, nodes)
                if gain >= 1:
                    captures[move] = gain
    except OutOfNodes:
        pass
    return Threats(tuple(mates_at_once(passed)), captures)


def deeds_with_meets(made: Moved, threats: Threats) -> tuple[Deed, ...]:
    """What the move does, with the threats that it takes away."""
    found: list[Deed] = []
    if threats.mates and not mates_at_once(made.after):
        found.append(Deed("meets mate", threats.mates[0].to_square))
    nodes = Nodes(_EACH)
    aimed_at = dict.fromkeys(threat.to_square for threat in threats.captures)
    for square in [one for one in aimed_at if made.board.color_at(one) == made.us]:
        try:
            if not made.after.is_check() and not _falls(made, square, nodes):
                found.append(Deed("meets", square))
        except OutOfNodes:
            break
    all_deeds = deeds(made)
    first = [deed for deed in all_deeds if deed.kind in ("mate", "check", "promotes", "castles")]
    return (*first, *found, *(deed for deed in all_deeds if deed not in first))


def _falls(made: Moved, square: chess.Square, nodes: Nodes) -> bool:
    """Whether the man that stood on the square can still be won by a capture, where it stands now."""
    now = made.move.to_square if square == made.move.from_square else square
    for reply in list(made.after.generate_legal_captures(to_mask=chess.BB_SQUARES[now])):
        if profit(made.after, reply, nodes) >= 1:
            return True
    return False
