"""Words that could be a move or a man: what a man would attack from a square, or does where it stands."""

from __future__ import annotations

import re
from dataclasses import replace

import chess

from player.facts.exchange import OutOfNodes
from player.facts.seen import pinned_men
from player.facts.strikes import forked_by
from player.wording.asked.forms import query_of
from player.wording.asked.played import Made, made, short
from player.wording.asked.reply import BoardReply, Scene, capital, unknown
from player.wording.asked.words import Man, plain_question
from player.wording.names import listed, man_at

_GUARD = ("defend", "guard", "protect", "cover", "support")


def as_placed(scene: Scene, form: str) -> BoardReply | None:
    """The same question asked of the man that stands where the words say, or None where none does."""
    from player.wording.asked import answer_query

    things = plain_question(scene.query.move).things
    if len(things) != 1:
        return None
    tag, thing = things[0]
    if tag == "V":
        man = _as_man(str(thing))
        if man is None:
            return None
        tag, thing = "M", man
    square = thing if isinstance(thing, int) and tag == "S" else getattr(thing, "square", None)
    if square is None or scene.board.piece_at(square) is None:
        return None
    kind = getattr(thing, "kind", None)
    if kind is not None and scene.board.piece_type_at(square) != kind:
        return None
    query = query_of(form.format(f"the {man_at(scene.board, square)}"))
    if query is None or query.move:
        return None
    return answer_query(query, scene.board, me=scene.me, before=scene.before, language=scene.language)


def _as_man(move: str) -> Man | None:
    """The man of a move like Bd2, on the square it would go to."""
    found = re.fullmatch(r"([KQRBN])([a-h][1-8])", move)
    if found is None:
        return None
    kind = chess.PIECE_SYMBOLS.index(found[1].lower())
    return Man(kind, "", chess.parse_square(found[2]))


def hits(scene: Scene) -> BoardReply:
    """What a man would attack, guard, fork or pin after its move; with a target, whether that."""
    word = scene.query.word or "attack"
    found = made(scene)
    if isinstance(found, BoardReply):
        verb = "guard" if word in _GUARD else "attack"
        form = f"does {{}} {verb} {scene.query.inner}" if scene.query.inner else f"what does {{}} {verb}"
        return as_placed(scene, form) or found
    then, to = found.after, found.move.to_square
    said = capital(short(found.before, found.move))
    if word == "fork":
        return _forks(found, said)
    if word == "pin":
        return _pins(scene, found, said)
    guard = word in _GUARD
    side = found.side if guard else not found.side
    men = [s for s in then.attacks(to) if then.color_at(s) == side]
    if scene.query.inner:
        return _whether(scene, found, guard)
    verb = "would guard" if guard else "would attack"
    if not men:
        return BoardReply(f"{said} {verb} no man.", yes=False, number=0, moves=(found.move,))
    what = listed([f"the {man_at(then, s)}" for s in men])
    text = f"{said} {verb} {what}."
    return BoardReply(text, squares=tuple(men), number=len(men), yes=True, moves=(found.move,))


def _whether(scene: Scene, found: Made, guard: bool) -> BoardReply:
    then, to = found.after, found.move.to_square
    inner = replace(scene, board=then)
    squares = [thing for tag, thing in scene.query.things if tag == "S" and isinstance(thing, int)]
    for man in scene.query.men:
        at = [s for s in inner.men(man) if (then.color_at(s) == found.side) == guard]
        if not at:
            return BoardReply(f"No: {inner.absent(man)}", yes=False)
        squares += at
    if not squares:
        return unknown("Name a square or a man, such as e5 or the queen.")
    hit = [s for s in squares if s in then.attacks(to)]
    verb = "guard" if guard else "attack"
    shown = listed([_name(then, s) for s in (hit or squares)[:3]], "and" if hit else "or")
    would = f"{capital(short(found.before, found.move))} {'would' if hit else 'would not'} {verb} {shown}."
    return BoardReply(
        f"{'Yes' if hit else 'No'}. {would}", yes=bool(hit), squares=tuple(hit), moves=(found.move,)
    )


def _name(board: chess.Board, square: chess.Square) -> str:
    return f"the {man_at(board, square)}" if board.piece_at(square) else chess.SQUARE_NAMES[square]


def _forks(found: Made, said: str) -> BoardReply:
    hit = forked_by(found.before, found.move)
    men = listed([f"the {man_at(found.after, s)}" for s in hit])
    if len(hit) > 1:
        return BoardReply(f"Yes: it hits {men}.", squares=tuple(hit), yes=True, moves=(found.move,))
    return BoardReply(f"No: {said[0].lower()}{said[1:]} forks nothing.", yes=False, moves=(found.move,))


def _pins(scene: Scene, found: Made, said: str) -> BoardReply:
    try:
        pins = [pin for pin in pinned_men(found.after, scene.nodes) if pin[1] == found.move.to_square]
    except OutOfNodes:
        return unknown("It would take more looking than there is time for; it is not known.")
    if not pins:
        return BoardReply(f"No: {said[0].lower()}{said[1:]} pins nothing.", yes=False, moves=(found.move,))
    square, _, behind = pins[0]
    text = f"Yes: it pins the {man_at(found.after, square)} to the {man_at(found.after, behind)}."
    return BoardReply(text, yes=True, squares=(square,), moves=(found.move,))


def then_asked(scene: Scene) -> BoardReply:
    """A question asked of the board as it will stand after a move."""
    from player.wording.asked import answer_query

    found = made(scene)
    if isinstance(found, BoardReply):
        return found
    query = query_of(scene.query.inner)
    if query is None or query.kind in ("then", "why not"):
        return unknown("Make the move with 'what if', and ask again.")
    reply = answer_query(query, found.after, me=scene.me, language=scene.language)
    lead = f"After {short(found.before, found.move)}: "
    text = reply.text
    first = text.partition(" ")[0].strip(".,:")
    if first in ("Yes", "No"):
        return replace(reply, text=text)
    return replace(reply, text=f"{lead}{text[0].lower() + text[1:] if text.startswith('The ') else text}")
