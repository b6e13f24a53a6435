"""The large measure: how often the ears are right, on clips that neither model nor thresholds have seen."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from scripts.hearing.clips import Studio, make_clips
from scripts.hearing.measure import measure
from scripts.hearing.plan import plan
from tests.wording.positions import positions

pytest.importorskip("pocketsphinx")
pytestmark = pytest.mark.large


def test_names_are_understood_and_other_speech_is_let_pass(tmp_path: Path) -> None:
    studio = Studio()
    lines = plan(positions(20, seed=77), 24, 77, voices=("en-us",), namings=("fide",), spread=False)
    make_clips(lines, tmp_path, studio)
    studio.close()
    moves: Counter[str] = Counter()
    others: Counter[str] = Counter()
    for key, found in measure(tmp_path).items():
        (moves if key.startswith("move") else others if key.startswith("other") else Counter()).update(found)
    assert moves["right"] + moves["asked right"] >= 0.9 * moves.total()
    assert moves["wrong"] <= 0.025 * moves.total()
    assert others["acted"] <= 0.02 * others.total()
    assert others["left"] >= 0.9 * others.total()
