"""Answers about the colour of the squares men stand on."""

from __future__ import annotations

import re

import chess

from player.facts.claim import Claim
from player.wording.asked.reply import BoardReply, Scene, capital, names, yes_no
from player.wording.names import colour_name, listed, name


def shade_of(square: chess.Square) -> str:
    return "light" if chess.BB_LIGHT_SQUARES & chess.BB_SQUARES[square] else "dark"


def on_shade(scene: Scene) -> BoardReply:
    """On light or dark squares: where bishops, or other men, stand; all of them, or how many."""
    men = scene.men()
    if not men:
        return BoardReply(scene.absent())
    shades = [str(thing) for tag, thing in scene.query.things if tag == "L"]
    low = scene.query.said.casefold()
    if len(shades) == 1:
        right = [s for s in men if shade_of(s) == shades[0]]
        if "how many" in low:
            text = f"{capital(str(len(right) or 'none'))}{_on(right)}."
            return BoardReply(text, squares=tuple(right), number=len(right), yes=bool(right))
        if low.lstrip().startswith(("which", "what")):
            text = (
                f"On {shades[0]} squares{_on(right)}." if right else f"None stands on a {shades[0]} square."
            )
            return BoardReply(text, squares=tuple(right), number=len(right), yes=bool(right))
        return _whether(scene, men, right, shades[0], bool(re.search(r"\bany\b", low)))
    if len(men) <= 4:
        said = [f"{scene.the([s], sides=True)} stands on a {shade_of(s)} square" for s in men]
        return BoardReply(capital(f"{listed(said)}."), squares=tuple(men))
    return BoardReply(_parted(men), squares=tuple(men))


def _on(men: list[chess.Square]) -> str:
    return f": {names(men)}" if men else ""


def _whether(
    scene: Scene, men: list[chess.Square], right: list[chess.Square], shade: str, any_: bool
) -> BoardReply:
    """Whether men stand on squares of a shade: all where all are asked of, one where any is."""
    yes = bool(right) if any_ else len(right) == len(men)
    if len(men) <= 2:
        said = [f"{scene.the([s], sides=True)} stands on a {shade_of(s)} square" for s in men]
        lead = "Yes" if yes else "Not both" if right else "No"
        return BoardReply(f"{lead}: {listed(said)}.", yes=yes, squares=tuple(right))
    if len(right) in (0, len(men)):
        where = shade if right else "dark" if shade == "light" else "light"
        return BoardReply(f"{yes_no(yes)}: {names(men)} are all {where}.", yes=yes, squares=tuple(right))
    lead = "Yes" if yes else "No, not all"
    return BoardReply(f"{lead}: {_low(_parted(men))}", yes=yes, squares=tuple(right))


def _low(text: str) -> str:
    return text[0].lower() + text[1:]


def _parted(men: list[chess.Square]) -> str:
    parts = [(shade, [s for s in men if shade_of(s) == shade]) for shade in ("light", "dark")]
    said = [f"on {shade} squares {names(found)}" for shade, found in parts if found]
    return f"{capital('; '.join(said))}."


def opposite_bishops(scene: Scene) -> BoardReply:
    """Whether the bishops are of opposite colours; or of the same colour, where that is asked."""
    if "same" not in scene.query.said.casefold():
        return scene.proved(Claim("opposite bishops"))
    man = scene.query.men[0] if scene.query.men else None
    kind = chess.BISHOP if man is None or man.kind is None else man.kind
    side = scene.colour(man.side) if man is not None else None
    found = [
        s
        for s in chess.SquareSet(scene.board.occupied)
        if scene.board.piece_type_at(s) == kind and side in (None, scene.board.color_at(s))
    ]
    if len(found) < 2:
        who = "There is" if side is None else f"{colour_name(side)} has"
        return BoardReply(f"{who} {f'one {name(kind)} only' if found else f'no {name(kind)}'}.")
    yes = len({shade_of(s) for s in found}) == 1
    said = [f"{scene.the([s], sides=True)} stands on a {shade_of(s)} square" for s in found[:4]]
    text = f"{listed(said)}." if len(found) <= 4 else _low(_parted(found))
    return BoardReply(f"{yes_no(yes)}: {text}", yes=yes, squares=tuple(found))
