"""The screen of a lesson: what is typed, what is read, and that nothing runs while nothing has to."""

from __future__ import annotations

import asyncio
from itertools import count
from pathlib import Path

import pytest
from textual.timer import Timer

from player.screen.board import BoardView
from player.screen.help import HelpScreen
from player.screen.lesson import OWN_KEYS, LessonApp
from player.screen.narration import Narration
from player.screen.prompt import Prompt
from player.stage.inputs import Did, Input, Typed
from player.stage.registry import ACTIONS
from player.stage.state import Telling, View
from tests.screen.playing import SIZES, did, lesson_in, run_for, to_question, told


def text_of(app: LessonApp, name: str) -> str:
    from textual.widgets import Static

    return str(app.screen_stack[0].query_one(name, Static).content)


def timers(app: LessonApp) -> list[Timer]:
    """Every timer of the app and its widgets that runs."""
    running = list(app._timers)
    for node in app.screen_stack[0].walk_children(with_self=True):
        running += list(node._timers)
    return [one for one in running if one._active.is_set() and one._task is not None and not one._task.done()]


@pytest.mark.parametrize("size", SIZES)
async def test_a_question_is_answered_at_the_prompt(tmp_path: Path, size: tuple[int, int]) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        to_question(app)
        assert app.session is not None
        assert app.session.state.asked is not None
        assert "White to move" in text_of(app, "#state")
        app.query_one(Prompt).value = "bishop g2"
        await pilot.press("enter")
        to_question(app)
        assert "f1g2" in app.session.state.place.moves
        assert "You: bishop g2  (understood: Bg2, bishop to g2)" in told(app)
        assert "Ines: Bg2. Home at last." in told(app)


async def test_a_wrong_answer_is_answered_in_words(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        did(app, Typed("h3"))
        assert "Ines: That keeps the bishop at home." in told(app)
        assert app.session is not None
        assert app.session.state.asked is not None


async def test_all_of_the_lesson_is_read_beside_the_board(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        did(app, Typed("tell me"))
        text = told(app)
        for words in (
            "Lesson: One Lamp, by Ines Calder.",
            ": By the window",
            "Ines: Good evening from the reading room. White begins",
            "In your notebook: the long diagonal.",
            ": Question 1 of 1",
            ": Aside 1",
            "Ines: If Black comes nearer",
            "Back from the aside.",
            ": Imagined",
            "no knight on f3",
            "The lesson is told.",
        ):
            assert words in text


async def test_the_sentence_being_said_shows_how_far_it_is(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        run_for(app, 1200)
        last = app.query_one(Narration).told[-1]
        assert last.live
        said = last.text[last.began : last.reached]
        assert said
        assert last.text.startswith(said, last.began)
        assert last.reached < len(last.text)
        styles = [
            segment.style
            for strip in app.query_one(Narration)._strips[-1]
            for segment in strip
            if segment.text.strip() and segment.style is not None
        ]
        assert any(style.bold for style in styles)
        assert any(style.underline for style in styles)
        assert any(not style.bold for style in styles)


async def test_nothing_runs_while_a_question_waits_or_the_lesson_is_paused(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        run_for(app, 1000)
        assert app.waits_by_itself
        await pilot.press("escape")
        await pilot.pause()
        assert "paused" in text_of(app, "#state")
        assert not app.waits_by_itself
        assert timers(app) == []
        await pilot.press("escape")
        assert app.waits_by_itself
        to_question(app)
        await pilot.pause()
        assert not app.waits_by_itself
        assert timers(app) == []


async def test_the_lesson_s_own_timer_is_the_only_one(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        run_for(app, 1000)
        assert app.waits_by_itself
        assert timers(app) == []


async def test_a_busy_machine_loses_no_wake(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Textual's own timer never rings where its time is up before it has begun to wait."""
    import textual._time

    looks = count(0.0, 1.0)  # every look at its clock takes a second
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert app.session is not None
        ticked = asyncio.Event()
        monkeypatch.setattr(app.session, "tick", ticked.set)
        monkeypatch.setattr(textual._time, "get_time", lambda: next(looks))
        app.give(Typed("where"))
        await asyncio.wait_for(ticked.wait(), 10)


def test_the_keys_are_the_registry_s_and_few_more(tmp_path: Path) -> None:
    bound = set(lesson_in(tmp_path)._bindings.key_to_bindings)
    wanted = {action.key for action in ACTIONS}
    assert bound == (wanted - {"enter"}) | set(OWN_KEYS)
    assert len(wanted) == len(ACTIONS)


async def test_every_key_does_its_action(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        given: list[Input] = []
        monkeypatch.setattr(app.session, "feed", given.append)
        prompt = app.query_one(Prompt)
        for action in ACTIONS:
            given.clear()
            prompt.value = ""
            await pilot.press(action.key)
            if action.name == "help":
                assert isinstance(app.screen, HelpScreen)
                await pilot.press("escape")
            elif action.object == "must":
                assert prompt.value == f"{action.words[0]} "
            else:
                assert given == [Typed("") if action.key == "enter" else Did(action.name)]


async def test_the_prompt_always_has_the_focus(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        for key in ("tab", "shift+tab", "pageup", "f5", "down"):
            await pilot.press(key)
            assert isinstance(app.focused, Prompt)
        await pilot.click("#told")
        await pilot.click("#board")
        assert isinstance(app.focused, Prompt)


async def test_the_board_takes_the_room_there_is_while_it_changes(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        to_question(app)
        before = told(app)
        for width, height in [
            (120, 40),
            (80, 24),
            (40, 12),
            (60, 44),
            (28, 8),
            (100, 30),
            (12, 4),
            (120, 40),
        ]:
            await pilot.resize_terminal(width, height)
            await pilot.pause()
            await pilot.pause()
            board = app.query_one(BoardView)
            assert app.screen.size == (width, height)
            assert app.query_one(Prompt).region.bottom == height
            if board.display and app.screen.has_class("blind") is False:
                assert board.size.width == board.square_size.width + 2
                assert board.size.height == board.square_size.height + 1
                assert app.screen.region.contains_region(board.region)
                caption = app.query_one("#line" if app.screen.has_class("tiny") else "#caption")
                assert caption.region.height >= 1
        assert told(app) == before


async def test_check_and_mate_are_said_in_words(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        did(app, Typed("what if e4 dxe4 Bb5"))
        assert "Black to move, in check." in text_of(app, "#caption")
        assert "Black has a pawn more." in text_of(app, "#caption")
        assert "trying moves" in text_of(app, "#state")
        did(app, Typed("home"))
        assert "Material is equal." in text_of(app, "#caption")


async def test_marks_are_said_in_words_under_the_board(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        assert "Line: the line from g2 to b7." in text_of(app, "#caption")
        signs = app.query_one(BoardView).picture.signs
        assert list(signs.values()).count("falling") == 6


async def test_enter_at_a_question_that_waits_is_answered_once(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        for _ in range(3):
            await pilot.press("enter")
        assert told(app).count("A question stands here") == 1


async def test_quit_leaves_and_keeps_to_zero(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.press("ctrl+c")
        await pilot.pause()
    assert app.return_value == 0


async def test_help_pauses_the_telling_and_takes_it_up_again(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        run_for(app, 1000)
        assert app.session is not None
        await pilot.press(*"help", "enter")
        assert isinstance(app.screen, HelpScreen)
        assert app.session.state.top.doing == "held"
        await pilot.press("escape")
        assert not isinstance(app.screen, HelpScreen)
        assert app.session.state.top.doing == "saying"
        assert isinstance(app.focused, Prompt)


async def test_ear_mode_says_asides_and_parts_once(tmp_path: Path) -> None:
    app = lesson_in(tmp_path, telling=Telling(voice=False, ear=True))
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        did(app, Typed("tell me"))
        assert told(app).count("If Black comes nearer") == 1


HOSTILE = """title: A \x1b[31mred\x1b[0m lamp
coach: Dr. \u202eenivC

part: The \x1b]0;taken\x07 part

Good \x1b[2J evening. {knight to f3} [bold]loud[/bold] and so on.

aside: Some [red]title[/red]
  {d5}. Words.
"""


async def test_nothing_foreign_steers_the_terminal(tmp_path: Path) -> None:
    from player.cues.compile import compile_lesson
    from player.script.follow import follow
    from player.script.read import read

    lesson, _ = read(HOSTILE)
    told_lesson, _ = follow(lesson)
    app = lesson_in(tmp_path, sheet=compile_lesson(told_lesson))
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        await pilot.pause()
        lines = [strip.text for strip in app.screen._compositor.render_strips()]
        assert not any(ord(one) < 32 or one in "\x7f\x9b\u202e" for line in lines for one in line)
        assert "[bold]loud[/bold]" in told(app)
        assert any("Some [red]title[/red]" in line for line in lines)


async def test_an_output_without_blocks_gets_plain_letters(tmp_path: Path) -> None:
    app = lesson_in(tmp_path, encoding="ascii")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        to_question(app)
        board = app.query_one(BoardView)
        for line in [board.strip(number, y).text for number in range(8) for y in range(9)]:
            assert line.isascii()


@pytest.mark.parametrize(("view", "flip"), [("white", False), ("black", True), ("lesson", False)])
async def test_the_board_is_seen_from_the_side_chosen(tmp_path: Path, view: View, flip: bool) -> None:
    app = lesson_in(tmp_path, telling=Telling(voice=False, view=view))
    async with app.run_test() as pilot:
        await pilot.pause()
        board = app.query_one(BoardView)
        assert board.picture.flip == flip
        to_question(app)
        assert board.picture.flip == flip
        did(app, Did("turn"))
        assert board.picture.flip != flip


async def test_an_aside_whose_title_is_said_goes_by_its_number_alone(tmp_path: Path) -> None:
    app = lesson_in(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        to_question(app)
        did(app, Typed("tell me"))
        heads = [one.text for one in app.query_one(Narration).told if one.kind == "head"]
        assert [one for one in heads if one.startswith("Aside")] == ["Aside 1", "Aside 2"]
