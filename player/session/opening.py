"""Opening a lesson: from the start, or where the journal says that it stopped."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import player
from player.cues.sheet import Sheet
from player.session.journal import Journal, Kept, script_hash
from player.session.later import Later
from player.session.learn import Learn
from player.session.session import Keeper, Listener, Session
from player.session.speakers import OpenSpeaker, Voices
from player.stage.advance import advance, begin
from player.stage.happenings import Happening, Reached
from player.stage.inputs import Did, Input
from player.stage.seeking import target
from player.stage.state import State, Telling
from player.voice.speaker import Notice
from player.world.clock import Clock
from player.world.files import set_aside

_DAMAGED = "The journal of this lesson was damaged, so it begins at the start; what there was is set aside."
_MOVED = "The script has changed since you stopped; it goes on from the sentence where you were."
_GONE = (
    "The script has changed, and the sentence where you stopped is no longer in it; it begins at the start."
)
_ELSEWHERE = "This lesson is being told elsewhere too; its place is kept there, and not here."
_UNKEPT = "Your place in this lesson cannot be kept: {why}."


@dataclass(frozen=True)
class Plan:
    """How a lesson begins: its state, the first inputs, and sentences for the learner about it."""

    state: State
    first: tuple[Input, ...]
    notes: tuple[str, ...] = ()
    resumed: bool = False


def open_session(
    sheet: Sheet,
    source: str,
    telling: Telling,
    clock: Clock,
    *,
    journal_file: Path | None = None,
    fresh: bool = False,
    at: str = "",
    open_voice: OpenSpeaker | None = None,
    learn: Learn | Later | None = None,
    listener: Listener | None = None,
    chosen: Callable[[Telling], Telling] | None = None,
    run: str = "",
    keeper: Keeper | None = None,
) -> Session:
    """A session on this lesson, not yet started: `start`, the first `tick` or `feed` starts it.

    `at` is where to begin ("3:20", "part 2", "question 4"), whatever the journal says. `chosen` lays what
    the learner asked for this time over the settings that the journal kept; without it `telling` holds.
    `run` names a run that begins now, and `keeper` is told all of it, with what the journal of an earlier one
    holds.
    Never raises for a journal that cannot be read or written: a Notice says so.
    """
    chosen = chosen or (lambda _: telling)
    plan, journal = _planned(sheet, source, telling, journal_file, fresh, at, chosen, run, keeper)
    session = Session(
        plan.state,
        Voices(clock, open_voice),
        clock,
        journal,
        learn,
        first=plan.first,
        listener=listener,
        keeper=keeper,
    )
    for note in plan.notes:
        session.tell(Notice(note))
    return session


def _planned(
    sheet: Sheet,
    source: str,
    telling: Telling,
    file: Path | None,
    fresh: bool,
    at: str,
    chosen: Callable[[Telling], Telling],
    run: str,
    keeper: Keeper | None,
) -> tuple[Plan, Journal | None]:
    anew = Plan(begin(sheet, telling), (Did("go to", at),) if at else (Did("start"),))
    if keeper is not None:
        keeper.begin(run)
    if file is None:
        return anew, None
    journal = Journal(file)
    script = script_hash(source)
    try:
        if not journal.take():
            return replace(anew, notes=(_ELSEWHERE,)), None
        kept, damaged = journal.look()
        plan = anew
        if keeper is not None and kept is not None and kept.run and _same(kept, script):
            keeper.catch_up(kept.run, replay(kept, sheet)[2])
        if damaged:
            plan = replace(anew, notes=(_DAMAGED,))
            set_aside(file)
        elif kept is not None and not fresh and not at:
            plan = _taken_up(kept, sheet, script, chosen) or anew
        if plan.resumed:
            journal.telling(plan.state.telling)
        else:
            journal.begin(script, player.__version__, plan.state.telling, run)
            if keeper is not None:
                keeper.begin(run)
    except OSError as error:
        journal.close()
        why = (error.strerror or str(error)).lower()
        return replace(anew, notes=(*anew.notes, _UNKEPT.format(why=why))), None
    return plan, journal


def _taken_up(kept: Kept, sheet: Sheet, script: str, chosen: Callable[[Telling], Telling]) -> Plan | None:
    """Where the journal stopped; None where the lesson was over or had not begun."""
    if kept.over or not kept.moves:
        return None
    if _same(kept, script):
        state, reached, _ = replay(kept, sheet)
        if state.over:
            return None
        if not kept.reached or kept.reached in reached:
            return _resumed(state, chosen)
    if not kept.reached:
        return None
    telling = chosen(_last_telling(kept))
    fresh = begin(sheet, telling)
    if target(sheet, f"step {kept.reached}") is None:
        return Plan(fresh, (Did("start"),), (_GONE,))
    note = (_MOVED,) if kept.script != script else ()
    return Plan(fresh, (Did("go to", f"step {kept.reached}"),), note)


def _same(kept: Kept, script: str) -> bool:
    return kept.script == script and kept.version == player.__version__


def replay(kept: Kept, sheet: Sheet) -> tuple[State, tuple[str, ...], tuple[Input | Happening, ...]]:
    """The state that the kept inputs lead to; what they made happen is not done again.

    Also the keys of the steps that the last input began, after the one begun before it: a journal that this
    program wrote for this sheet names one of them as reached last. And the inputs, each with the happenings
    that it led to.
    """
    state = begin(sheet, kept.telling)
    reached: tuple[str, ...] = ()
    all_told: list[Input | Happening] = []
    for move in kept.moves:
        if isinstance(move, Telling):
            state = replace(state, telling=move)
            continue
        state, happenings = advance(state, move)
        all_told += (move, *happenings)
        reached = (*reached[-1:], *(one.step for one in happenings if isinstance(one, Reached)))
    return replace(state, quit=False, enough=False), reached, tuple(all_told)


def _resumed(state: State, chosen: Callable[[Telling], Telling]) -> Plan:
    state = replace(state, telling=chosen(state.telling))
    first: list[Input] = [Did("resume")]
    top = state.top
    if top.doing == "paced" and not state.telling.by_beat:
        first.append(Did("go on"))
    return Plan(state, tuple(first), resumed=True)


def _last_telling(kept: Kept) -> Telling:
    return next((move for move in reversed(kept.moves) if isinstance(move, Telling)), kept.telling)
