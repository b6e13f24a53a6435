"""A rude learner: whatever is typed, pressed or done to the window, the screen stays whole."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from textual.events import Key, Paste

from player.screen.prompt import LONGEST, Prompt
from player.stage.registry import ACTIONS
from tests.screen.playing import lesson_in, run_for, told

WORDS = [
    "", "Nf3", "e4", "what if e4 e5", "home", "look", "aside 1", "A quiet walk", "go to part 2", "[red]",
    "\x1b[2J", "nudge", "tell me", "0-0", "h3", "go to start", "skip", "ear mode on", "speed 3", "turn",
    "help script", "xx" * 80,
]  # fmt: skip
KEYS = [one.key for one in ACTIONS if one.name not in ("quit", "enough", "take me to it")] + [
    "pageup",
    "pagedown",
    "a",
    "left",
    "tab",
]
ROOMS = [(80, 24), (40, 12), (120, 40), (20, 5), (60, 44), (1, 1), (100, 32)]


@pytest.mark.parametrize("seed", range(2))
async def test_the_screen_stays_whole(tmp_path: Path, seed: int) -> None:
    chance = random.Random(seed)
    app = lesson_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        for _ in range(35):
            what = chance.randrange(4)
            if what == 0:
                app.screen_stack[0].query_one(Prompt).value = chance.choice(WORDS)
                await pilot.press("enter")
            elif what == 1:
                await pilot.press(chance.choice(KEYS))
            elif what == 2:
                run_for(app, chance.randrange(20_000))
            else:
                await pilot.resize_terminal(*chance.choice(ROOMS))
            assert app.is_running
            lines = [strip.text for strip in app.screen._compositor.render_strips()]
            assert not any(ord(one) < 32 for line in lines for one in line)
        assert app.session is not None
        assert (app.session.due_ms() is None) == (not app.waits_by_itself)


async def test_an_enter_typed_ahead_is_an_enter(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.press(*"where", "ctrl+j")
        assert app.query_one(Prompt).value == ""
        assert "You: where" in told(app)


async def test_a_paste_is_harmless_text_of_one_line(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        prompt = app.query_one(Prompt)
        prompt.post_message(Paste("what if \x1b[2Je4\r\n\x9b31m\x07 e5\u202e"))
        await pilot.pause()
        assert prompt.value == "what if e4  e5"
        prompt.value = ""
        prompt.post_message(Paste("x" * 5000))
        await pilot.pause()
        assert len(prompt.value) == LONGEST


async def test_keys_that_come_in_one_burst_are_taken_in_their_order(tmp_path: Path) -> None:
    """As a macro, dictation or a paste without brackets sends them."""
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        for one in (*"wherx", "backspace", "e", "enter", *"look", "enter"):
            app.post_message(Key(one, one if len(one) == 1 else None))
        await pilot.pause()
        await pilot.pause()
        assert app.query_one(Prompt).value == ""
        said = told(app)
        assert said.index("You: where") < said.index("You: look")
