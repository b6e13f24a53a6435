"""Which spoken word stands at a character of the text shown."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.wording.prose import speakable


@pytest.mark.parametrize(
    ("shown", "mark", "word"),
    [
        ("Now Nf3, and on.", "Nf3", "knight"),
        ("Now, and on.", ", and", "and"),
        ("Now and on.", " and", "and"),
        ("Now “Nf3” it is.", "“Nf3", "knight"),
        ("Now Nf3” it is.", "” it", "it"),
        ("At the end.", ".", ""),
        ("12.Nf3 is it", "Nf3", "knight"),
    ],
)
def test_the_word_at_a_character(shown: str, mark: str, word: str) -> None:
    said = speakable(shown)
    index = said.word_at(shown.index(mark))
    assert (said.spoken.split()[index].rstrip(",.") if index < len(said.words) else "") == word


def test_past_the_end_is_the_number_of_words() -> None:
    said = speakable("Two words")
    assert said.word_at(len("Two words")) == 2
    assert speakable("").word_at(0) == 0


@given(
    st.lists(st.sampled_from(["Nf3", "e.p.", "12.", "word,", "“quoted”", "…", "O-O!", "it's"])).map(" ".join)
)
def test_words_never_go_back_and_begin_with_the_first(shown: str) -> None:
    said = speakable(shown)
    found = [said.word_at(offset) for offset in range(len(shown) + 1)]
    assert found == sorted(found)
    assert found[0] == 0
    assert found[-1] == len(said.words)
