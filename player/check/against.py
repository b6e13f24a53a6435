"""A series held against real games: which replies they met at its positions, and which it does not tell."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import chess

from player.check.games import games_in
from player.check.orders import Step


@dataclass(frozen=True, slots=True)
class Untold:
    """A reply that the series has no word for: how often it was played, and in how many games."""

    san: str
    uci: str
    times: int
    games: int


@dataclass(frozen=True, slots=True)
class Met:
    """A position of the series that games came to, however they did, and went on from.

    `lesson` is the index of the script that first has it, `line` where; `at` the first four fields of its
    FEN; `times` how often it was played on from; `told` the replies told there, in notation.
    """

    lesson: int
    line: int
    at: str
    times: int
    told: tuple[str, ...]
    untold: tuple[Untold, ...]


@dataclass(frozen=True, slots=True)
class Against:
    """What was found: `skipped` has the number of each broken game, from 1, and why."""

    games: int
    skipped: tuple[tuple[int, str], ...]
    met: tuple[Met, ...]


@dataclass(slots=True)
class _Taught:
    lesson: int
    line: int
    told: dict[str, str] = field(default_factory=dict)


def against(
    games: Path, lessons: Sequence[Sequence[Step]], progress: Callable[[int, int], None] | None = None
) -> Against:
    """Count, over the games of a PGN file, the replies at every told position where the other side moves.

    A position at which a line ends is one too, with no reply told. The same position (FIDE Laws, 9.2) counts
    whatever moves led to it, and as often as it comes about in a game. Raises OSError.
    """
    taught = _taught(lessons)
    looks = set()
    for at in taught:
        board = chess.Board(f"{at} 0 1")
        looks.add((board.occupied_co[chess.WHITE], board.occupied_co[chess.BLACK], board.turn))
    times: dict[str, Counter[str]] = {}
    of_games: dict[str, Counter[str]] = {}
    count, skipped = 0, []

    def watch(board: chess.Board) -> bool:
        return (board.occupied_co[True], board.occupied_co[False], board.turn) in looks

    for game in games_in(games, watch, progress):
        count += 1
        if game.why:
            skipped.append((game.number, game.why))
            continue
        met = [(at, move.uci()) for at, move in game.found if at in taught and move]
        for at, uci in met:
            times.setdefault(at, Counter())[uci] += 1
        for at, uci in set(met):
            of_games.setdefault(at, Counter())[uci] += 1
    found = [_met(taught[at], at, times[at], of_games[at]) for at in times]
    return Against(
        count, tuple(skipped), tuple(sorted(found, key=lambda one: (one.lesson, one.line, one.at)))
    )


def _met(taught: _Taught, at: str, times: Counter[str], of_games: Counter[str]) -> Met:
    board = chess.Board(f"{at} 0 1")
    untold = [
        Untold(board.san(board.parse_uci(uci)), uci, number, of_games[uci])
        for uci, number in times.items()
        if uci not in taught.told
    ]
    untold.sort(key=lambda one: (-one.times, one.san))
    told = tuple(taught.told.values())
    return Met(taught.lesson, taught.line, at, sum(times.values()), told, tuple(untold))


def _taught(lessons: Sequence[Sequence[Step]]) -> dict[str, _Taught]:
    """The positions in which the side that does not learn is to move, and what is told there."""
    out: dict[str, _Taught] = {}
    for number, steps in enumerate(lessons):
        for step in steps:
            if _replies(step.at, step.side):
                out.setdefault(step.at, _Taught(number, step.line)).told[step.uci] = step.san
            if step.kind in ("advice", "told"):
                board = chess.Board(f"{step.at} 0 1")
                board.push_uci(step.uci)
                after = board.epd()
                if _replies(after, step.side):
                    out.setdefault(after, _Taught(number, step.line))
    return out


def _replies(at: str, side: str) -> bool:
    return side == "both" or (" w " in at) != (side == "white")
