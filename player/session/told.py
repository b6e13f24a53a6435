"""A lesson told by itself, nobody answering, on a clock of its own."""

from __future__ import annotations

from dataclasses import replace

from player.cues.sheet import Sheet
from player.session.session import Session, Told
from player.session.speakers import Voices
from player.stage.advance import begin
from player.stage.happenings import Happening
from player.stage.state import Telling
from player.voice.speaker import Notice
from player.world.clock import VirtualClock


def tell(sheet: Sheet, telling: Telling | None = None) -> list[tuple[int, Happening]]:
    """Everything that happens and when, in milliseconds from the start, at the estimated pace.

    Questions pass after their thinking silence. What the learner chose of speed, silences and ear mode holds.
    """
    chosen = replace(telling or Telling(), wait=False, by_beat=False, voice=False)
    clock = VirtualClock()
    told: list[tuple[int, Happening]] = []

    def note(one: Told) -> None:
        if not isinstance(one, Notice):
            told.append((clock.now_ms(), one))

    session = Session(begin(sheet, chosen), Voices(clock), clock, listener=note)
    session.start()
    while (due := session.due_ms()) is not None:
        clock.sleep(due)
        session.tick()
    return told
