"""The line skin's own words."""

from __future__ import annotations

from player.lines.words import Teller
from player.stage.state import Telling
from tests.stage.playing import Playing
from tests.stage.sheets import LESSON, sheet_of


def test_the_ways_on_at_a_question_do_not_send_the_learner_past_it() -> None:
    sheet = sheet_of(LESSON)
    step = next(i for i, step in enumerate(sheet.steps) if step.ask is not None)
    playing = Playing(sheet, Telling()).start()
    assert "press Enter" in Teller(sheet).ways_on(Playing(sheet, Telling(by_beat=True)).state)[0][1]
    for _ in range(step + 1):
        if playing.state.asked is None:
            playing.type("go on")
    assert playing.state.asked is not None
    assert "answer the question" in Teller(sheet).ways_on(playing.state)[0][1]
