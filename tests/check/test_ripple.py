"""One word changed in one lesson: what is checked from what is kept is what is checked from nothing."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from player.check.kept import Kept
from player.check.looked import look
from player.check.series import Checked, check_all
from player.check.series_ideas import ideas_before
from player.facts.budgets import BUDGET
from tests.check.checking import faults_in
from tests.check.series_made import ten_demos, ten_short

MOVES = (
    "Nf3",
    "d5",
    "g3",
    "Nf6",
    "Bg2",
    "e6",
    "e5",
    "c4",
    "d4",
    "Nc3",
    "Be7",
    "h3",
    "a6",
    "castles",
    "Nbd2",
    "Qe2",
)
Told = list[tuple[Path, tuple[object, ...], str]]


def told(checked: list[Checked]) -> Told:
    return [(one.path, one.faults, one.trouble) for one in checked]


def edited(text: str, chance: random.Random) -> str:
    """The text with one move, digit, square or line changed."""
    kind = chance.randrange(4)
    if kind == 0:
        spots = list(re.finditer(r"\{[^{}:]+\}", text))
        spot = chance.choice(spots)
        return text[: spot.start()] + "{" + chance.choice(MOVES) + "}" + text[spot.end() :]
    if kind == 1:
        spot = chance.choice(list(re.finditer(r"\b[1-3]\b", text)))
        return text[: spot.start()] + str(chance.randrange(4)) + text[spot.end() :]
    if kind == 2:
        spot = chance.choice(list(re.finditer(r"(?<=claim: ).*", text)))
        return (
            text[: spot.start()] + chance.choice(("the e-file is open", "g2-b7 is open")) + text[spot.end() :]
        )
    lines = text.split("\n")
    del lines[chance.randrange(4, len(lines))]
    return "\n".join(lines)


def rippled(paths: list[Path], cache: Path, edits: int, seed: int, *, undo: bool, whole: int) -> None:
    """Edit, and compare: the edited lesson each time, the whole series every `whole` times."""
    chance = random.Random(seed)
    first = {path: path.read_text(encoding="utf-8") for path in paths}
    for number in range(edits):
        path = chance.choice(paths)
        try:
            path.write_text(edited(path.read_text(encoding="utf-8"), chance), encoding="utf-8")
        except IndexError:
            continue
        kept = Kept(cache)
        warm = check_all(paths, kept=kept)
        kept.close()
        if number % whole == 0:
            assert told(warm) == told(check_all(paths))
        broken = {fault for fault in faults_in(path) if fault.severity == "fault"}
        (own,) = [one for one in warm if one.path == path]
        text = path.read_text(encoding="utf-8")
        assert own.looked == look(text, ideas_before(path), BUDGET, None)
        assert broken == {fault for fault in own.faults if fault.severity == "fault"}
        if undo or chance.randrange(3) == 0:
            path.write_text(first[path], encoding="utf-8")


def test_edits_of_a_short_series(tmp_path: Path) -> None:
    rippled(ten_short(tmp_path), tmp_path / "cache", 30, 1, undo=False, whole=6)


@pytest.mark.large
def test_a_thousand_edits(tmp_path: Path) -> None:
    rippled(ten_short(tmp_path), tmp_path / "cache", 1000, 2, undo=False, whole=10)


@pytest.mark.large
def test_edits_of_long_lessons(tmp_path: Path) -> None:
    rippled(ten_demos(tmp_path), tmp_path / "cache", 10, 3, undo=True, whole=1)


def test_a_changed_first_move_reaches_the_last_claim(tmp_path: Path) -> None:
    paths = ten_short(tmp_path)
    kept = Kept(tmp_path / "cache")
    before = check_all(paths, kept=kept)
    assert all(not [fault for fault in one.faults if fault.severity == "fault"] for one in before)
    text = paths[4].read_text(encoding="utf-8")
    paths[4].write_text(text.replace("{castles} {Be7}", "{Nc3} {Be7}", 1), encoding="utf-8")
    after = check_all(paths, kept=kept)
    lines = {fault.line for fault in after[4].faults if fault.severity == "fault"}
    assert lines and max(lines) > 15
    assert told(after[:4]) == told(before[:4])
    kept.close()
