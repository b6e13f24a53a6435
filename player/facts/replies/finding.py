"""What is found about a move that is not the answer: data, for the wording to put into a sentence."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

DeedKind = Literal[
    "mate", "check", "promotes", "castles", "meets mate", "meets", "takes", "outpost", "pins", "hits",
    "uncovers", "chases", "guards", "centre", "develops", "opens", "file", "seventh", "connects", "passed",
    "opposition", "nearer", "room", "bars", "eyes", "presses", "looks",
]  # fmt: skip
DrawbackKind = Literal[
    "castling gone", "before king", "chased", "unguards", "gives bishop", "retaken", "in front", "shuts",
    "isolates", "doubles", "again", "rim", "home",
]  # fmt: skip
FindingKind = Literal[
    "mate", "stalemate", "win lost", "draw lost", "wins", "fork", "pin", "skewer", "attack",
    "missed mate", "missed win", "order", "mates too", "wins too", "differs", "sound",
]  # fmt: skip
Cause = Literal["", "stands", "goes there", "unguarded", "opened"]


@dataclass(frozen=True, slots=True, order=True)
class Deed:
    """One exact thing that a move does. `square` is what it is about, `other` a second square, or -1.

    "meets": the man on `square` could be won before, and cannot now. "pins": the man on `square` to `other`.
    "passed": the pawn from `other`.
    "uncovers": the slider on `other` newly hits `square`. "opens": more squares for the slider on `square`.
    "bars": an enemy man on `other` may no longer settle on `square` free of pawns. "guards": an attacked own
    man that the moved man did not guard before. "looks": squares newly attacked by the moved man.
    """

    kind: DeedKind
    square: int = -1
    other: int = -1


@dataclass(frozen=True, slots=True, order=True)
class Drawback:
    """One exact thing that speaks against a move; squares as in `Deed`. "chased": by a pawn going to `other`.
    "retaken": by the man on `other`."""

    kind: DrawbackKind
    square: int = -1
    other: int = -1


@dataclass(frozen=True, slots=True)
class Finding:
    """The most telling thing about a move.

    `reply` is what punishes it, `count` the mate's length in moves, `gain` the least that is lost in pawns,
    against every answer, as captures settle it. `square` is where the reply takes, `men` what it hits or pins
    (for a pin or a skewer the man in front, then the one behind). `cause` says why a man falls: it "stands"
    attacked already, it "goes there" by the move, its guard has left ("unguarded"), its line was "opened".
    `back`: the man that could take back, or None where nothing can. `merits` are what the move does,
    `misses` what the answer does and the move does not, `drawbacks` what speaks against it.
    """

    kind: FindingKind
    move: chess.Move
    reply: chess.Move | None = None
    square: int = -1
    gain: int = 0
    count: int = 0
    men: tuple[int, ...] = ()
    cause: Cause = ""
    back: int | None = None
    merits: tuple[Deed, ...] = ()
    misses: tuple[Deed, ...] = ()
    drawbacks: tuple[Drawback, ...] = ()
