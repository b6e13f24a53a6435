"""Answers about men of a kind: who has any, how many, on which colour, and which are hemmed in."""

from __future__ import annotations

import chess

from player.facts.exchange import OutOfNodes
from player.facts.seen_moves import moves_of, safe_moves
from player.wording.asked.moves import given_to, man_moves, movers
from player.wording.asked.reply import BoardReply, Scene, capital, count, names, unknown, yes_no
from player.wording.asked.shades import shade_of
from player.wording.names import colour_name, name

_TOO_LONG = "It would take more looking than there is time for; it is not known."


def who_has(scene: Scene) -> BoardReply:
    """Which side has a kind of man, and where; with a side, whether it has one."""
    man = scene.query.men[0]
    board = scene.board
    kind = man.kind
    if kind is None:
        return unknown("Name a kind of man, such as a bishop.")
    squares = {side: list(board.pieces(kind, side)) for side in chess.COLORS}
    if scene.side is not None:
        own = squares[scene.side]
        who = colour_name(scene.side)
        text = (
            f"Yes: {who} has {count(len(own), name(kind))}, on {names(own)}."
            if own
            else f"No: {who} has none."
        )
        return BoardReply(text, squares=tuple(own), number=len(own), yes=bool(own))
    having = [side for side in chess.COLORS if squares[side]]
    if not having:
        return BoardReply(f"Nobody has a {name(kind)}.", yes=False, number=0)
    said = [
        f"{colour_name(side)} has {count(len(squares[side]), name(kind))}, on {names(squares[side])}"
        for side in having
    ]
    alone = f"; {colour_name(not having[0])} has none" if len(having) == 1 else ""
    found = [s for side in having for s in squares[side]]
    return BoardReply(f"{'; '.join(said)}{alone}.", squares=tuple(found), number=len(found), yes=True)


def has_both(scene: Scene) -> BoardReply:
    """Whether a side still has both men of a kind."""
    man = scene.query.men[0]
    side = scene.side if not man.side else scene.colour(man.side)
    if man.kind is None or side is None:
        return unknown("Name a side and a kind of man, such as White's bishops.")
    own = list(scene.board.pieces(man.kind, side))
    on = f", on {names(own)}" if own else ""
    text = f"{colour_name(side)} has {count(len(own), name(man.kind))}{on}."
    return BoardReply(f"{'Yes' if len(own) > 1 else 'No'}: {text}", squares=tuple(own), yes=len(own) > 1)


def each_has(scene: Scene) -> BoardReply:
    """How many men of a kind each side has."""
    kind = scene.query.men[0].kind if scene.query.men else None
    board = scene.board
    white, black = (
        chess.popcount(board.occupied_co[side] if kind is None else board.pieces_mask(kind, side))
        for side in (True, False)
    )
    one = "man" if kind is None else name(kind)
    if white == black:
        return BoardReply(f"Each side has {count(white, one)}.", number=white + black)
    return BoardReply(f"White has {count(white, one)}, Black {count(black, one)}.", number=white + black)


def more_of(scene: Scene) -> BoardReply:
    """How many men of a kind a side is up or down."""
    kind = scene.query.men[0].kind if scene.query.men else None
    side = scene.board.turn if scene.side is None else scene.side
    if kind is None:
        return unknown("Name a kind of man, such as pawns.")
    own, other = (len(scene.board.pieces(kind, one)) for one in (side, not side))
    who, one = colour_name(side), name(kind)
    low = scene.query.said.casefold().lstrip()
    if low.startswith(("does ", "do ", "has ", "have ")):
        yes = own < other if "fewer" in low or "less" in low else own > other
        return BoardReply(
            f"{yes_no(yes)}: {who} has {count(own, one)}, the other side {other or 'none'}.", yes=yes
        )
    if own == other:
        return BoardReply(f"None: both sides have {count(own, one)}.", number=0)
    way = "down" if own < other else "up"
    text = f"{who} is {count(abs(own - other), one)} {way}: {own} against {other}."
    return BoardReply(text, number=abs(own - other))


def shade_bishop(scene: Scene) -> BoardReply:
    """Whether, or which, side has a bishop on light or dark squares."""
    shade = next((str(thing) for tag, thing in scene.query.things if tag == "L"), "light")
    found = [s for s in chess.SquareSet(scene.board.bishops) if shade_of(s) == shade]
    if scene.side is not None:
        found = [s for s in found if scene.board.color_at(s) == scene.side]
    who = "Nobody" if scene.side is None else colour_name(scene.side)
    lead = scene.query.said.casefold().lstrip().startswith(("does ", "do ", "has ", "have ", "is "))
    if not found:
        text = (
            f"{'No: ' if lead else ''}{who} has {'a' if scene.side is None else 'no'} {shade}-squared bishop."
        )
        return BoardReply(text, yes=False)
    return BoardReply(capital(f"{'Yes: ' if lead else ''}{scene.the(found, sides=True)}."), yes=True,
                      squares=tuple(found))  # fmt: skip


def trapped(scene: Scene) -> BoardReply:
    """Whether a man has no move, or none to a square where it could not be taken at a profit."""
    found = movers(scene)
    if isinstance(found, BoardReply):
        return found
    if len(found) > 1:
        return unknown("Name the man by its square, such as the bishop on a7.")
    square = found[0]
    given = given_to(scene, bool(scene.board.color_at(square)))
    if isinstance(given, BoardReply):
        return given
    who = scene.the([square], sides=True)
    moves = moves_of(given, square)
    if not moves:
        return BoardReply(f"It has no legal move: {who} is stuck where it stands.", yes=True)
    try:
        safe = safe_moves(given, square, scene.nodes)
    except OutOfNodes:
        return unknown(_TOO_LONG)
    to = list(dict.fromkeys(move.to_square for move in safe))
    if not to:
        every = names(list(dict.fromkeys(move.to_square for move in moves)))
        return BoardReply(
            f"Yes: it can only go to {every}, and by captures it would be lost there.", yes=True,
            moves=tuple(moves),
        )  # fmt: skip
    return BoardReply(f"No: {who} is safe on {names(to)}.", yes=False, squares=tuple(to), moves=tuple(safe))


def why_stuck(scene: Scene) -> BoardReply:
    """Why a man cannot move: pinned, hemmed in by its own men, or its squares covered."""
    found = movers(scene)
    if isinstance(found, BoardReply):
        return found
    square = found[0]
    board = scene.board
    side = bool(board.color_at(square))
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    if moves_of(given, square):
        return man_moves(scene)
    who = capital(scene.the([square], sides=True))
    if board.piece_type_at(square) == chess.KING:
        return _king_stuck(scene, square, who)
    if given.is_pinned(side, square):
        return BoardReply(f"{who} is pinned to the king.")
    if given.is_check():
        return BoardReply(f"{who} cannot meet the check.")
    return BoardReply(f"{who} is hemmed in: other men stand in its way.")


def _king_stuck(scene: Scene, square: chess.Square, who: str) -> BoardReply:
    """For every square beside a king why it may not go there."""
    board = scene.board
    side = bool(board.color_at(square))
    bare = board.copy(stack=False)
    bare.remove_piece_at(square)
    beside = [int(s) for s in chess.SquareSet(chess.BB_KING_ATTACKS[square])]
    own = [s for s in beside if board.color_at(s) == side]
    covered = [s for s in beside if s not in own and bare.attackers(not side, s)]
    parts = [f"on {names(own)} stand its own men"] * bool(own)
    for s in covered[:4]:
        by = list(bare.attackers(not side, s))
        parts.append(f"{chess.SQUARE_NAMES[s]} is covered by {scene.the(by[:1])}")
    more = f"; and so are {names(covered[4:])}" if len(covered) > 4 else ""
    return BoardReply(f"{who} has no move: {'; '.join(parts)}{more}.", squares=tuple(covered))
