from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from player.voice.onsets import heard_onsets
from tests.voice.standins import noise

RATE = 8_000


def ms(value: int) -> int:
    return value * RATE // 1000


def silence(length_ms: int) -> bytes:
    return bytes(2 * ms(length_ms))


def test_a_word_that_begins_with_a_closed_mouth_begins_where_it_opens() -> None:
    pcm = noise(100, rate_hz=RATE) + silence(50) + noise(200, seed=2, rate_hz=RATE)
    first, second = heard_onsets(pcm, RATE, (0, ms(100)))
    assert first <= 1
    assert abs(second - ms(150)) <= 2


def test_a_word_in_the_middle_of_sound_stays() -> None:
    assert heard_onsets(noise(300, rate_hz=RATE), RATE, (ms(50), ms(120))) == (ms(50), ms(120))


def test_a_long_silence_is_no_closed_mouth() -> None:
    """The engine meant something by it, and 80 ms is longer than any closing of the mouth."""
    assert heard_onsets(silence(200) + noise(50, rate_hz=RATE), RATE, (ms(10),)) == (ms(10),)


@given(
    st.lists(st.tuples(st.booleans(), st.integers(1, 120)), max_size=8),
    st.lists(st.integers(0, 1_000), max_size=8),
)
def test_onsets_stay_in_order_within_the_sound_and_never_go_back(
    stretches: list[tuple[bool, int]], frames: list[int]
) -> None:
    pcm = b"".join(noise(long, rate_hz=RATE) if loud else silence(long) for loud, long in stretches)
    given_ = sorted(min(frame, len(pcm) // 2) for frame in frames)
    found = heard_onsets(pcm, RATE, given_)
    assert list(found) == sorted(found) and len(found) == len(given_)
    assert all(before <= after <= len(pcm) // 2 for before, after in zip(given_, found, strict=True))
    assert all(after - before <= ms(80) for before, after in zip(given_, found, strict=True))
