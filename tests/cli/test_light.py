"""What the first frame does not wait for: modules that only an answer, a question or a page of help needs."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LATER = (
    "fsrs",
    "lark",
    "player.facts.replies",
    "player.screen.help",
    "player.screen.shelf",
    "player.wording.asked",
    "player.wording.claims",
    "player.wording.nudge",
    "player.wording.reasons",
    "rapidfuzz",
)
LOADED = """
import sys
from pathlib import Path
import player.cli.play, player.learner.keeper, player.session.opening, player.screen.app
from player.cli.lessons import read_script
assert read_script(Path(sys.argv[1])).sheet.steps
print(*sys.modules)
"""


@pytest.mark.parametrize("number", [1, 3])
def test_a_lesson_is_put_up_without_what_comes_later(number: int) -> None:
    lesson = next((ROOT / "demo_lessons").glob(f"{number}-*.lesson"))
    ran = subprocess.run(
        [sys.executable, "-c", LOADED, str(lesson)], cwd=ROOT, capture_output=True, text=True, check=True
    )
    loaded = ran.stdout.split()
    assert "player.screen.lesson" in loaded and "player.cues.compile" in loaded
    assert not [name for name in LATER if name in loaded]
