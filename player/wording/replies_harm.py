"""Replies to a move that is punished."""

from __future__ import annotations

from collections.abc import Sequence

import chess

from player.facts.material import VALUES
from player.facts.replies.finding import Finding
from player.facts.replies.question import Question
from player.wording.names import colour_name, listed, man_at
from player.wording.replies_say import Way, named, opening, way, worth


def harmful(asked: Question, found: Finding) -> Sequence[Way]:
    """Ways to say what is proved against the move, () where nothing is."""
    board = asked.board
    after = board.copy(stack=False)
    after.push(found.move)
    said, first = named(board, found.move), opening(board, found.move)
    own, other = colour_name(board.turn), colour_name(not board.turn)
    if found.kind == "stalemate":
        return [
            way(f"after {said} {other} has no move and is not in check: stalemate, a draw.", "stalemate 1"),
            way(
                f"that is stalemate: after {said} {other} cannot move, and the game is drawn.", "stalemate 2"
            ),
        ]
    if found.kind == "win lost":
        now = f"{other} wins" if found.gain > 0 else "it is a draw"
        return [
            way(f"{own} was winning here; after {said} {now} with best play.", "win lost 1"),
            way(f"{first} lets the win go: with best play {now}.", "win lost 2"),
        ]
    if found.kind == "draw lost":
        return [
            way(f"this was a draw; after {said} {other} wins with best play.", "draw lost 1"),
            way(f"{first} loses what was a draw: {other} wins with best play.", "draw lost 2"),
        ]
    if found.kind == "mate":
        return _mate(after, found, said, first, own)
    if found.kind == "wins":
        return _wins(board, after, found, said, first)
    if found.kind in ("fork", "pin", "skewer", "attack"):
        return _blow(after, found, said, first, own)
    return ()


def _mate(after: chess.Board, found: Finding, said: str, first: str, own: str) -> Sequence[Way]:
    assert found.reply is not None
    reply = named(after, found.reply)
    if found.count > 1:
        return [
            way(
                f"after {said} comes {reply} with check, and mate next move whatever {own} plays.", "mate2 1"
            ),
            way(f"{first} runs into {reply}: a check, and whatever comes, mate follows it.", "mate2 2"),
        ]
    if found.cause == "stands":
        return [
            way(f"{first} does not meet the threat: {reply} is mate.", "threat 1"),
            way(f"the threat was {reply}, mate, and after {said} it still is.", "threat 2"),
            way(f"one thing had to be stopped here: {reply} mates after {said}.", "threat 3"),
        ]
    return [
        way(f"after {said} comes {reply}, and that is mate.", "mate 1"),
        way(f"{first} allows {reply}, which is mate.", "mate 2"),
        way(f"look what {said} lets in: {reply}, mate.", "mate 3"),
    ]


def _wins(board: chess.Board, after: chess.Board, found: Finding, said: str, first: str) -> Sequence[Way]:
    assert found.reply is not None
    reply = found.reply
    taker = f"the {man_at(after, reply.from_square)}"
    turned = f" and becomes a {chess.piece_name(reply.promotion)}" if reply.promotion else ""
    if after.piece_at(found.square) is None or not after.is_capture(reply):
        return [
            way(
                f"after {said} {taker} walks to {chess.SQUARE_NAMES[reply.to_square]}{turned}.", "promotes 1"
            ),
            way(f"{first} does not stop {taker}: it goes through{turned}.", "promotes 2"),
        ]
    man = f"the {man_at(after, found.square)}"
    passing = " in passing" if after.is_en_passant(reply) else ""
    end = _end(after, found)
    takes = f"{taker} can take {{}}{passing}{turned}{end}."
    it = takes.format("it")
    if found.cause == "stands":
        return [
            way(f"{man} stays attacked after {said}: {it}", "stands 1"),
            way(f"{first} does not save {man}: {it}", "stands 2"),
            way(f"{man} was in danger and still is: {it}", "stands 3"),
        ]
    if found.cause == "goes there":
        where = chess.SQUARE_NAMES[found.square]
        if board.is_castling(found.move):
            return [way(f"after {said} {takes.format(man)}", "falls 3")]
        return [
            way(f"on {where} it can be taken: after {said} {it}", "goes 1"),
            way(f"{first} is met at once: {it}", "goes 2"),
            way(
                f"{taker} has {where} in its sights; after {said} it can take{passing}{turned}{end}.",
                "goes 3",
            ),
        ]
    if found.cause == "unguarded":
        mover = chess.piece_name(board.piece_type_at(found.move.from_square) or 1)
        alone = len(board.attackers(board.turn, found.square)) == 1
        ways = [way(f"after {said} nobody guards {man} any more: {it}", "unguarded 1")]
        lone = way(f"the {mover} was the one that guarded {man}; now {it}", "unguarded 2")
        return [*ways, lone] if alone else ways
    if found.cause == "opened":
        return [
            way(f"{first} opens a line against {man}: {it}", "opened 1"),
            way(f"something stood between and has moved off: after {said} {takes.format(man)}", "opened 2"),
        ]
    return [
        way(f"after {said} {takes.format(man)}", "falls 1"),
        way(f"{first} costs something: {takes.format(man)}", "falls 2"),
    ]


def _end(after: chess.Board, found: Finding) -> str:
    """What can be done about the capture, as far as captures tell it."""
    assert found.reply is not None
    if found.back is None:
        return ", and nothing takes back"
    taker = after.piece_type_at(found.reply.from_square) or 1
    taken = after.piece_type_at(found.square) or 1
    if VALUES[taker] < VALUES[taken] and not found.reply.promotion and taker != chess.KING:
        return f"; taking back gets only a {chess.piece_name(taker)}"
    return f", and at least {worth(found.gain)} goes"


def _blow(after: chess.Board, found: Finding, said: str, first: str, own: str) -> Sequence[Way]:
    assert found.reply is not None
    reply = named(after, found.reply)
    men = [f"the {man_at(after, square)}" for square in found.men]
    loss = f"{worth(found.gain)}"
    if found.kind == "fork":
        return [
            way(f"after {said} comes {reply}, which hits {listed(men[:3])}; at least {loss} goes.", "fork 1"),
            way(
                f"{first} allows a fork: {reply} hits {listed(men[:2])}, and {loss} at least is lost.",
                "fork 2",
            ),
        ]
    if found.kind == "pin":
        return [
            way(
                f"after {said} comes {reply}, and {men[0]} is held before its king; at least {loss} goes.",
                "pin 1",
            ),
            way(f"{first} allows a pin: {reply} fixes {men[0]}, and at least {loss} is lost.", "pin 2"),
        ]
    if found.kind == "skewer":
        return [
            way(
                f"after {said} comes {reply}: {men[0]} must go, with {men[1]} behind it; {loss} is lost.",
                "skewer 1",
            ),
            way(f"{first} lines up {men[0]} and {men[1]}: {reply} wins at least {loss}.", "skewer 2"),
        ]
    target = men[0] if men else "something"
    return [
        way(
            f"after {said} comes {reply} against {target}, and every answer loses at least {loss}.",
            "attack 1",
        ),
        way(f"{first} runs into {reply}: {target} is hit, and whatever {own} does, {loss} goes.", "attack 2"),
    ]
