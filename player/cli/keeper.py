"""What keeps a learner's answers while something is performed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from player.cues.sheet import Sheet
from player.session.session import Keeper
from player.world.trouble import Trouble
from player.world.world import World

if TYPE_CHECKING:
    from player.learner.keeper import Source
    from player.learner.tries import Question


def keeper_for(
    world: World, sheet: Sheet, source: Source, known: Mapping[str, Question] | None = None
) -> Keeper | None:
    """A keeper of this sheet's answers; None, told in a sentence, where they cannot be kept."""
    from player.learner.keeper import LessonKeeper
    from player.learner.record import open_record, record_path

    try:
        record = open_record(record_path(world.folders.data))
    except Trouble as trouble:
        print(trouble, file=world.stderr)
        return None
    for note in record.notes:
        print(note, file=world.stderr)
    return LessonKeeper(record, sheet, source, world.now, world.clock.now_ms, known)
