"""Where we are, in so few words that a listener keeps them."""

from __future__ import annotations

from pathlib import Path

import pytest

from player.cues.sheet import Sheet
from player.stage.state import Frame, State, Telling
from player.stage.whereabouts import MOST_WORDS, where_text
from player.wording.prose import speakable
from tests.stage.sheets import LESSON, sheet_at, sheet_of

DEMOS = sorted((Path(__file__).parents[2] / "demo_lessons").glob("*.lesson"))


def at(sheet: Sheet, index: int) -> State:
    step = sheet.steps[index]
    frame = Frame("lesson", sheet.steps, index, len(sheet.steps), step.after)
    return State(sheet, Telling(), (frame,), scopes=step.scopes)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_at_every_step_of_the_demo_lessons_twenty_words_are_enough(path: Path) -> None:
    sheet = sheet_at(path)
    assert len(sheet.steps) > 50
    for index, step in enumerate(sheet.steps):
        state = at(sheet, index)
        for one in (state, _trying(state)):
            text = where_text(one)
            assert len(text.split()) <= MOST_WORDS, text
            assert len(speakable(text, language="en").spoken.split()) <= MOST_WORDS, text
            side = "White" if one.place.board().turn else "Black"
            assert f"{side} to move." in text
            assert step.part < 0 or f"Part {step.part + 1} of {len(sheet.parts)}" in text
            assert not step.scopes or "In an" in text
            assert ("trying" in text) == (one is not state)


def _trying(state: State) -> State:
    """The learner tries the first legal move there."""
    if not state.place.playable or not any(state.place.board().legal_moves):
        return state
    uci = next(iter(state.place.board().legal_moves)).uci()
    what_if = Frame("what-if", (), 0, 0, state.place.then(uci), doing="wandering")
    return State(state.sheet, state.telling, (*state.frames, what_if), scopes=state.scopes)


def test_a_short_place_is_told_in_full() -> None:
    sheet = sheet_of(LESSON)
    texts = [where_text(at(sheet, index)) for index in range(len(sheet.steps))]
    assert any("The last move was" in text and sheet.parts[0].title in text for text in texts)
