"""Lines fit the width and the letters of the output, and carry nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.lines.page import Page, broken, cells, plain
from tests.worlds import printed, scratch_world


@given(st.text(), st.integers(2, 60))
def test_no_line_is_wider_than_asked_and_no_word_is_lost(text: str, width: int) -> None:
    text = " ".join(text.split())
    lines = broken(text, width)
    assert all(cells(line) <= width for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_words_stay_whole_where_they_fit() -> None:
    assert broken("one two three", 7) == ["one two", "three"]
    assert broken("one two", 0) == ["one two"]


@pytest.mark.parametrize(
    ("text", "wide"),
    [("abc", 3), ("将棋", 4), ("e\u0301", 1)],  # East Asian Width W takes two cells (Unicode Annex 11)
)
def test_cells_are_those_of_a_terminal(text: str, wide: int) -> None:
    assert cells(text) == wide


@given(st.text())
def test_plain_letters_are_ascii(text: str) -> None:
    assert plain(text).isascii()


@pytest.mark.parametrize(
    ("text", "bare"),
    [("“Señor”", '"Senor"'), ("it’s – so…", "it's - so..."), ("♘f3", "Nf3"), ("Zürich", "Zurich")],
)
def test_what_ascii_lacks_becomes_the_nearest(text: str, bare: str) -> None:
    assert plain(text) == bare


@given(st.text())
def test_nothing_printed_steers_a_terminal(text: str) -> None:
    for encoding in ("utf-8", "ascii", "latin-1"):
        world = scratch_world(Path("/nowhere"), encoding=encoding)
        Page(world).line("Coach", f"a\x1b[2J{text}\x07\u202eb")
        out = printed(world)
        assert out.endswith("\n") and out.count("\n") == 1
        assert not any(ord(c) < 32 or 127 <= ord(c) < 160 for c in out[:-1])
        assert "\u202e" not in out


@pytest.mark.parametrize(("columns", "widest"), [(24, 23), (80, 79), (3, 102)])
def test_without_a_width_lines_fit_the_terminal(tmp_path: Path, columns: int, widest: int) -> None:
    world = scratch_world(tmp_path, terminal=True, columns=columns)
    Page(world).line("Ines", " ".join(["four"] * 19 + ["!"]))
    lines = printed(world).splitlines()
    assert max(map(len, lines)) <= widest
    assert (len(lines) == 1) == (columns == 3)
    assert "".join(lines).replace(" ", "") == "Ines:" + "four" * 19 + "!"
