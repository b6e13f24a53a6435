"""The board on the screen: it draws what changed, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import chess
import pytest
from textual.app import App, ComposeResult
from textual.drivers.headless_driver import HeadlessDriver

from player.facts.place import Place
from player.screen.board import BoardView, signs_of
from player.screen.dress import PLAIN
from player.screen.paint import SIZES, Size
from player.script.told import Mark, Shown

MOST = 0.15
"""The most that a change of one move may write, as a share of a whole repaint."""


class Alone(App[None]):
    """A board and nothing else."""

    def __init__(self, size: Size) -> None:
        super().__init__()
        self.board = BoardView(PLAIN)
        self.board.fit(size)

    def compose(self) -> ComposeResult:
        yield self.board


@contextmanager
def written(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """All that a driver is given to write, in the order in which it comes."""
    out: list[str] = []
    with monkeypatch.context() as patch:
        patch.setattr(HeadlessDriver, "is_headless", property(lambda _: False))
        patch.setattr(HeadlessDriver, "write", lambda _, data: out.append(data))
        yield out


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("flip", [False, True])
async def test_a_move_writes_a_small_share_of_a_repaint(
    size: Size, flip: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    app = Alone(size)
    async with app.run_test(size=(90, 40)) as pilot:
        place = Place()
        app.board.show(place, None, flip)
        await pilot.pause()
        with written(monkeypatch) as out:
            app.board._draw_all()
            await pilot.pause()
            whole = len("".join(out).encode())
        assert whole > 300
        for uci in ("g1f3", "d7d5"):
            place = place.then(uci)
            with written(monkeypatch) as out:
                app.board.show(place, uci, flip)
                await pilot.pause()
                one = len("".join(out).encode())
            # The second move takes the first one's signs off too: four squares.
            assert 0 < one <= MOST * whole


async def test_what_is_drawn_in_parts_is_what_is_drawn_whole() -> None:
    app = Alone(SIZES[0])
    async with app.run_test(size=(90, 40)) as pilot:
        place = Place()
        app.board.show(place, None, False)
        await pilot.pause()
        for uci in ("e2e4", "d7d5", "e4d5", "g8f6"):
            place = place.then(uci)
            app.board.show(place, uci, False)
            await pilot.pause()
        app.board.mark(Shown((Mark("line", "f1", "a6"),)))
        await pilot.pause()
        in_parts = [strip.text for strip in app.screen._compositor.render_strips()]
        app.board._draw_all()
        await pilot.pause()
        assert [strip.text for strip in app.screen._compositor.render_strips()] == in_parts


async def test_the_letters_and_digits_turn_with_the_board() -> None:
    app = Alone(SIZES[2])
    async with app.run_test(size=(90, 40)) as pilot:
        for flip, letters, digits in ((False, "abcdefgh", "87654321"), (True, "hgfedcba", "12345678")):
            app.board.show(Place(), None, flip)
            await pilot.pause()
            lines = [strip.text for strip in app.screen._compositor.render_strips()]
            size = app.board.square_size
            assert lines[size.height].split() == list(letters)
            assert "".join(line[0] for line in lines[: size.height]).split() == list(digits)


def test_the_move_s_squares_and_the_coach_s_marks_are_signed() -> None:
    signs = signs_of("e2e4", Shown((Mark("square", "d5"), Mark("hit", "f6", "e4"), Mark("line", "g2", "e4"))))
    named = {chess.square_name(square): sign for square, sign in signs.items()}
    assert named == {
        "e2": "left", "d5": "square", "f6": "from", "g2": "falling", "f3": "falling", "e4": "falling"
    }  # fmt: skip
    assert signs_of(None, Shown(())) == {}
    assert signs_of("0000", Shown(())) == {}
    assert signs_of("e7e8q", Shown(())) == {chess.E7: "left", chess.E8: "reached"}
