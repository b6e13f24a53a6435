"""The length told at the beginning is the one that a listener will have."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from player.aloud.length import length_ms, timed
from player.stage.happenings import Over, Say
from player.stage.state import Telling
from tests.aloud.playing import ALOUD, play
from tests.stage.sheets import LESSON, sheet_at, sheet_of

DEMOS = sorted((Path(__file__).parents[2] / "demo_lessons").glob("*.lesson"))


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
@pytest.mark.parametrize("telling", [ALOUD, replace(ALOUD, silence=2.0, speed=1.25, key_again=True)])
def test_untouched_it_takes_as_long_as_is_told(path: Path, telling: Telling) -> None:
    sheet = sheet_at(path)
    played = play(sheet=sheet, telling=telling)
    begun = next(ms for ms, one in played.told if isinstance(one, Say))
    over = next(ms for ms, one in played.told if isinstance(one, Over))
    assert length_ms(sheet, telling) == pytest.approx(over - begun, rel=0.04)


def test_the_opening_says_it_and_its_words_stay_in_place() -> None:
    sheet = sheet_of(LESSON)
    told = timed(sheet, replace(ALOUD, silence=10.0)).steps[0].say
    before = sheet.steps[0].say
    assert told is not None and before is not None
    minutes = round(length_ms(sheet, replace(ALOUD, silence=10.0)) / 60_000)
    assert f"It takes about {minutes} minutes and has 2 questions." in told.shown and minutes > 5
    assert len(told.words) == len(told.spoken.split())
    said = [told.shown[start:end] for start, end in told.words]
    assert said == told.shown.split() or [word.strip(".,") for word in said] == [
        word.strip(".,") for word in told.shown.split()
    ]
    assert [step.key for step in timed(sheet, ALOUD).steps] == [step.key for step in sheet.steps]
