"""Answers about outposts and pawns."""

from __future__ import annotations

import re

import chess

from player.facts.claim import Claim
from player.facts.seen_lines import never_hit_by_pawns, pawns_that_are
from player.facts.seen_moves import way_to
from player.wording.asked.men import targets
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed

_CAUGHT = re.compile(
    r"\b(?:catch|stop|caught|stopped|inside|reach|in the square|in its square)\b", re.IGNORECASE
)


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
    asked = bool(re.match(r"(?:and |so )?(?:is|are|does|do|has|have|any)\b", scene.query.said.strip(), re.I))
    blocked = _blocked_backward(scene, side) if word == "backward" else []
    if not found and blocked:
        return BoardReply(
            capital(f"{'Not quite: ' if asked else ''}{_blocked(scene, blocked)}"), squares=tuple(blocked),
            number=len(blocked), yes=True,
        )  # fmt: skip
    if not found:
        no = f"{'No: n' if asked and word != 'backward' else 'N'}o pawn{whose} is {word}"
        return BoardReply(f"{no}.", yes=False, number=0)
    verb = "is" if len(found) == 1 else "are"
    more = f" Besides, {_blocked(scene, blocked)}" if blocked else ""
    said = f"{scene.the(found, sides=True)} {verb} {word}.{more}"
    return BoardReply(
        f"Yes: {said}" if asked else capital(said),
        squares=tuple(found),
        number=len(found),
        yes=True,
    )


def pawn(scene: Scene) -> BoardReply:
    found: list[chess.Square] | BoardReply = [int(s) for s in scene.query.squares]
    if not found:
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
    behind = [s for s in asked if s in _blocked_backward(scene, None)] if word == "backward" else []
    if behind:
        return BoardReply(f"Not quite: {_blocked(scene, behind)}", yes=False, squares=tuple(behind))
    because = (
        scene.proved(Claim("pawn", square=asked[0], word=word)).text.removeprefix("No. ")
        if len(asked) == 1
        else ""
    )
    return BoardReply(f"No. {because}".strip(), yes=False)


def _blocked_backward(scene: Scene, side: chess.Color | None) -> list[chess.Square]:
    """Pawns that fail to be backward by the definition only because a man stands in front of them."""
    found = []
    for square in chess.SquareSet(scene.board.pawns):
        colour = bool(scene.board.color_at(square))
        if (side is not None and colour != side) or not 8 <= square < 56:
            continue
        front = square + (8 if colour else -8)
        man = scene.board.piece_at(front)
        if man is None or man.piece_type == chess.KING:
            continue
        bare = scene.board.copy(stack=False)
        bare.remove_piece_at(front)
        if square in pawns_that_are(bare, "backward", colour):
            found.append(square)
    return found


def _blocked(scene: Scene, squares: list[chess.Square]) -> str:
    """ "the black pawn on d6 would be, but for the knight on d5 in front of it", and why."""
    said = []
    for square in squares:
        front = square + (8 if scene.board.color_at(square) else -8)
        said.append(
            f"{scene.the([square], sides=True)} would be, but for {scene.the([front])} in front of it"
        )
    return f"{listed(said)}: by the definition here that square must be free."


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
    hunter = f"the {colour_name(not colour).casefold()} king"
    king = f"{hunter} is {'inside' if reply.yes else 'outside'} its square"
    caught = bool(_CAUGHT.search(scene.query.said))
    if not caught and way_to(scene.board, square, goal) is None:
        blocker = next((s for s in _ahead(square, goal) if scene.board.piece_at(s)), None)
        if blocker is not None:
            return BoardReply(f"Not yet: {scene.the([blocker], sides=True)} stands in its way.", yes=False)
    proved = scene.proved(Claim("wins with best play", colour=colour))
    known = ""
    if proved.yes is not None:
        known = f" With best play {colour_name(colour)} {'wins' if proved.yes else 'does not win'}."
    why = reply.text.partition(". ")[2]
    if caught:
        helpers = scene.board.occupied_co[not colour] & ~scene.board.kings & ~scene.board.pawns
        if helpers and not reply.yes:
            text = f"The king alone cannot: {king}. What the other men can do is not known."
            return BoardReply(f"{text}{known}", yes=None) if known else unknown(text)
        square_asked = "square" in scene.query.said.casefold()
        if proved.yes is not None and not square_asked and chess.popcount(scene.board.occupied) == 3:
            wins = f"with best play {colour_name(colour)} {'wins' if proved.yes else 'does not win'}"
            goes = f"; the pawn queens on {chess.SQUARE_NAMES[goal]}" if proved.yes else ""
            also = f", though {king}" if proved.yes == reply.yes and reply.yes else ""
            return BoardReply(f"{'No' if proved.yes else 'Yes'}: {wins}{also or goes}.", yes=not proved.yes)
        if proved.yes and reply.yes and not square_asked:
            return BoardReply(f"{capital(king)}. {why}{known}", yes=None)
        alone = " What other men can do is not counted." if reply.yes and not known else ""
        lead = "Yes, by the square" if reply.yes else "No, by the square"
        return BoardReply(f"{lead}: {king}. {why}{alone}{known}", yes=reply.yes)
    return BoardReply(f"{there} if nothing stops it: {king}. {why}{known}", yes=reply.yes)


def _ahead(square: chess.Square, goal: chess.Square) -> list[chess.Square]:
    step = 8 if goal > square else -8
    return list(range(square + step, goal + step, step))


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
