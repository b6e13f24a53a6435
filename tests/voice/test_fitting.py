from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from player.voice.fitting import fit_words, loud_spans
from player.wording.pace import word_times
from tests.voice.standins import noise

RATE = 8_000


def sound(*parts: tuple[str, int]) -> bytes:
    """Stretches of noise and of silence, in ms."""
    return b"".join(
        noise(ms, rate_hz=RATE) if kind == "loud" else bytes(ms * RATE // 1000 * 2) for kind, ms in parts
    )


def test_loud_stretches_are_found_to_a_hundredth_of_a_second() -> None:
    spans = loud_spans(
        sound(("quiet", 70), ("loud", 500), ("quiet", 40), ("loud", 100), ("quiet", 300), ("loud", 800)), RATE
    )
    assert [(round(start, -1), round(stop, -1)) for start, stop in spans] == [(70, 710), (1010, 1810)]


def test_words_after_a_pause_begin_after_it() -> None:
    spoken = "Queen takes on h7, mate in two."
    pcm = sound(("quiet", 100), ("loud", 2000), ("quiet", 400), ("loud", 900), ("quiet", 300))
    onsets = fit_words(spoken, pcm, RATE)
    assert abs(onsets[0] - 100) <= 10
    assert onsets[3] < 2100
    assert abs(onsets[4] - 2500) <= 10


def test_a_voice_that_makes_no_pause_is_fitted_as_one_stretch() -> None:
    spoken = "Queen takes on h7, mate in two."
    onsets = fit_words(spoken, sound(("quiet", 50), ("loud", 3000)), RATE)
    assert abs(onsets[0] - 50) <= 10 and 1500 < onsets[4] < 2600


def test_pauses_that_make_no_sense_are_not_believed() -> None:
    # One word before the pause and eight after, but nearly all the sound before it: it was some other pause.
    spoken = "Wait, the rook on d1 may still go home."
    onsets = fit_words(spoken, sound(("loud", 4000), ("quiet", 200), ("loud", 300)), RATE)
    assert onsets[1] < 2000


@given(
    st.lists(st.sampled_from(["rook", "takes,", "d5.", "the", "—"]), max_size=12),
    st.lists(st.tuples(st.sampled_from(["loud", "quiet"]), st.integers(0, 900)), max_size=8),
)
def test_always_ordered_and_within_the_sound(chosen: list[str], parts: list[tuple[str, int]]) -> None:
    spoken, pcm = " ".join(chosen), sound(*parts)
    onsets = fit_words(spoken, pcm, RATE)
    total = len(pcm) / 2 / RATE * 1000
    assert len(onsets) == len(spoken.split())
    assert all(early <= late for early, late in pairwise(onsets))
    assert all(0 <= onset <= total + 1 for onset in onsets)


def test_a_stretched_sound_stretches_the_words() -> None:
    spoken = "that is why the rook is strong"
    guess, ms = word_times(spoken)
    onsets = fit_words(spoken, noise(ms * 2, rate_hz=RATE), RATE)
    assert all(abs(onset - 2 * at) <= 25 for onset, at in zip(onsets, guess, strict=True))
