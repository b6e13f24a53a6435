"""A claim about a position as data, and the verdict on it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

VerdictKind = Literal["true", "false", "unproved", "not-understood"]


@dataclass(frozen=True, slots=True)
class Claim:
    """What a claim says. `kind` names its definition (see `player.facts.prove`); the rest are its slots.

    `men`, where not empty, has the kind of man said to stand on each of `squares`.
    `colour` is the side it is about, `man` and `square` the man it names (`man` is None for any man),
    `man_colour` that man's side where it was said. `move` and `reply` are notation as written, "" for the
    move just told. `number` is a count, or None where none was said. `word` is a label, or which of several
    things of the kind is meant. `counts` has the surplus in pawns, minor pieces, rooks and queens. `inner` is
    what holds after the moves of `line`, or after a pass.
    """

    kind: str
    colour: chess.Color | None = None
    man: chess.PieceType | None = None
    man_colour: chess.Color | None = None
    square: chess.Square | None = None
    squares: tuple[chess.Square, ...] = ()
    men: tuple[chess.PieceType | None, ...] = ()
    move: str = ""
    reply: str = ""
    number: int | None = None
    word: str = ""
    counts: tuple[int, int, int, int] = (0, 0, 0, 0)
    line: tuple[str, ...] = ()
    inner: Claim | None = None


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a claim holds, and why: one plain sentence that names the man, square or move that decides.

    `doubt` is what to say of a claim that is true but less than the whole truth ("a shorter mate exists").
    `move` is the move that proves or refutes, None where none does.
    """

    kind: VerdictKind
    because: str = ""
    doubt: str = ""
    move: chess.Move | None = None


@dataclass(frozen=True, slots=True)
class Last:
    """The move just told: the board before it (not to be changed), and the move."""

    before: chess.Board
    move: chess.Move


def verdict(holds: bool, because: str, *, move: chess.Move | None = None) -> Verdict:
    """True or false, with the reason."""
    return Verdict("true" if holds else "false", because, move=move)


def false(because: str, *, move: chess.Move | None = None) -> Verdict:
    return Verdict("false", because, move=move)
