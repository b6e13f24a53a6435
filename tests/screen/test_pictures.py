"""Pictures of the screen as it was once found good; `--snapshot-update` keeps what is right now."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from player.screen.lesson import LessonApp
from player.screen.prompt import Prompt
from player.screen.shelf import ShelfApp
from player.stage.inputs import Typed
from player.stage.registry import ACTIONS
from tests.screen.playing import DRESSES, LESSON, SIZES, did, lesson_in, run_for, to_question, world_in

Compare = Callable[..., bool]


@pytest.mark.parametrize("dress", DRESSES, ids=lambda one: one.split()[0])
@pytest.mark.parametrize("size", SIZES, ids=lambda one: f"{one[0]}x{one[1]}")
def test_a_lesson_being_told(
    tmp_path: Path, snap_compare: Compare, size: tuple[int, int], dress: str
) -> None:
    app = lesson_in(tmp_path, dress=dress)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.pause()
        run_for(app, 7_000)
        await pilot.press("escape")
        await pilot.pause()

    assert snap_compare(app, terminal_size=size, run_before=play)


@pytest.mark.parametrize("dress", DRESSES, ids=lambda one: one.split()[0])
@pytest.mark.parametrize("size", SIZES, ids=lambda one: f"{one[0]}x{one[1]}")
def test_a_question_answered_wrongly(
    tmp_path: Path, snap_compare: Compare, size: tuple[int, int], dress: str
) -> None:
    app = lesson_in(tmp_path, dress=dress)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.pause()
        to_question(app)
        app.query_one(Prompt).value = "pawn to h3"
        await pilot.press("enter")
        to_question(app)
        await pilot.pause()

    assert snap_compare(app, terminal_size=size, run_before=play)


def asked(app: LessonApp, words: str) -> Callable[[Pilot[None]], object]:
    async def play(pilot: Pilot[None]) -> None:
        await pilot.pause()
        to_question(app)
        did(app, Typed(words))
        await pilot.pause()

    return play


@pytest.mark.parametrize("size", [*SIZES, (100, 32), (60, 44), (28, 8)], ids=lambda one: f"{one[0]}x{one[1]}")
def test_without_colour(tmp_path: Path, snap_compare: Compare, size: tuple[int, int]) -> None:
    app = lesson_in(tmp_path, colour=False)
    assert snap_compare(app, terminal_size=size, run_before=asked(app, "what if e4 dxe4"))


def test_the_board_from_black_s_side(tmp_path: Path, snap_compare: Compare) -> None:
    app = lesson_in(tmp_path, script=LESSON.replace("side: white", "side: black"))
    assert snap_compare(app, terminal_size=(100, 32), run_before=asked(app, "what if Bg2"))


def test_the_help(tmp_path: Path, snap_compare: Compare, monkeypatch: pytest.MonkeyPatch) -> None:
    # Pages and actions come and go; the picture is about how they look.
    monkeypatch.setattr("player.screen.help.names", lambda: ["commands", "lines", "start"])
    monkeypatch.setattr("player.screen.pages.ACTIONS", ACTIONS[:9])

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f1")
        await pilot.pause()

    app = lesson_in(tmp_path)
    assert snap_compare(app, terminal_size=(80, 24), run_before=play)


@pytest.mark.parametrize("size", [(40, 12), (80, 24)], ids=lambda one: f"{one[0]}x{one[1]}")
def test_the_shelf(tmp_path: Path, snap_compare: Compare, size: tuple[int, int]) -> None:
    paths = [tmp_path / "one.lesson", tmp_path / "two.lesson"]
    paths[0].write_text(LESSON, "utf-8")
    paths[1].write_text(LESSON.replace("One Lamp", "Two Lamps"), "utf-8")

    async def play(pilot: Pilot[None]) -> None:
        for _ in range(8):
            await pilot.pause()

    assert snap_compare(ShelfApp(world_in(tmp_path), paths), terminal_size=size, run_before=play)
