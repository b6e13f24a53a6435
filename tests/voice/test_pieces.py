from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.pieces import pieces
from player.voice.sound import NoSound

plain_words = st.lists(st.text(alphabet="abcdé,.?!", min_size=1, max_size=12), min_size=1, max_size=60).map(
    " ".join
)


@given(plain_words, st.integers(12, 80))
def test_no_word_is_lost_and_no_piece_too_long(spoken: str, limit: int) -> None:
    cut = pieces(spoken, limit)
    assert " ".join(cut).split() == spoken.split()
    assert all(0 < len(piece) <= limit for piece in cut)


@given(st.text(max_size=120))
def test_one_word_for_every_word_whatever_the_characters(spoken: str) -> None:
    try:
        cut = pieces(spoken)
    except NoSound:
        assert "\0" in spoken or not spoken.split()
        return
    assert len(" ".join(cut).split()) == len(spoken.split())
    " ".join(cut).encode("utf-8")


def test_cut_at_the_end_of_a_sentence_rather_than_in_it() -> None:
    assert pieces("One two three four. Five six seven.", 24) == ["One two three four.", "Five six seven."]


def test_a_short_text_stays_whole() -> None:
    assert pieces("  Knight   to f3. \n") == ["Knight to f3."]


@pytest.mark.parametrize("spoken", ["", "  \n", "a\0b", "x" * 1001])
def test_what_cannot_be_spoken_is_refused_in_a_sentence(spoken: str) -> None:
    with pytest.raises(NoSound, match=r"^[A-Z].*\.$"):
        pieces(spoken)


def test_forty_thousand_characters_are_taken_in_pieces() -> None:
    cut = pieces("knight " * 6000)
    assert len(cut) > 10 and max(map(len, cut)) <= 3000
