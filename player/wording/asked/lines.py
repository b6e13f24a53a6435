"""Answers about files, lines and diagonals."""

from __future__ import annotations

import chess

from player.facts.seen_lines import files_without, men_between
from player.wording.asked.men import targets
from player.wording.asked.reply import BoardReply, Scene, capital, unknown, yes_no
from player.wording.names import colour_name, listed

_FILES = "abcdefgh"


def file(scene: Scene) -> BoardReply:
    number = next(int(t) for tag, t in scene.query.things if tag == "F" and isinstance(t, int))
    board = scene.board
    pawns = chess.SquareSet(board.pawns & chess.BB_FILES[number])
    word = "half-open" if scene.query.word == "half" else "open"
    if word == "half-open":
        sides = list(chess.COLORS) if scene.side is None else [scene.side]
        yes = any(number in files_without(board, side) for side in sides)
    else:
        yes = not pawns
        if any(one in scene.query.said.casefold() for one in ("closed", "blocked")):
            sides_there = {board.color_at(s) for s in pawns}
            yes, word = len(sides_there) == 2, "closed"
    what = (
        f"on the {_FILES[number]}-file stands {scene.the(pawns, sides=True)}"
        if pawns
        else f"no pawn stands on the {_FILES[number]}-file"
    )
    return BoardReply(f"{yes_no(yes)}: {what}.", yes=yes, squares=tuple(pawns))


def files(scene: Scene) -> BoardReply:
    half = scene.query.word == "half"
    sides: list[chess.Color | None] = [None]
    if half:
        sides = list(chess.COLORS) if scene.side is None else [scene.side]
    parts, numbers = [], []
    for side in sides:
        found = files_without(scene.board, side)
        numbers += found
        kind = "open" if side is None else f"half-open for {colour_name(side)}"
        said = listed([f"the {_FILES[one]}-file" for one in found])
        parts.append(
            f"{capital(said)} {'is' if len(found) == 1 else 'are'} {kind}."
            if found
            else f"No file is {kind}."
        )
    return BoardReply(" ".join(parts), number=len(numbers), yes=bool(numbers))


def _two(scene: Scene) -> tuple[int, int] | BoardReply:
    found = targets(scene)
    if isinstance(found, BoardReply):
        return found
    return (found[0], found[1]) if len(found) == 2 else unknown("Name two squares, such as g2 and b7.")


def between(scene: Scene) -> BoardReply:
    ends = _two(scene)
    if isinstance(ends, BoardReply):
        return ends
    found = men_between(scene.board, *ends)
    a, b = (chess.SQUARE_NAMES[s] for s in ends)
    if found is None:
        return BoardReply(f"{a} and {b} are not on one line.")
    if not found:
        return BoardReply(f"Nothing stands between {a} and {b}.", yes=False, number=0)
    return BoardReply(
        f"Between {a} and {b}: {scene.the(found, sides=True)}.",
        squares=tuple(found),
        number=len(found),
        yes=True,
    )


def line(scene: Scene) -> BoardReply:
    found = between(scene)
    if found.yes is None:
        return found
    closed = any(one in scene.query.said.casefold() for one in ("closed", "blocked"))
    yes = found.yes if closed else not found.yes
    return BoardReply(f"{yes_no(yes)}. {found.text}", squares=found.squares, yes=yes)


def long_diagonal(scene: Scene) -> BoardReply:
    shades = [str(t) for tag, t in scene.query.things if tag == "L"]
    if not shades:
        return unknown("Name a diagonal by its ends, such as g2 to b7.")
    ends = (chess.H1, chess.A8) if shades[0] == "light" else (chess.A1, chess.H8)
    found = men_between(scene.board, *ends) or []
    found = [s for s in (ends[0], *found, ends[1]) if scene.board.piece_at(s)]
    text = f"on it stand {scene.the(found, sides=True)}" if found else "nobody stands on it"
    return BoardReply(f"{yes_no(not found)}: {text}.", yes=not found, squares=tuple(found))
