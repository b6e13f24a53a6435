"""The narration: paragraphs, their lines, and reading back."""

from __future__ import annotations

from textual.app import App, ComposeResult

from player.screen.dress import PLAIN
from player.screen.narration import Narration

LONG = "A bishop on the long diagonal wakes when the pawn in front of it is challenged."


class Alone(App[None]):
    def compose(self) -> ComposeResult:
        yield Narration(PLAIN, id="told")

    CSS = "#told { height: 1fr; overflow-x: hidden; scrollbar-gutter: stable; scrollbar-size-vertical: 1; }"


def lines(paper: Narration) -> list[str]:
    return [strip.text.rstrip() for strips in paper._strips for strip in strips]


async def test_sentences_of_one_beat_stand_in_one_paragraph() -> None:
    app = Alone()
    async with app.run_test():
        paper = app.query_one(Narration)
        paper.add("Ines", "One.", "told", part_of="3")
        paper.add("Ines", "Two.", "told", part_of="3", live=True)
        paper.add("Ines", "Three.", "told", part_of="4")
        paper.add("You", "Nf3", "you", part_of="4")
        assert [one.text for one in paper.told] == ["One. Two.", "Three.", "Nf3"]
        assert not any(one.live for one in paper.told)


async def test_who_speaks_is_named_where_it_changes() -> None:
    app = Alone()
    async with app.run_test(size=(60, 20)):
        paper = app.query_one(Narration)
        for who, text in (("Ines", "One."), ("Ines", "Two."), ("Board", "Three."), ("Ines", "Four.")):
            paper.add(who, text, "told")
        named = [line.split()[0] for line in lines(paper) if line and not line.startswith(" ")]
        assert named == ["Ines", "Board", "Ines"]


async def test_lines_fit_at_every_width_and_lose_no_word() -> None:
    app = Alone()
    async with app.run_test(size=(80, 20)) as pilot:
        paper = app.query_one(Narration)
        for depth in range(5):
            paper.add("Ines", LONG, "told", depth=depth, part_of=str(depth))
        for width in (80, 50, 36, 30, 20, 80):
            await pilot.resize_terminal(width, 20)
            await pilot.pause()
            assert all(strip.cell_length == width - 1 for strips in paper._strips for strip in strips)
            words = " ".join(lines(paper)).replace("│", " ").replace("Ines:", " ").split()
            assert [one for one in words if one != "Ines"] == LONG.split() * 5
        assert paper.max_scroll_x == 0


async def test_it_follows_the_telling_until_someone_reads_back() -> None:
    app = Alone()
    async with app.run_test(size=(60, 10)) as pilot:
        paper = app.query_one(Narration)
        for number in range(20):
            paper.add("Ines", f"Sentence {number}.", "told")
        await pilot.pause()
        assert paper.scroll_offset.y == paper.max_scroll_y > 0
        paper.read(-1)
        await pilot.pause()
        here = paper.scroll_offset.y
        assert here < paper.max_scroll_y
        paper.add("Ines", "One more.", "told")
        await pilot.pause()
        assert paper.scroll_offset.y == here
        for _ in range(5):
            paper.read(1)
            await pilot.pause()
        paper.add("Ines", "And one.", "told")
        await pilot.pause()
        assert paper.scroll_offset.y == paper.max_scroll_y


async def test_wide_letters_are_counted_by_cells() -> None:
    app = Alone()
    async with app.run_test(size=(24, 10)):
        paper = app.query_one(Narration)
        paper.add("Ines", "将棋の本と" * 6, "told")
        assert all(strip.cell_length == 23 for strip in paper._strips[0])
