"""Answers about who stands where, and what men are worth."""

from __future__ import annotations

import chess

from player.facts.material import VALUES
from player.wording.asked.reply import BoardReply, Scene, capital, count, names, unknown, yes_no
from player.wording.names import colour_name, listed, name


def what_on(scene: Scene) -> BoardReply:
    query = scene.query
    if query.men and query.men[0].square is None:
        those = scene.men(query.men[0])
        square = next((int(t) for t in query.all("S") if isinstance(t, int)), None)
        yes = square in those
        return BoardReply(
            f"{yes_no(yes)}: {scene.stands(square)}" if square is not None else scene.absent(), yes=yes
        )
    square = query.squares[0]
    text = capital(scene.stands(square))
    if query.men:
        yes = bool(scene.men())
        return BoardReply(f"{yes_no(yes)}: {scene.stands(square)}", yes=yes, squares=(square,) if yes else ())
    there = scene.board.piece_at(square) is not None
    low = query.said.casefold()
    if low.lstrip().startswith("is "):
        yes = there != ("empty" in low or "free" in low)
        return BoardReply(f"{yes_no(yes)}: {scene.stands(square)}", yes=yes)
    return BoardReply(text, yes=there)


def shade(scene: Scene) -> BoardReply:
    square = scene.query.squares[0]
    light = bool(chess.BB_LIGHT_SQUARES & chess.BB_SQUARES[square])
    words = [str(thing) for tag, thing in scene.query.things if tag in "LC"]
    what = f"{chess.SQUARE_NAMES[square]} is a {'light' if light else 'dark'} square."
    if len(words) == 1:
        yes = (words[0] in ("light", "white")) == light
        return BoardReply(f"{yes_no(yes)}: {what}", yes=yes)
    return BoardReply(what)


def where(scene: Scene) -> BoardReply:
    man = scene.query.men[0]
    colour = scene.colour(man.side) if man.side else scene.side
    found = [s for s in scene.men(man) if colour is None or scene.board.color_at(s) == colour]
    if man.kind is None:
        found = []
    parts = []
    for side in chess.COLORS if colour is None else [colour]:
        own = [s for s in found if scene.board.color_at(s) == side]
        kind = name(man.kind or chess.PAWN)
        if not own:
            parts.append(f"{colour_name(side)} has no {kind}.")
        else:
            plural = "" if len(own) == 1 else "s"
            parts.append(
                f"{colour_name(side)}'s {kind}{plural} {'is' if len(own) == 1 else 'are'} on {names(own)}."
            )
    return BoardReply(" ".join(parts), squares=tuple(found), number=len(found))


def how_many_men(scene: Scene) -> BoardReply:
    man = scene.query.men[0] if scene.query.men else None
    side = scene.colour(man.side) if man and man.side else scene.side
    board = scene.board
    sides = list(chess.COLORS) if side is None else [side]
    numbers = [
        chess.popcount(
            board.occupied_co[one] if man is None or man.kind is None else board.pieces_mask(man.kind, one)
        )
        for one in sides
    ]
    kind = "man" if man is None or man.kind is None else name(man.kind)
    parts = [f"{colour_name(one)} has {count(n, kind)}" for one, n in zip(sides, numbers, strict=True)]
    total = sum(numbers)
    text = f"{listed(parts)}." if len(parts) == 1 else f"{count(total, kind).capitalize()}: {listed(parts)}."
    return BoardReply(text, number=total, yes=bool(total))


def worth(scene: Scene) -> BoardReply:
    """The usual value of a man (common practice: 1 3 3 5 9)."""
    kind = scene.query.men[0].kind
    if kind is None:
        return unknown("Name a kind of man, such as a knight.")
    if kind == chess.KING:
        return BoardReply("A king has no price: it is never taken.")
    pawns = "one pawn" if VALUES[kind] == 1 else f"{VALUES[kind]} pawns"
    return BoardReply(f"A {name(kind)} is usually counted as {pawns}.", number=VALUES[kind])
