"""Answers about men that are unguarded, hang or are pinned."""

from __future__ import annotations

import re

import chess

from player.facts.attacks import pins
from player.facts.exchange import OutOfNodes
from player.facts.seen import Hanging, attacked_men, hanging, pinned_men, unguarded
from player.wording.asked.men import targets
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown, yes_no
from player.wording.names import colour_name

_SHOWN = 4
_TAKEN = re.compile(r"\b(?:be|is|it) (?:taken|captured)\b|\bcan .* (?:take|capture)\b", re.IGNORECASE)
_TOO_LONG = "It would take more looking than there is time for; it is not known."


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
    sides = _sides(scene)
    if scene.query.word == "taken by" and scene.side is not None:
        sides = [not scene.side]
    for side in sides:
        found = hanging(scene.board, side, scene.nodes)
        if found is None:
            missed.append(side)
            continue
        parts += [_hangs(scene, one) for one in found]
        squares += [one.square for one in found]
    if not squares and not missed:
        whose = "Nothing" if len(sides) > 1 else f"Nothing of {colour_name(sides[0])}'s"
        return BoardReply(f"{whose} can be taken for nothing or at a profit.", yes=False, number=0)
    if len(parts) > _SHOWN:
        parts = [
            *parts[:_SHOWN],
            f"So can {scene.the(squares[_SHOWN:], sides=True)}, unguarded or at a profit.",
        ]
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
    if len(asked) > 2 or (yes and len(asked) > 1):
        hang = (
            [part for part in parts if part.startswith(tuple(_head(scene, s) for s in squares))]
            if yes
            else []
        )
        none = f"none of the {count(len(asked), 'man')} can be taken for nothing or at a profit."
        text = " ".join(hang) if yes else none
        return BoardReply(f"{yes_no(yes)}{'.' if yes else ':'} {text}", squares=tuple(squares), yes=yes)
    if not yes and len(asked) == 1 and _TAKEN.search(scene.query.said) and _can_be_taken(scene, asked[0]):
        return BoardReply(f"Yes, it can. {parts[0]}", yes=True)
    return BoardReply(f"{yes_no(yes)}. {' '.join(parts)}", squares=tuple(squares), yes=yes)


def _head(scene: Scene, square: chess.Square) -> str:
    return capital(scene.the([square], sides=True))


def _can_be_taken(scene: Scene, square: chess.Square) -> bool:
    """Whether the man on a square could legally be taken, were it the other side's move."""
    board = scene.board.copy(stack=False)
    board.turn = not scene.board.color_at(square)
    return any(move.to_square == square for move in board.generate_legal_captures())


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
    to_king = {pin[0] for pin in fits if scene.board.piece_type_at(pin[2]) == chess.KING}
    if behind is None:
        # A pin to the king is the pin that is meant; another one beside it only confuses.
        fits = [p for p in fits if p[0] not in to_king or scene.board.piece_type_at(p[2]) == chess.KING]
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
    if len(asked) > 1:
        return BoardReply("No: none of them is pinned.", yes=False)
    return BoardReply(f"No. {capital(scene.the(asked, sides=True))} is not pinned.", yes=False)


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
