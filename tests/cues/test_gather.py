"""Questions gathered from lessons into one sheet."""

from __future__ import annotations

import pytest

from player.cues.gather import Picked, gathered
from player.cues.sheet import Sheet
from player.stage.happenings import Attempt, Over, Put, Say
from player.stage.inputs import Typed
from player.stage.state import Telling
from tests.session.sessions import Playing
from tests.stage.sheets import LESSON, sheet_of

OTHER = """title: Other
coach: Ines Calder
side: black

So {e4 e5 Qh5}.

question: Black to move. What guards the pawn?
  reply Nf6: Then she takes it with check.

{Nc6}. Calm and good. More words here.
"""


def picked(source: str, number: int = 0) -> Picked:
    sheet = sheet_of(source)
    return Picked(sheet, sheet.questions[number], f"From {sheet.title}.", f"/l/{sheet.title}.lesson")


@pytest.fixture
def sheet() -> Sheet:
    return gathered("Revisit", [picked(LESSON), picked(OTHER), picked(LESSON, 1)], farewell="That is all.")


def play(sheet: Sheet, *answers: str) -> Playing:
    playing = Playing(Telling(voice=False), sheet=sheet).run()
    for answer in answers:
        playing.session.feed(Typed(answer))
        playing.run()
    return playing


def test_each_is_asked_on_its_own_position_and_answered(sheet: Sheet) -> None:
    playing = play(sheet, "Bg2", "Nc6", "d3")
    asked = [one.ask for one in playing.told if isinstance(one, Put)]
    assert [ask.place for ask in asked] == [
        one.sheet.steps[one.index].ask.place  # type: ignore[union-attr]
        for one in (picked(LESSON), picked(OTHER), picked(LESSON, 1))
    ]
    assert [one.grade for one in playing.told if isinstance(one, Attempt)] == ["right"] * 3
    assert isinstance(playing.told[-1], Over)
    said = [one.what.shown for one in playing.told if isinstance(one, Say)]
    assert "From Other." in said and "Calm and good." in said and said[-1] == "That is all."
    assert not any("Good evening" in text for text in said)


def test_side_tracks_come_along(sheet: Sheet) -> None:
    said = [one.what.shown for one in play(sheet, "Bg2", "Nf6").told if isinstance(one, Say)]
    assert "Then she takes it with check." in said


def test_the_same_question_twice_has_steps_of_its_own() -> None:
    sheet = gathered("Twice", [picked(LESSON), picked(LESSON)])
    keys = [step.key for step in sheet.steps]
    assert len(set(keys)) == len(keys)
    told = [step.ask.told for step in sheet.steps if step.ask is not None]
    assert all(
        sheet.steps[at].cues[0].do == step.ask.answer  # type: ignore[union-attr]
        for at, step in zip(told, (s for s in sheet.steps if s.ask), strict=True)
        if at is not None
    )


def test_origins_lead_back(sheet: Sheet) -> None:
    for path, key in sheet.origins.values():
        assert path.endswith(".lesson")
        assert any(one.sheet.index(key) is not None for one in (picked(LESSON), picked(OTHER)))


def test_nothing_picked_is_an_error() -> None:
    with pytest.raises(ValueError, match="one question"):
        gathered("Empty", [])
