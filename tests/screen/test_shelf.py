"""The shelf: what is known of a lesson, and the three ways to choose one."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import OptionList, Static

from player.screen.prompt import Prompt
from player.screen.shelf import ShelfApp
from player.session.journal import Journal, journal_path, script_hash
from player.session.shelf import Row, meant, read_row
from player.stage.happenings import Over, Reached
from player.stage.inputs import Did
from player.stage.state import Telling
from player.world.world import World
from tests.screen.playing import LESSON, world_in
from tests.stage.sheets import sheet_of

OTHER = "title: A Long Road\ncoach: Tobias Wren\n\n{e4}. A first step.\n"


def lessons(folder: Path) -> list[Path]:
    paths = [folder / "one.lesson", folder / "other.lesson", folder / "missing.lesson"]
    paths[0].write_text(LESSON, "utf-8")
    paths[1].write_text(OTHER, "utf-8")
    return paths


def journal(world: World, path: Path, *, over: bool = False) -> int:
    """Leave a journal that stopped at the question; its time in ms."""
    sheet = sheet_of(LESSON)
    kept = Journal(journal_path(world.folders.state, path))
    kept.begin(script_hash(LESSON), "0", Telling())
    kept.input(Did("start"))
    at = sheet.questions[0]
    kept.happened(Reached(sheet.steps[at].key, sheet.starts[at]))
    if over:
        kept.happened(Over())
    kept.close()
    return sheet.starts[at]


async def chosen(folder: Path, *keys: str) -> str | None:
    app = ShelfApp(world_in(folder), lessons(folder))
    async with app.run_test(size=(80, 24)) as pilot:
        for _ in range(8):
            await pilot.pause()
        await pilot.press(*keys)
        await pilot.pause()
    return app.return_value


@pytest.mark.parametrize(
    ("keys", "name"),
    [
        (["enter"], "one.lesson"),
        (["down", "enter"], "other.lesson"),
        (["2", "enter"], "other.lesson"),
        ([*"road", "enter"], "other.lesson"),
        ([*"one lmp", "enter"], "one.lesson"),
        (["up", "enter"], "missing.lesson"),
    ],
)
async def test_a_lesson_is_chosen(tmp_path: Path, keys: list[str], name: str) -> None:
    assert await chosen(tmp_path, *keys) == str(tmp_path / name)


@pytest.mark.parametrize("keys", [["escape"], [*"quit", "enter"], ["ctrl+c"], ["ctrl+q"]])
async def test_it_is_left_without_a_choice(tmp_path: Path, keys: list[str]) -> None:
    assert await chosen(tmp_path, *keys) is None


async def test_an_unknown_word_is_answered(tmp_path: Path) -> None:
    app = ShelfApp(world_in(tmp_path), lessons(tmp_path))
    async with app.run_test() as pilot:
        await pilot.press(*"zugzwang", "enter")
        assert "No lesson here is called 'zugzwang'." in str(app.query_one("#intro", Static).content)
        assert isinstance(app.focused, Prompt)


async def test_rows_are_read_one_after_another(tmp_path: Path) -> None:
    app = ShelfApp(world_in(tmp_path), lessons(tmp_path))
    async with app.run_test() as pilot:
        for _ in range(8):
            await pilot.pause()
        assert [row.title for row in app.rows] == ["One Lamp", "A Long Road", "missing"]
        shown = str(app.query_one(OptionList).get_option_at_index(0).prompt)
        assert "One Lamp" in shown
        assert "Ines Calder, 1 minute, 1 question" in shown
        assert shown.startswith(">")


async def test_an_empty_shelf_says_what_to_do(tmp_path: Path) -> None:
    app = ShelfApp(world_in(tmp_path), [])
    async with app.run_test() as pilot:
        await pilot.press("down", "enter")
        assert "moveteller new" in str(app.query_one("#intro", Static).content)
        await pilot.press("escape")
    assert app.return_value is None


def test_a_row_says_where_the_learner_stopped(tmp_path: Path) -> None:
    world, (path, other, missing) = world_in(tmp_path), lessons(tmp_path)
    assert read_row(world, path).stopped == ""
    ms = journal(world, path)
    assert read_row(world, path).stopped == f"stopped at 0:{round(ms / 1000):02d}"
    journal(world, path, over=True)
    assert read_row(world, path).stopped == "told to its end"
    assert read_row(world, other).about == "Tobias Wren, 1 minute, no questions"
    assert read_row(world, missing).about == "it cannot be read"


def test_a_damaged_journal_says_nothing(tmp_path: Path) -> None:
    world, (path, *_) = world_in(tmp_path), lessons(tmp_path)
    file = journal_path(world.folders.state, path)
    file.parent.mkdir(parents=True)
    file.write_bytes(b"\x00\xff nonsense\n")
    assert read_row(world, path).stopped == ""


def test_numbers_and_words_mean_a_lesson_or_none() -> None:
    rows = [Row(Path("a"), "Four Doors"), Row(Path("b"), "The Set-up"), Row(Path("c"), "Two Doors")]
    assert [meant(rows, words) for words in ("1", "3.", "0", "4", "set", "FOUR", "nothing like it")] == [
        0, 2, None, None, 1, 0, None
    ]  # fmt: skip


async def test_what_waits_is_offered_and_chosen_by_its_word(tmp_path: Path) -> None:
    app = ShelfApp(world_in(tmp_path), [], waiting=3)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*"revisit", "enter")
    assert app.return_value == "revisit"


async def test_nothing_waiting_is_not_spoken_of(tmp_path: Path) -> None:
    lesson = tmp_path / "a.lesson"
    lesson.write_text("title: A\n\n{e4}.\n", encoding="utf-8")
    for waiting, told in ((0, False), (2, True)):
        app = ShelfApp(world_in(tmp_path), [lesson], waiting=waiting)
        async with app.run_test(size=(80, 24)):
            text = str(app.query_one("#intro", Static).render())
            assert ("2 questions wait for today" in text) is told


async def test_escape_on_a_help_page_goes_back_to_the_shelf(tmp_path: Path) -> None:
    app = ShelfApp(world_in(tmp_path), lessons(tmp_path))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("f1")
        await pilot.pause()
        assert len(app.screen_stack) == 2
        await pilot.press("escape")
        await pilot.pause()
        assert app.is_running
        assert len(app.screen_stack) == 1
        await pilot.press("2", "enter")
    assert app.return_value is not None
    assert app.return_value.endswith("other.lesson")
