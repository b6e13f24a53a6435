"""Help on the screen: every action and every page, on a terminal of any size."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Static

from player.screen.dress import PLAIN
from player.screen.help import HelpScreen
from player.screen.pages import commands, from_markdown, key_name, names, page
from player.stage.registry import ACTIONS
from tests.screen.playing import SIZES, lesson_in


def test_every_action_is_told_with_its_key_and_letter() -> None:
    text = commands(PLAIN).plain
    for action in ACTIONS:
        assert action.help in text
        assert action.words[0] in text
        assert f"key {key_name(action.key)})" in text
        assert not action.letter or f"letter {action.letter}," in text


def test_every_page_is_there_and_has_words() -> None:
    files = {path.stem for path in (Path(__file__).parents[2] / "player" / "help").glob("*.md")}
    assert set(names()) == files | {"commands"}
    for name in names():
        text = page(name, PLAIN).plain
        assert len(text) > 100
        assert "```" not in text


def test_markdown_loses_its_marks_and_keeps_scripts() -> None:
    text = from_markdown("# Head\n\nSay `back` **now**.\n\n```\ntitle: *x* `y`\n```\n", PLAIN)
    assert text.plain == "Head\n\nSay back now.\n\ntitle: *x* `y`\n"


def test_keys_are_named_as_on_a_keyboard() -> None:
    assert [key_name(key) for key in ("ctrl+r", "f1", "escape")] == ["Ctrl+R", "F1", "Escape"]


@pytest.mark.parametrize("size", SIZES[:2])
async def test_pages_are_turned_and_left(tmp_path: Path, size: tuple[int, int]) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.press("f1")
        seen = []
        for _ in names():
            seen.append(str(app.screen.query_one("#text", Static).content))
            await pilot.press("right")
        assert len(set(seen)) == len(names())
        await pilot.press("left", "end", "pageup")
        assert isinstance(app.screen, HelpScreen)
        await pilot.press("q")
        assert not isinstance(app.screen, HelpScreen)
