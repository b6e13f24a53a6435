"""Answers about outposts and pawns."""

from __future__ import annotations

import chess

from player.facts.claim import Claim
from player.facts.seen_lines import never_hit_by_pawns, pawns_that_are
from player.facts.seen_moves import way_to
from player.wording.asked.men import targets
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed


def outpost(scene: Scene) -> BoardReply:
    square = scene.query.squares[0]
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    here = chess.SQUARE_NAMES[square]
    for side in sides:
        reply = scene.proved(Claim("outpost", colour=side, square=square))
        if reply.yes:
            guard = scene.the(chess.SquareSet(int(scene.board.attackers(side, square)) & scene.board.pawns))
            return BoardReply(
                f"Yes, {here} is an outpost for {colour_name(side)}: "
                f"{guard} guards it, and no enemy pawn can attack it.",
                yes=True,
                squares=(square,),
            )
    said = []
    for side in sides:
        why = scene.proved(Claim("outpost", colour=side, square=square)).text.removeprefix("No. ")
        extra = (
            " No enemy pawn can attack it, though."
            if never_hit_by_pawns(scene.board, square, not side)
            else ""
        )
        said.append(f"For {colour_name(side)} it is none. {why}{extra}")
    return BoardReply(f"No. {' '.join(said)}", yes=False)


def outposts(scene: Scene) -> BoardReply:
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    parts, squares = [], []
    for side in sides:
        found = [s for s in chess.SQUARES if scene.proved(Claim("outpost", colour=side, square=s)).yes]
        squares += found
        on = listed([chess.SQUARE_NAMES[s] for s in found])
        what = f"outposts on {on}" if len(found) > 1 else f"an outpost on {on}" if found else "no outpost"
        parts.append(f"{colour_name(side)} has {what}.")
    return BoardReply(" ".join(parts), squares=tuple(squares), number=len(squares), yes=bool(squares))


def pawns(scene: Scene) -> BoardReply:
    word = scene.query.word
    side = scene.side
    if side is None and scene.query.men and scene.query.men[0].side:
        side = scene.colour(scene.query.men[0].side)
    found = pawns_that_are(scene.board, word, side)
    whose = "" if side is None else f" of {colour_name(side)}'s"
    if not found:
        return BoardReply(f"No pawn{whose} is {word}.", yes=False, number=0)
    verb = "is" if len(found) == 1 else "are"
    return BoardReply(
        f"{capital(scene.the(found, sides=True))} {verb} {word}.",
        squares=tuple(found),
        number=len(found),
        yes=True,
    )


def pawn(scene: Scene) -> BoardReply:
    found = targets(scene)
    if isinstance(found, BoardReply):
        return found
    word = scene.query.word
    asked = [s for s in found if scene.board.piece_type_at(s) == chess.PAWN]
    if not asked:
        return BoardReply(f"No: {scene.stands(found[0])}", yes=False)
    good = [s for s in asked if s in pawns_that_are(scene.board, word, None)]
    if good:
        return BoardReply(
            f"Yes: {scene.the(good, sides=True)} {'is' if len(good) == 1 else 'are'} {word}.",
            yes=True,
            squares=tuple(good),
        )
    because = (
        scene.proved(Claim("pawn", square=asked[0], word=word)).text.removeprefix("No. ")
        if len(asked) == 1
        else ""
    )
    return BoardReply(f"No. {because}".strip(), yes=False)


def _runner(scene: Scene) -> int | BoardReply:
    found = [
        s for man in scene.query.men for s in scene.men(man) if scene.board.piece_type_at(s) == chess.PAWN
    ]
    if not found and not any(man.square is not None for man in scene.query.men):
        found = list(chess.SquareSet(scene.board.pawns))
    if not found:
        return BoardReply(scene.absent())
    if len(found) > 1:
        return unknown("Name the pawn, such as the pawn on h2.")
    return found[0]


def queens(scene: Scene) -> BoardReply:
    """By the rule of the square alone: whether the enemy king is inside it."""
    square = _runner(scene)
    if isinstance(square, BoardReply):
        return square
    colour = bool(scene.board.color_at(square))
    goal = chess.square(square & 7, 7 if colour else 0)
    reply = scene.proved(Claim("in the square", square=square, man=chess.PAWN))
    if reply.yes is None:
        return reply
    there = f"It queens on {chess.SQUARE_NAMES[goal]}"
    king = "the enemy king is inside its square" if reply.yes else "the enemy king is outside its square"
    proved = scene.proved(Claim("wins with best play", colour=colour))
    known = ""
    if proved.yes is not None:
        known = f" With best play {colour_name(colour)} {'wins' if proved.yes else 'does not win'}."
    return BoardReply(
        f"{there} if nothing stops it: {king}. {reply.text.partition('. ')[2]}{known}", yes=reply.yes
    )


def run_length(scene: Scene) -> BoardReply:
    square = _runner(scene)
    if isinstance(square, BoardReply):
        return square
    colour = bool(scene.board.color_at(square))
    goal = chess.square(square & 7, 7 if colour else 0)
    left = abs((goal >> 3) - (square >> 3))
    number = left - (square >> 3 == (1 if colour else 6))
    blocked = way_to(scene.board, square, goal) is None
    more = " Something stands in its way now." if blocked else ""
    return BoardReply(
        f"{capital(scene.the([square], sides=True))} is "
        f"{count(number, 'move')} from {chess.SQUARE_NAMES[goal]}.{more}",
        number=number,
    )
