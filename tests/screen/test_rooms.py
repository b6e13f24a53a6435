"""The division of the room: everything fits, whatever the terminal."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from player.screen.paint import LARGE, MIDDLE, SMALL, TINY
from player.screen.rooms import divide


@given(width=st.integers(1, 300), height=st.integers(1, 120), blocks=st.booleans())
def test_the_board_and_its_words_fit(width: int, height: int, blocks: bool) -> None:
    room = divide(width, height, blocks=blocks)
    if room.size is None:
        assert room.shape == "blind"
        return
    beside = 0 if room.shape == "tall" else 18
    assert room.size.width + 2 + beside <= width
    assert room.size.height + 1 + 3 <= height
    assert blocks or room.size is TINY


def test_the_usual_terminals() -> None:
    assert divide(40, 12).size is TINY
    assert divide(80, 24).size is SMALL
    assert divide(100, 32).size is MIDDLE
    assert divide(120, 40).size is LARGE
    assert divide(60, 44).shape == "tall"
    assert divide(39, 11).shape == "blind"
