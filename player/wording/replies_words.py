"""What a move does, leaves undone or spoils, as the second half of a sentence whose subject is the move."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import chess

from player.facts.pawns import stoppers
from player.facts.replies.finding import Deed, Drawback
from player.wording.names import colour_name, man_at

# {man}: the man on the square; {far}: the man on the other square; {name}, {there}: the squares themselves;
# {file}: the square's file; {king}: where the own king stands; {own}, {enemy}: the sides.
_DOES: Mapping[str, tuple[str, ...]] = {
    "mate": ("is mate",),
    "check": ("gives check",),
    "promotes": ("makes a {piece}",),
    "castles": ("takes the king to {king}", "tucks the king away on {king}"),
    "meets mate": ("stops the mate on {name}",),
    "meets": ("looks after the {man}", "answers the attack on the {man}"),
    "meets by going": ("takes the attacked {bare} away", "moves the {man} out of the attack"),
    "takes": ("clears the {man} away",),
    "outpost": (
        "sits on {name}, where no pawn can chase it",
        "makes {name} its home, out of any pawn's reach",
    ),
    "pins": ("pins the {man} to the king", "holds the {man} in front of its king"),
    "hits": ("attacks the {man}", "goes for the {man}"),
    "uncovers": ("clears the line from the {far} to the {man}",),
    "chases": ("hits the {man}", "puts the question to the {man}"),
    "guards": ("guards the {man}", "stands by the {man}", "lends the {man} a guard"),
    "centre": ("takes ground in the middle", "stands a pawn in the middle"),
    "develops": ("brings the {man} out", "gets the {man} off its first square"),
    "opens": ("gives the {man} more room", "opens a road for the {man}"),
    "file": ("puts the rook on the open {file}-file",),
    "half-open file": ("puts the rook on the half-open {file}-file",),
    "seventh": ("reaches the {rank} rank",),
    "connects": ("connects the rooks",),
    "passed": ("pushes the passed pawn", "brings the passed pawn a step on"),
    "now passed": ("makes a passed pawn on {name}", "has a passed pawn on {name}"),
    "opposition": ("takes the opposition",),
    "nearer": ("brings the king nearer to the middle", "walks the king towards the middle"),
    "room": ("gives the king a way out by {name}", "gives the king air on {name}"),
    "bars": ("guards {name} against the {far}",),
    "eyes": ("looks at {name}", "takes aim at {name}"),
    "presses": ("looks at the {man}", "bears on the {man}"),
    "looks": ("looks at {name}", "keeps an eye on {name}"),
}
_LEAVES: Mapping[str, tuple[str, ...]] = {
    "check": ("gives no check",),
    "promotes": ("makes no {piece}",),
    "castles": ("leaves the king on {king}", "keeps the king standing on {king}"),
    "takes": ("leaves the {man} standing", "lets the {man} be"),
    "outpost": ("leaves an outpost empty", "takes no outpost"),
    "hits": ("puts nothing new against the {man}", "does not go for the {man}"),
    "uncovers": ("puts nothing new against the {man}",),
    "chases": ("does not trouble the {man}", "puts nothing new against the {man}"),
    "guards": ("adds no guard to the {man}", "brings the {man} no new guard"),
    "centre": ("takes no ground in the middle", "leaves the middle as it was"),
    "develops": ("leaves the {man} at home", "lets the {man} sleep on"),
    "opens": ("opens nothing for the {man}", "gives the {man} no more room"),
    "file": ("puts no rook on the {file}-file",),
    "seventh": ("puts no rook on the {rank} rank",),
    "connects": ("leaves the rooks apart",),
    "opposition": ("does not take the opposition",),
    "room": ("gives the king no way out by {name}",),
    "bars": ("leaves {name} free for the {far}",),
    "eyes": ("puts nothing new on {name}", "brings no new man to bear on {name}"),
    "looks": ("puts nothing new on {name}", "brings no new man to bear on {name}"),
    "presses": ("puts nothing new against the {man}", "brings nobody new against the {man}"),
}
_SPOILS: Mapping[str, tuple[str, ...]] = {
    "castling gone": ("gives up castling", "ends all castling for this king"),
    "before king": ("moves a pawn from in front of the king", "loosens the pawns before the king"),
    "chased": ("lets a pawn hit it from {there} at once", "can be hit at once by a pawn coming to {there}"),
    "unguards": ("leaves the {man} without a guard", "takes the last guard from the {man}"),
    "unguards square": ("leaves {name} without a guard", "takes the last guard from {name}"),
    "gives bishop": ("gives a bishop for a knight",),
    "retaken": ("lets the {far} take back", "can be taken back by the {far}"),
    "in front": ("stands in the way of the pawn on {name}", "blocks the {file}-pawn"),
    "shuts": ("gets in the way of the {man}", "takes squares from the {man}"),
    "isolates": ("leaves the pawn on {name} without a neighbour",),
    "doubles": ("doubles pawns on the {file}-file",),
    "again": ("moves a man already out while the {man} sleeps", "has the {man} wait at home once more"),
    "rim": ("leaves the knight at the edge, with {count} to go to",),
    "home": ("goes back to its own first rank", "steps back to {name}"),
}
_RANKS = {6: "seventh", 1: "second"}
_NUMBERS = ("nowhere", "one square", "two squares", "three squares", "four squares")


def does(before: chess.Board, after: chess.Board, deed: Deed) -> tuple[str, ...]:
    """Ways to say what the move between these boards does: "guards the pawn on e4"."""
    kind: str = deed.kind
    if kind == "meets" and after.piece_at(deed.square) != before.piece_at(deed.square):
        kind = "meets by going"
    if kind == "file" and deed.other:
        kind = "half-open file"
    if kind == "passed" and stoppers(before, deed.other, before.turn):
        kind = "now passed"
    return _filled(_DOES[kind], before, after, deed)


def leaves(before: chess.Board, after: chess.Board, deed: Deed) -> tuple[str, ...]:
    """Ways to say that the move does not do this deed of the answer's: "leaves e4 empty"."""
    return _filled(_LEAVES.get(deed.kind, ()), before, after, deed)


def spoils(before: chess.Board, after: chess.Board, one: Drawback) -> tuple[str, ...]:
    """Ways to say what speaks against the move: "gets in the way of the bishop on c1"."""
    empty = one.kind == "unguards" and after.piece_at(one.square) is None
    return _filled(_SPOILS["unguards square" if empty else one.kind], before, after, one)


def merits_of(
    before: chess.Board, after: chess.Board, merits: Sequence[Deed], turn: int
) -> list[tuple[str, str]]:
    """What is worth saying for a move, past what its name says: the kind, and one way to say it."""
    kept: list[Deed] = []
    for deed in merits:
        if deed.kind in ("takes", "promotes", "looks", "mate"):
            continue
        if all(deed.square != one.square or deed.square < 0 for one in kept):
            kept.append(deed)
    said = [(deed.kind, _one(does(before, after, deed), turn)) for deed in kept]
    if said:
        return [(str(kind), text) for kind, text in said]
    seen = [chess.SQUARE_NAMES[deed.square] for deed in merits if deed.kind == "looks"]
    return [("looks", f"looks at {' and '.join(seen[:2])}")] if seen else []


def _one(ways: Sequence[str], turn: int) -> str:
    return ways[turn % len(ways)]


def _filled(
    ways: tuple[str, ...], before: chess.Board, after: chess.Board, one: Deed | Drawback
) -> tuple[str, ...]:
    square, other = max(one.square, 0), max(one.other, 0)
    king = after.king(before.turn)
    stands = after if after.piece_at(square) and one.kind not in ("takes", "develops", "meets") else before
    words = {
        "man": man_at(stands if stands.piece_at(square) else after, square),
        "bare": chess.piece_name(before.piece_type_at(square) or chess.PAWN),
        "far": man_at(after if other < 64 and after.piece_at(other) else before, min(other, 63)),
        "name": chess.SQUARE_NAMES[square],
        "there": chess.SQUARE_NAMES[min(other, 63)],
        "file": "abcdefgh"[square & 7],
        "king": "its square" if king is None else chess.SQUARE_NAMES[king],
        "own": colour_name(before.turn),
        "enemy": colour_name(not before.turn),
        "rank": _RANKS.get(square >> 3, "seventh"),
        "piece": chess.piece_name(other) if 1 <= other <= 6 else "queen",
        "count": _NUMBERS[min(other, 4)],
    }
    return tuple(way.format(**words) for way in ways)
