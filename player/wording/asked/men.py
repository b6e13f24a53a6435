"""Answers about who attacks, guards, hits and sees what."""

from __future__ import annotations

import re
from dataclasses import replace

import chess

from player.wording.asked.reply import BoardReply, Scene, capital, names, yes_no
from player.wording.names import colour_name, listed


def targets(scene: Scene) -> list[chess.Square] | BoardReply:
    """The squares asked about: those named, or where the men named stand; or that there is no such man."""
    query = scene.query
    out: list[chess.Square] = []
    for tag, thing in query.things:
        if tag == "S" and isinstance(thing, int):
            out.append(thing)
    for man in query.men:
        found = scene.men(man)
        if not found:
            return BoardReply(scene.absent(man))
        out += found
    return out


def _asked_men(scene: Scene) -> tuple[list[chess.Square], list[chess.Square]] | BoardReply:
    """For "which knight attacks e5": the squares asked about, and the men that may be the answer."""
    things = scene.query.things
    if len(things) > 1 and things[0][0] == "K" and things[-1][0] in "SM":
        man = scene.query.men[0]
        last = things[-1][1]
        square = last if isinstance(last, int) else scene.query.squares[-1]
        return [square], scene.men(man)
    found = targets(scene)
    return found if isinstance(found, BoardReply) else (found, list(chess.SquareSet(scene.board.occupied)))


def attackers(scene: Scene) -> BoardReply:
    """Who attacks a square: the other side's men where a man stands there, else both sides'."""
    found = _asked_men(scene)
    if isinstance(found, BoardReply):
        return found
    parts, squares = [], []
    for square in found[0][:4]:
        piece = scene.board.piece_at(square)
        sides = [scene.side] if scene.side is not None else [not piece.color] if piece else list(chess.COLORS)
        hits = [s for side in sides for s in scene.board.attackers(bool(side), square) if s in found[1]]
        squares += [s for s in hits if s not in squares]
        what = _named(scene, square)
        if not hits:
            who = "Nothing" if scene.side is None else f"Nothing of {colour_name(scene.side)}'s"
            parts.append(f"{who} attacks {what}.")
            continue
        parts.append(capital(f"{what} is attacked by {_by_side(scene, hits)}."))
    return BoardReply(" ".join(parts), squares=tuple(squares), number=len(squares), yes=bool(squares))


def _named(scene: Scene, square: chess.Square) -> str:
    piece = scene.board.piece_at(square)
    return chess.SQUARE_NAMES[square] if piece is None else scene.the([square], sides=True)


def _by_side(scene: Scene, squares: list[chess.Square], of_both: bool = False) -> str:
    """The men by name, with their side where it is not plain; `of_both` where both sides' were asked for."""
    sides = {scene.board.color_at(s) for s in squares}
    return scene.the(squares, sides=len(sides) > 1 or len(squares) == 1 or of_both)


def guards(scene: Scene) -> BoardReply:
    """Who guards a man, or could recapture on an empty square, for each side."""
    found = _asked_men(scene)
    if isinstance(found, BoardReply):
        return found
    parts, squares = [], []
    for square in found[0][:4]:
        piece = scene.board.piece_at(square)
        sides = [piece.color] if piece else [scene.side] if scene.side is not None else list(chess.COLORS)
        hits = [s for side in sides for s in scene.board.attackers(bool(side), square) if s in found[1]]
        squares += [s for s in hits if s not in squares]
        what = _named(scene, square)
        if piece is not None and piece.piece_type == chess.KING:
            parts.append("A king is never taken, so nothing guards it.")
        elif hits:
            parts.append(capital(f"{what} is guarded by {_by_side(scene, hits)}."))
        else:
            parts.append(f"Nothing guards {what}.")
    return BoardReply(" ".join(parts), squares=tuple(squares), number=len(squares), yes=bool(squares))


def attack_count(scene: Scene) -> BoardReply:
    return _counted(attackers(scene), scene, "attacked")


def guard_count(scene: Scene) -> BoardReply:
    return _counted(guards(scene), scene, "guarded")


def _counted(reply: BoardReply, scene: Scene, word: str) -> BoardReply:
    found = targets(scene)
    if isinstance(found, BoardReply):
        return found
    if len(found) != 1:
        return reply
    number = len(reply.squares)
    times = "once" if number == 1 else "twice" if number == 2 else f"{number} times"
    empty = scene.board.piece_at(found[0]) is None
    by = f", by {_by_side(scene, list(reply.squares), empty)}" if number else ""
    what = f"is {word} {times}{by}" if number else f"is not {word}"
    text = capital(f"{_named(scene, found[0])} {what}.")
    return BoardReply(text, squares=reply.squares, number=number, yes=bool(number))


def is_attacked(scene: Scene) -> BoardReply:
    reply = attackers(scene)
    found = targets(scene)
    if reply.yes is None or isinstance(found, BoardReply):
        return reply
    hit = [s for s in found if any(s in scene.board.attacks(one) for one in reply.squares)]
    return _answered(replace(reply, squares=tuple(hit)), bool(reply.squares))


def is_guarded(scene: Scene) -> BoardReply:
    reply = guards(scene)
    found = targets(scene)
    if not isinstance(found, BoardReply) and len(found) > 1 and reply.yes:
        board = scene.board
        bare = [
            s
            for s in found
            if board.color_at(s) is not None and not board.attackers(bool(board.color_at(s)), s)
        ]
        if bare and len(bare) < len(found):
            text = f"Not all: nothing guards {scene.the(bare, sides=True)}."
            return replace(reply, text=text, yes=scene.query.word == "not")
    if scene.query.word == "not":
        return _answered(reply, not reply.squares)
    return _answered(reply, bool(reply.squares))


def hits_by(scene: Scene) -> BoardReply:
    """Whether a square or man is attacked, or guarded, by a man: `hits` asked the other way round."""
    word = "guard" if re.search(r"guard|defend|protect|cover|support", scene.query.said, re.I) else "attack"
    things = (scene.query.things[-1], *scene.query.things[:-1])
    return hits(replace(scene, query=replace(scene.query, word=word, things=things)))


def _answered(reply: BoardReply, yes: bool) -> BoardReply:
    if reply.yes is None:
        return reply
    return BoardReply(f"{yes_no(yes)}. {reply.text}", squares=reply.squares, number=reply.number, yes=yes)


def hits(scene: Scene) -> BoardReply:
    """Whether a man attacks, or guards, a square or a man."""
    man, *others = scene.query.men
    from_ = scene.men(man)
    if not from_:
        return BoardReply(scene.absent(man))
    at = scene.query.all("S")
    to = [int(one) for one in at if isinstance(one, int)]
    for other in others:
        found = scene.men(other)
        if not found:
            return BoardReply(scene.absent(other))
        to += found
    pairs = [(a, b) for a in from_ for b in to if b in scene.board.attacks(a)]
    verb = scene.query.word
    pairs = [
        (a, b)
        for a, b in pairs
        if scene.board.color_at(b) is None
        or (scene.board.color_at(a) == scene.board.color_at(b)) == (verb == "guard")
    ]
    if pairs:
        said = [f"{scene.the([a], sides=True)} {verb}s {_named(scene, b)}" for a, b in pairs]
        return BoardReply(f"Yes. {capital(listed(said))}.", squares=tuple(b for _, b in pairs), yes=True)
    text = (
        f"No. {capital(scene.the(from_, sides=True))} {'does' if len(from_) == 1 else 'do'} "
        f"not {verb} {listed([_named(scene, s) for s in to])}."
    )
    return BoardReply(text, yes=False)


def sees(scene: Scene) -> BoardReply:
    """The squares a man attacks: empty ones, enemy men, and own men it guards."""
    found = scene.men()
    if not found:
        return BoardReply(scene.absent())
    parts, squares = [], []
    only = [thing for tag, thing in scene.query.things[1:] if tag == "C"]
    for square in found[:4]:
        colour = bool(scene.board.color_at(square))
        reached = scene.board.attacks(square)
        enemy = [s for s in reached if scene.board.color_at(s) == (not colour)]
        own = [s for s in reached if scene.board.color_at(s) == colour]
        empty = [s for s in reached if scene.board.piece_at(s) is None]
        said = [f"attacks {scene.the(enemy)}"] * bool(enemy)
        if not only:
            said += [f"looks at {names(empty)}"] * bool(empty) + [f"guards {scene.the(own)}"] * bool(own)
        squares += enemy if only else list(reached)
        parts.append(
            capital(f"{scene.the([square], sides=True)} {listed(said) if said else 'attacks nothing'}.")
        )
    return BoardReply(" ".join(parts), squares=tuple(squares), number=len(squares), yes=bool(squares))
