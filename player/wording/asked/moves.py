"""Answers about where men can go, and what can be taken."""

from __future__ import annotations

import re

import chess

from player.facts.exchange import OutOfNodes
from player.facts.seen import given_move
from player.facts.seen_moves import moves_of, safe_moves, way_to
from player.wording.asked.reply import BoardReply, Scene, capital, count, names, unknown, yes_no
from player.wording.names import colour_name

_TOO_LONG = "It would take more looking than there is time for; it is not known."


def given_to(scene: Scene, side: chess.Color) -> chess.Board | BoardReply:
    """The board with `side` to move, or why there is none."""
    given = given_move(scene.board, side)
    if given is not None:
        return given
    if scene.board.is_check():
        return unknown(f"{colour_name(scene.board.turn)} is in check and must meet that first.")
    return unknown("Nobody can move on this board.")


def movers(scene: Scene) -> list[chess.Square] | BoardReply:
    """The men a question of moves means; with no side said, those of the side to move where there are any."""
    found = scene.men()
    if not found:
        return BoardReply(scene.absent())
    man = scene.query.men[0]
    if not man.side and man.square is None:
        own = [
            s
            for s in found
            if scene.board.color_at(s) == (scene.board.turn if scene.side is None else scene.side)
        ]
        found = own or found
    return found


def _would(scene: Scene, square: chess.Square) -> str:
    return "can" if scene.board.color_at(square) == scene.board.turn else "could, with the move,"


def man_moves(scene: Scene) -> BoardReply:
    found = movers(scene)
    if isinstance(found, BoardReply):
        return found
    parts, all_moves, squares = [], [], []
    for square in found[:8]:
        given = given_to(scene, bool(scene.board.color_at(square)))
        if isinstance(given, BoardReply):
            return given
        moves = moves_of(given, square)
        to = list(dict.fromkeys(move.to_square for move in moves))
        all_moves += moves
        squares += to
        who = capital(scene.the([square], sides=True))
        takes = [s for s in to if any(given.is_capture(m) for m in moves if m.to_square == s)]
        quiet = [s for s in to if s not in takes]
        said = [f"take on {names(takes)}"] * bool(takes) + [f"go to {names(quiet)}"] * bool(quiet)
        number = f" ({count(len(moves), 'move')})" if scene.query.kind == "move count" else ""
        if moves:
            became = ", and becomes another man" if moves[0].promotion else ""
            parts.append(f"{who} {_would(scene, square)} {' and '.join(said)}{number}{became}.")
        else:
            pinned = given.is_pinned(given.turn, square)
            parts.append(f"{who} is pinned to the king and has no move." if pinned else f"{who} has no move.")
    text = " ".join(parts)
    if re.match(r"(?:and |so )?(?:can|could|may|has|does|is)\b", scene.query.said.strip(), re.I):
        text = f"{yes_no(bool(all_moves))}: {text[0].lower()}{text[1:]}"
    return BoardReply(
        text,
        squares=tuple(squares),
        number=len(all_moves),
        yes=bool(all_moves),
        moves=tuple(all_moves),
    )


def safe(scene: Scene) -> BoardReply:
    """Squares a man can go to where no capture of it would pay."""
    found = movers(scene)
    if isinstance(found, BoardReply):
        return found
    parts, squares, all_moves = [], [], []
    for square in found[:4]:
        given = given_to(scene, bool(scene.board.color_at(square)))
        if isinstance(given, BoardReply):
            return given
        try:
            moves = safe_moves(given, square, scene.nodes)
        except OutOfNodes:
            return unknown(_TOO_LONG)
        to = list(dict.fromkeys(move.to_square for move in moves))
        squares += to
        all_moves += moves
        who = scene.the([square], sides=True)
        if to:
            parts.append(f"{count(len(to), 'safe square').capitalize()} for {who}: {names(to)}.")
        else:
            parts.append(f"No square is safe for {who} to go to.")
    return BoardReply(
        " ".join(parts),
        squares=tuple(squares),
        number=len(squares),
        yes=bool(squares),
        moves=tuple(all_moves),
    )


def is_safe(scene: Scene) -> BoardReply:
    """Whether a man would be safe on a square, or is safe where it stands: no capture of it pays."""
    from player.wording.asked.danger import is_hanging

    squares = [thing for thing in scene.query.all("S") if isinstance(thing, int)]
    if not squares:
        reply = is_hanging(scene)
        if reply.yes is None:
            return reply
        said = reply.text.partition(". ")[2]
        return BoardReply(f"{yes_no(not reply.yes)}. {said}", squares=reply.squares, yes=not reply.yes)
    found = safe(scene)
    if found.standing == "unknown" or found.yes is None:
        return found
    yes = squares[0] in found.squares
    here = chess.SQUARE_NAMES[squares[0]]
    reach = man_moves(scene)
    if not yes and squares[0] not in reach.squares:
        return BoardReply(f"No: it cannot go to {here}.", yes=False)
    text = (
        f"once there, no capture of it would pay on {here}."
        if yes
        else f"on {here} it could be taken at a profit."
    )
    return BoardReply(f"{yes_no(yes)}: {text}", yes=yes, squares=(squares[0],) if yes else ())


def side_moves(scene: Scene) -> BoardReply:
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    number = given.legal_moves.count()
    would = "has" if side == scene.board.turn else "would have, with the move,"
    return BoardReply(
        f"{colour_name(side)} {would} {count(number, 'legal move')}.", number=number, yes=bool(number)
    )


def reach(scene: Scene) -> BoardReply:
    """Whether, and how soon, a man reaches a square, the other men standing still and attacks left aside."""
    found = movers(scene)
    if isinstance(found, BoardReply):
        return found
    goals = [thing for thing in scene.query.all("S") if isinstance(thing, int)]
    if not goals:
        return man_moves(scene)
    goal = goals[0]
    here = chess.SQUARE_NAMES[goal]
    best: tuple[int, chess.Square, list[chess.Square]] | None = None
    for square in found:
        way = way_to(scene.board, square, goal)
        if way is not None and (best is None or len(way) < best[0]):
            best = len(way), square, way
    once = scene.query.number == 1 or (
        " go " in f" {scene.query.said} " and "how" not in scene.query.said.casefold()
    )
    if best is not None and best[0] == 0:
        return BoardReply(f"It stands on {here} already.", number=0, yes=True)
    if best is not None and once and best[0] > 1:
        who = scene.the([best[1]], sides=True)
        return BoardReply(
            f"No, not in one move: {who} needs {best[0]}, by way of {names(best[2][:-1])}.",
            number=best[0],
            yes=False,
        )
    if best is None:
        return BoardReply(
            f"No: {scene.the(found, sides=True)} cannot reach {here} while the other men stand still.",
            yes=False,
        )
    who = scene.the([best[1]], sides=True)
    by = f", by way of {names(best[2][:-1])}" if best[0] > 1 else ""
    if best[0] == 1:
        given = given_move(scene.board, bool(scene.board.color_at(best[1])))
        if given is not None and not any(m.to_square == goal for m in moves_of(given, best[1])):
            return BoardReply(
                f"No: {who} may not move to {here}, for its king would stand in check.", yes=False
            )
    lead = "" if re.match(r"(?:and |so )?(?:how|what)\b", scene.query.said.strip(), re.I) else "Yes: "
    return BoardReply(
        f"{lead}{who if lead else capital(who)} reaches {here} in {count(best[0], 'move')}{by}, "
        "if the other men stand still.",
        number=best[0],
        yes=True,
        squares=(goal,),
    )
