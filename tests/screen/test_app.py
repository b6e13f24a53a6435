"""The screen, run without a terminal."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Input

from player.screen.app import LessonApp
from player.screen.board import SIZES, BoardView, size_for
from player.screen.dress import HIGH, PLAIN, Dress
from player.session.session import Listener, Session
from player.session.speakers import Voices
from player.stage.advance import begin
from player.stage.registry import ACTIONS
from player.stage.state import Telling
from player.world.clock import VirtualClock
from tests.stage.sheets import LESSON, sheet_of
from tests.worlds import scratch_world

ROOMS = [(40, 12), (80, 24), (120, 40)]


def app_in(folder: Path, telling: Telling | None = None) -> LessonApp:
    sheet = sheet_of(LESSON)
    clock = VirtualClock()
    world = scratch_world(folder, "", clock=clock)

    def opened(listener: Listener) -> Session:
        state = begin(sheet, telling or Telling(voice=False, at_once=True))
        return Session(state, Voices(clock), clock, listener=listener)

    return LessonApp(sheet, world, opened)


async def settled(app: LessonApp) -> None:
    for _ in range(200):
        app._tick()
        if app._session is not None and app._session.due_ms() is None:
            return


@pytest.mark.parametrize("room", ROOMS)
async def test_a_question_is_answered_at_the_prompt(tmp_path: Path, room: tuple[int, int]) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=room) as pilot:
        await settled(app)
        assert app._session is not None
        assert app._session.state.asked is not None
        app.query_one("#prompt", Input).value = "Bg2"
        await pilot.press("enter")
        await settled(app)
        assert "f1g2" in app._session.state.place.moves
        board = app.query_one(BoardView)
        assert board.size.width == board._square[0] * 8 + 2
        assert board.size.height == board._square[1] * 8 + 1


async def test_nothing_runs_while_a_question_waits_or_the_lesson_is_paused(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test() as pilot:
        await settled(app)
        assert app._timer is None
        await pilot.press("escape")
        assert app._timer is None


async def test_every_action_with_a_key_is_bound(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test():
        bound = set(app._bindings.key_to_bindings)
        assert {action.key for action in ACTIONS if action.key != "enter"} <= bound


async def test_a_key_with_an_object_begins_it_at_the_prompt(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.press("ctrl+f")
        assert app.query_one("#prompt", Input).value == "what if "


def test_the_board_takes_the_largest_size_there_is_room_for() -> None:
    assert size_for(50, 25) == SIZES[0]
    assert size_for(49, 25) == SIZES[1]
    assert size_for(22, 10) == SIZES[2]


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize(("dress", "least"), [(PLAIN, 4.5), (HIGH, 7.0)])
def test_men_stand_out_from_both_kinds_of_square(dress: Dress, least: float) -> None:
    # WCAG 2.2, success criteria 1.4.3 (4.5:1) and 1.4.6 (7:1), with its contrast formula.
    for style in (dress.light, dress.dark):
        ink, ground = (luminance(part) for part in style.split(" on "))
        high, low = max(ink, ground), min(ink, ground)
        assert (high + 0.05) / (low + 0.05) >= least
