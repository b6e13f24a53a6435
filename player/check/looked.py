"""One script looked at: all that a series needs of it, as data that can be kept."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import astuple, dataclass
from typing import Any

from player.check.kept import Kept, key_of
from player.check.orders import Count, Step
from player.check.waving import Wave
from player.script.faults import Fault


@dataclass(frozen=True, slots=True)
class Looked:
    """What was found before any `fine:` is obeyed, the `fine:` lines, the moves spoken of, and how many good
    moves the prose counts where.
    """

    faults: tuple[Fault, ...]
    waves: tuple[Wave, ...]
    steps: tuple[Step, ...]
    counts: tuple[Count, ...] = ()


NOTHING = Looked((), (), ())


Progress = Callable[[int, int], None]
"""Told how much is done, of how much."""


def looked(
    source: str,
    known_ideas: Sequence[str],
    budget: int,
    kept: Kept | None,
    progress: Progress | None = None,
) -> Looked:
    """Look at a script, or take what is kept of the very same text under the same circumstances."""
    if kept is None:
        return look(source, known_ideas, budget, None, progress)
    key = key_of("script", source, sorted(set(known_ideas)), budget)
    known = _unpacked(kept.get(key))
    if known is None:
        known = look(source, known_ideas, budget, kept, progress)
        kept.put(key, _packed(known))
    return known


def look(
    source: str,
    known_ideas: Sequence[str],
    budget: int,
    kept: Kept | None,
    progress: Progress | None = None,
) -> Looked:
    """Read, follow and check a script; single claims that are kept are not proved again."""
    from player.check.check import found_in
    from player.check.fine import waves_of
    from player.check.listed import counts_in, listed_doubts
    from player.check.steps import steps_of
    from player.script.follow import follow
    from player.script.read import read
    from player.script.told import flat

    lesson, faults = read(source)
    told, more = follow(lesson)
    found = found_in(source, told, (*faults, *more), known_ideas, kept=kept, budget=budget, progress=progress)
    steps, counts = steps_of(told), counts_in(source, told)
    waves = waves_of(source, list(flat(told.body)))
    return Looked((*found, *listed_doubts(counts, steps)), waves, steps, counts)


def _packed(one: Looked) -> list[list[Any]]:
    groups = (one.faults, one.waves, one.steps, one.counts)
    return [[list(astuple(each)) for each in group] for group in groups]


def _unpacked(value: Any) -> Looked | None:
    try:
        faults, waves, steps, counts = value
        return Looked(
            tuple(Fault(*one) for one in faults),
            tuple(Wave(*one) for one in waves),
            tuple(Step(*one) for one in steps),
            tuple(Count(*one) for one in counts),
        )
    except (TypeError, ValueError):
        return None
