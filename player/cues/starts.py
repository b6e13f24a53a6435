"""When each step is likely to begin, before any sound has been made."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from player.cues.sheet import Ask, Step
from player.wording.pace import word_times

THINK_MS = {"move": 12_000, "square": 6_000, "count": 6_000, "choice": 12_000, "words": 25_000}
"""How long a learner is given to think, by the kind of question, where the script does not say."""


def think_ms(ask: Ask) -> int:
    """The thinking time of a question, in milliseconds."""
    return THINK_MS[ask.kind] if ask.think_ms is None else ask.think_ms


def step_ms(step: Step) -> int:
    """The estimated length of a step, silence and thinking time included; 0 where it is not always told."""
    if step.ear_only or step.extra:
        return 0
    said = sum(map(_word_ms, step.say.spoken.split())) if step.say is not None else 0
    return said + step.rest_ms + (think_ms(step.ask) if step.ask is not None else 0)


def starts(steps: Sequence[Step]) -> tuple[int, ...]:
    """The moment each step begins, and the end of the last, in milliseconds; never one before another.

    A stamped step begins at its stamp, and the steps between two stamps are stretched or pressed to fit. A
    stamp that lies before an earlier one is passed over. After the last stamp the estimate goes on.
    """
    made: list[int] = []
    waiting: list[int] = []
    begun = 0
    for step in steps:
        stamp = step.stamp_ms
        if stamp is not None and stamp >= begun:
            made += _fitted(begun, waiting, stamp)
            begun, waiting = stamp, []
        waiting.append(step_ms(step))
    return (*made, *_fitted(begun, waiting, begun + sum(waiting)), begun + sum(waiting))


def _fitted(begun: int, lengths: Sequence[int], end: int) -> list[int]:
    """The beginnings of steps of these lengths, scaled to fill the time from `begun` to `end`."""
    whole = sum(lengths)
    made: list[int] = []
    so_far = 0
    for length in lengths:
        made.append(begun + (so_far * (end - begun) // whole if whole else 0))
        so_far += length
    return made


@lru_cache(maxsize=8192)
def _word_ms(word: str) -> int:
    """The pace of a text is that of its words one by one."""
    return word_times(word)[1]
