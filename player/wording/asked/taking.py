"""Answers about who can take what."""

from __future__ import annotations

import re

import chess

from player.wording.asked.captured import took_on
from player.wording.asked.moves import given_to
from player.wording.asked.played import taken_at
from player.wording.asked.reply import BoardReply, Scene, capital, unknown
from player.wording.asked.words import Man
from player.wording.names import colour_name, listed, name


def takes(scene: Scene) -> BoardReply:
    """Who can legally take on a square, or a man of the other side: with the man named, where one is."""
    taker, goals = _taker_and_goals(scene)
    if isinstance(goals, BoardReply):
        return goals
    if re.match(
        r"(?:and )?(?:who|what|which \w+) (?:just )?(?:took|captured)\b", scene.query.said.strip(), re.I
    ):
        return took_on(scene, goals)
    board = scene.board
    own: list[chess.Square] | None = None
    side = scene.side
    if taker is not None:
        own = scene.men(taker)
        if not own:
            return BoardReply(scene.absent(taker))
        if side is None:
            sides = {board.color_at(s) for s in own}
            on = {board.color_at(s) for s in goals} - {None}
            foe = not next(iter(on)) if len(on) == 1 else board.turn
            side = foe if foe in sides else bool(next(iter(sides)))
        own = [s for s in own if board.color_at(s) == side] or own
    if side is None:
        on = {board.color_at(s) for s in goals} - {None}
        side = not next(iter(on)) if len(on) == 1 else board.turn
    named = [s for s in goals if board.color_at(s) == side]
    goals = [s for s in goals if board.color_at(s) != side]
    if not goals:
        return BoardReply(f"No: {scene.the(named[:3], sides=True)} is {colour_name(side)}'s own.", yes=False)
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    moves = [
        m
        for m in given.generate_legal_captures()
        if (m.to_square in goals or taken_at(given, m) in goals) and (own is None or m.from_square in own)
    ]
    return _takes_said(scene, side, goals, own, moves)


def _taker_and_goals(scene: Scene) -> tuple[Man | None, list[chess.Square] | BoardReply]:
    """The man that is to take, if one is named, and the squares to be taken on."""
    query = scene.query
    low = f" {query.said.casefold()} "
    named = [(tag, thing) for tag, thing in query.things if tag in "SMK"]
    taker: Man | None = None
    behind = re.search(r"\b(?:with|using|by)\b", low) is not None and len(named) > 1
    if behind and isinstance(named[-1][1], Man):
        taker = named[-1][1]
        named = named[:-1]
    elif len(named) > 1 and isinstance(named[0][1], Man):
        taker = named[0][1]
        named = named[1:]
    goals: list[chess.Square] = []
    for _, thing in named:
        if isinstance(thing, Man):
            found = scene.men(thing)
            if not found:
                return taker, BoardReply(scene.absent(thing))
            goals += found
        elif isinstance(thing, int):
            goals.append(thing)
    if not goals and scene.last is not None:
        goals = [scene.last.move.to_square]
    return taker, goals or unknown("Name a square or a man, such as e5 or the knight on e5.")


def _takes_said(
    scene: Scene,
    side: bool,
    goals: list[chess.Square],
    own: list[chess.Square] | None,
    moves: list[chess.Move],
) -> BoardReply:
    who = re.match(r"(?:and |so )?(?:who|what|which|with what)\b", scene.query.said.strip(), re.I) is not None
    if not moves:
        if len(goals) > 3:
            kind = name(scene.board.piece_type_at(goals[0]) or chess.PAWN)
            what = f"a {kind}"
        else:
            what = listed([_place(scene, s) for s in goals], "or")
        on = "take on" if scene.board.piece_at(goals[0]) is None else "take"
        if who:
            whose = f" of {colour_name(side)}'s" if scene.side is not None else ""
            return BoardReply(f"Nothing{whose} can {on} {what}.", yes=False)
        taker = scene.the(own, sides=True) if own and len(own) < 4 else colour_name(side)
        return BoardReply(f"No: {taker} cannot {on} {what}.", yes=False)
    could = "" if side == scene.board.turn else " with the move"
    parts = []
    for goal in goals:
        by = list(
            dict.fromkeys(m.from_square for m in moves if goal in (m.to_square, taken_at(scene.board, m)))
        )
        if by:
            parts.append(f"{_place(scene, goal)} can be taken{could} by {scene.the(by, sides=True)}")
    text = f"{listed(parts)}."
    return BoardReply(
        capital(text) if who else f"Yes: {text}",
        yes=True,
        moves=tuple(moves),
        squares=tuple(dict.fromkeys(m.from_square for m in moves)) if who else (),
        number=len({m.from_square for m in moves}),
    )


def _place(scene: Scene, square: chess.Square) -> str:
    return (
        chess.SQUARE_NAMES[square]
        if scene.board.piece_at(square) is None
        else scene.the([square], sides=True)
    )
