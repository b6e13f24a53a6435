"""Key questions asked again later in the same lesson: after about 25 seconds, two minutes and ten minutes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from player.cues.insert import inserted
from player.cues.sheet import Sheet, Step
from player.wording.prose import speakable

AFTER_MS = (25_000, 120_000, 600_000)
"""How long after its answer was told (common practice: each gap some five times the one before)."""
ONCE_MORE = "Once more, from earlier."


def with_repeats(sheet: Sheet) -> Sheet:
    """The sheet with its key questions put in again, each at the first fit beat after its times.

    They stand on the lesson's own depth only, never between a question and its answer, and take no time of
    the sheet, since a learner may have turned them off.
    """
    put: dict[int, list[Step]] = {}
    for index, step in enumerate(sheet.steps):
        if step.ask is None or not step.ask.again or step.ask.once_more:
            continue
        told = step.ask.told if step.ask.told is not None else index
        since = sheet.starts[min(told + 1, len(sheet.steps))]
        last = told
        for number, after_ms in enumerate(AFTER_MS, 1):
            at = next((i for i in _fit(sheet, last + 1) if sheet.starts[i] >= since + after_ms), None)
            if at is None:
                break
            put.setdefault(at, []).extend(_again(sheet, index, number, at))
            last = at
    return inserted(sheet, put) if put else sheet


def _fit(sheet: Sheet, first: int) -> Iterator[int]:
    """The numbers of steps from `first` on that begin a beat of the lesson itself, with no question open."""
    busy = _between(sheet)
    for index in range(max(1, first), len(sheet.steps)):
        step, before = sheet.steps[index], sheet.steps[index - 1]
        if not step.scopes and not before.scopes and step.beat != before.beat and index not in busy:
            yield index


def _between(sheet: Sheet) -> frozenset[int]:
    """Numbers of steps after a question up to the one that tells its answer."""
    out: set[int] = set()
    for index, step in enumerate(sheet.steps):
        if step.ask is not None:
            until = step.ask.told if step.ask.told is not None else index + 1
            out |= set(range(index + 1, until + 1))
    return frozenset(out)


def _again(sheet: Sheet, index: int, number: int, at: int) -> list[Step]:
    """The detour: the earlier position, the question, and back to where the lesson stands."""
    source, here = sheet.steps[index], sheet.steps[at]
    assert source.ask is not None
    key = f"{source.ask.key}~{number}"
    ask = replace(source.ask, key=key, told=None, again=False, once_more=True)
    base = replace(
        source,
        part=here.part if here.kind != "part" else sheet.steps[at - 1].part,
        beat=-2 - at,
        scopes=(),
        stamp_ms=None,
        extra=True,
    )
    quiet = replace(base, cues=(), ask=None)
    words = speakable(ONCE_MORE)
    opening = replace(quiet, key=f"{key}-opening:program", kind="board", say=words, rest_ms=180)
    before = sheet.steps[index - 1] if index else None
    position = (
        [replace(quiet, key=f"{key}-position", kind="tell", say=before.say, ear_only=True)]
        if before is not None and before.ear_only and before.beat == source.beat
        else []
    )
    back = Step(
        f"{key}-back:program",
        here.line,
        base.part,
        base.beat,
        (),
        "board",
        here.before,
        here.before,
        speakable("Back to the lesson."),
        rest_ms=180,
        flip=here.flip,
        extra=True,
    )
    return [opening, *position, replace(base, key=f"{key}-ask", ask=ask), back]
