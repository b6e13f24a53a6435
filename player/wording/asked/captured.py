"""Answers about who took what, in the moves known here."""

from __future__ import annotations

import re

import chess

from player.wording.asked.blows import captures_of
from player.wording.asked.history import made_moves
from player.wording.asked.played import short, taken_at
from player.wording.asked.reply import BoardReply, Scene, unknown
from player.wording.names import colour_name, man_at


def took_on(scene: Scene, squares: list[chess.Square]) -> BoardReply:
    """Who took on a square, the last time that anything was taken there."""
    for before, move in reversed(list(made_moves(scene.board))):
        victim = taken_at(before, move) if move else None
        if victim is not None and move.to_square in squares:
            who, here = colour_name(before.turn), chess.SQUARE_NAMES[move.to_square]
            man, taken = (
                man_at(before, square).partition(" on ")[0] for square in (move.from_square, victim)
            )
            text = f"{who} took the {taken} on {here}, with the {man}, on move {before.fullmove_number}."
            return BoardReply(text, squares=(move.from_square,), moves=(move,), yes=True)
    here = chess.SQUARE_NAMES[squares[0]]
    text = f"Nothing has been taken on {here} in the moves known here."
    return BoardReply(text, yes=False) if scene.board.move_stack else unknown(text)


def just_took(scene: Scene) -> BoardReply:
    """What a man took with its last move; asked of what it can take, that."""
    if not re.search(r"\b(?:did|just)\b", scene.query.said, re.I):
        return captures_of(scene)
    man = scene.query.men[0]
    side = scene.colour(man.side)
    for before, move in reversed(list(made_moves(scene.board))):
        kinds = (None, before.piece_type_at(move.from_square)) if move else ()
        here = man.square in (None, move.to_square)
        if man.kind not in kinds or side not in (None, before.turn) or not here:
            continue
        victim = taken_at(before, move)
        if victim is None:
            return BoardReply(f"Nothing: its last move was {short(before, move)}.", yes=False)
        by = man_at(before, move.from_square)
        text = f"{colour_name(before.turn)} took the {man_at(before, victim)}, with the {by}."
        return BoardReply(text, squares=(victim,), moves=(move,), yes=True)
    return unknown("No move of it is known here.")
