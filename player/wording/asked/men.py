"""Answers about men: who attacks, guards, pins and hangs, who stands where, and how many there are."""

from __future__ import annotations

from dataclasses import replace

import chess

from player.facts.attacks import pins
from player.facts.exchange import OutOfNodes
from player.facts.material import VALUES
from player.facts.seen import Hanging, attacked_men, given_move, hanging, pinned_men, unguarded
from player.wording.asked.reply import BoardReply, Scene, capital, count, names, unknown, yes_no
from player.wording.names import colour_name, listed, name

_TOO_LONG = "It would take more looking than there is time for; it is not known."


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


def _by_side(scene: Scene, squares: list[chess.Square]) -> str:
    return scene.the(squares, sides=len({scene.board.color_at(s) for s in squares}) > 1 or len(squares) == 1)


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
    times = "not" if not number else "once" if number == 1 else "twice" if number == 2 else f"{number} times"
    by = f", by {_by_side(scene, list(reply.squares))}" if number else ""
    text = capital(f"{_named(scene, found[0])} is {word} {times}{by}.")
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
    if scene.query.word == "not":
        return _answered(reply, not reply.squares)
    return _answered(reply, bool(reply.squares))


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


def _sides(scene: Scene) -> list[chess.Color]:
    return list(chess.COLORS) if scene.side is None else [scene.side]


def unguarded_men(scene: Scene) -> BoardReply:
    squares = [s for side in _sides(scene) for s in unguarded(scene.board, side)]
    if not squares:
        whose = "" if scene.side is None else f" {colour_name(scene.side)}"
        return BoardReply(f"Every{whose} man, kings aside, is guarded.", yes=False)
    text = f"Guarded by nothing: {scene.the(squares, sides=True)}."
    return BoardReply(text, squares=tuple(squares), number=len(squares), yes=True)


def men_attacked(scene: Scene) -> BoardReply:
    """Which men are attacked; "what does Black attack" asks it of the other side's."""
    text = scene.query.said.casefold()
    side = scene.side
    if side is not None and "attacked" not in text and "danger" not in text and "under" not in text:
        side = not side
    sides = list(chess.COLORS) if side is None else [side]
    squares = [s for one in sides for s in attacked_men(scene.board, one)]
    if not squares:
        whose = "No man" if side is None else f"No {'white' if side else 'black'} man"
        return BoardReply(f"{whose} is attacked.", yes=False, number=0)
    return BoardReply(
        f"Attacked: {scene.the(squares, sides=True)}.", squares=tuple(squares), number=len(squares), yes=True
    )


def hanging_men(scene: Scene) -> BoardReply:
    """Men that could legally be taken unguarded, or at a profit by captures alone."""
    parts: list[str] = []
    squares: list[chess.Square] = []
    missed: list[chess.Color] = []
    for side in _sides(scene):
        found = hanging(scene.board, side, scene.nodes)
        if found is None:
            missed.append(side)
            continue
        parts += [_hangs(scene, one) for one in found]
        squares += [one.square for one in found]
    if not squares and not missed:
        whose = "Nothing" if scene.side is None else f"Nothing of {colour_name(scene.side)}'s"
        return BoardReply(f"{whose} can be taken for nothing or at a profit.", yes=False, number=0)
    parts += [_not_asked(scene, side) for side in missed]
    if missed and not squares:
        return unknown(" ".join(parts))
    return BoardReply(" ".join(parts), squares=tuple(squares), number=len(squares), yes=True)


def _not_asked(scene: Scene, side: chess.Color) -> str:
    if scene.board.is_check():
        who = colour_name(scene.board.turn)
        return f"{who} is in check, so what of {colour_name(side)}'s hangs is not known until that is met."
    return "Nobody can move on this board, so what hangs is not known."


def _hangs(scene: Scene, one: Hanging) -> str:
    by = scene.the(list(one.takers))
    what = scene.the([one.square], sides=True)
    if not one.guarded:
        return capital(f"{what} can be taken by {by}, and nothing guards it.")
    return capital(f"{what} is guarded, but taking it with {by} wins material.")


def is_hanging(scene: Scene) -> BoardReply:
    asked = targets(scene)
    if isinstance(asked, BoardReply):
        return asked
    parts, squares = [], []
    for square in asked:
        piece = scene.board.piece_at(square)
        if piece is None:
            return BoardReply(f"No: {scene.stands(square)}", yes=False)
        found = hanging(scene.board, piece.color, scene.nodes)
        if found is None:
            return unknown(_not_asked(scene, piece.color))
        one = next((one for one in found if one.square == square), None)
        if one is not None:
            squares.append(square)
            parts.append(_hangs(scene, one))
            continue
        attacked = scene.board.attackers(not piece.color, square)
        guarded = scene.board.attackers(piece.color, square)
        what = capital(scene.the([square], sides=True))
        if not attacked:
            parts.append(f"{what} is not attacked.")
        elif guarded:
            parts.append(
                f"{what} is attacked by {scene.the(attacked)} and guarded "
                f"by {scene.the(guarded)}; taking it wins nothing."
            )
        else:
            parts.append(f"{what} is attacked, but cannot legally be taken.")
    yes = bool(squares)
    return BoardReply(f"{yes_no(yes)}. {' '.join(parts)}", squares=tuple(squares), yes=yes)


def all_pins(scene: Scene) -> BoardReply:
    try:
        found = pinned_men(scene.board, scene.nodes)
    except OutOfNodes:
        return unknown(_TOO_LONG)
    found = [pin for pin in found if scene.side is None or scene.board.color_at(pin[0]) == scene.side]
    if not found:
        whose = "Nothing" if scene.side is None else f"Nothing of {colour_name(scene.side)}'s"
        return BoardReply(f"{whose} is pinned.", yes=False, number=0)
    squares = tuple(dict.fromkeys(pin[0] for pin in found))
    text = " ".join(_pin(scene, *pin) for pin in found)
    return BoardReply(text, squares=squares, number=len(squares), yes=True)


def _pin(scene: Scene, square: chess.Square, slider: chess.Square, behind: chess.Square) -> str:
    to = scene.the([behind])
    return capital(f"{scene.the([square], sides=True)} is pinned to {to} by {scene.the([slider])}.")


def is_pinned(scene: Scene) -> BoardReply:
    """Which of the men named is pinned, and to what; with a second man or square, whether to that."""
    query = scene.query
    first = query.things[0]
    behind: list[chess.Square] | None = None
    if len(query.things) > 1 and query.things[1][0] in "SMK":
        second = query.things[1][1]
        behind = [second] if isinstance(second, int) else scene.men(query.men[-1])
    asked = [first[1]] if isinstance(first[1], int) else scene.men()
    if not asked or (query.men and not scene.men()):
        return BoardReply(scene.absent())
    if first[0] == "S" and not scene.board.piece_at(asked[0]):
        return BoardReply(f"No: {scene.stands(asked[0])}", yes=False)
    try:
        found = [(square, *pin) for square in asked for pin in pins(scene.board, square, scene.nodes)]
    except OutOfNodes:
        return unknown(_TOO_LONG)
    fits = [pin for pin in found if behind is None or pin[2] in behind]
    if fits:
        squares = tuple(dict.fromkeys(pin[0] for pin in fits))
        return BoardReply(
            f"Yes. {' '.join(_pin(scene, *pin) for pin in fits)}",
            squares=squares,
            number=len(squares),
            yes=True,
        )
    if found:
        return BoardReply(f"No. {' '.join(_pin(scene, *pin) for pin in found)}", yes=False)
    stand = "is" if len(asked) == 1 else "are"
    none = "not pinned" if len(asked) == 1 else "none of them pinned"
    return BoardReply(f"No. {capital(scene.the(asked, sides=True))} {stand} {none}.", yes=False)


def pinned_to(scene: Scene) -> BoardReply:
    """What a man is pinned to, or by."""
    reply = is_pinned(scene)
    return BoardReply(
        reply.text.removeprefix("Yes. ").removeprefix("No. "),
        reply.standing,
        squares=reply.squares,
        number=reply.number,
        yes=reply.yes,
    )


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


__all__ = ["given_move", "targets"]
