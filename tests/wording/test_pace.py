from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.wording.pace import word_times

speeds = st.floats(min_value=0.5, max_value=3.0)

NARRATION = (
    "Good evening, and welcome to the reading room. Tonight, one set-up for White that opens many doors. "
    "White begins knight to f3, Black takes space with d5, and now a pawn moves, a knight answers, and the "
    "bishop finds the long diagonal. Pawn to e6, castles, bishop to e7. "
    "A bishop on the long diagonal wakes when the pawn in front of it is challenged. "
    "Most of the queenside still sleeps, and one man there jumps. What would you play here, and why?"
)


@given(st.text(max_size=200), speeds)
def test_one_beginning_per_word_each_after_the_one_before(spoken: str, speed: float) -> None:
    onsets, length = word_times(spoken, speed)
    assert len(onsets) == len(spoken.split())
    marks = [*onsets, length]
    assert all(early < late for early, late in pairwise(marks))
    assert marks[0] == 0


@given(st.text(min_size=1, max_size=200), speeds)
def test_twice_as_fast_takes_half_as_long(spoken: str, speed: float) -> None:
    length = word_times(spoken)[1]
    assert abs(word_times(spoken, speed)[1] - length / speed) <= 1


@given(st.text(max_size=80), st.text(max_size=80))
def test_what_follows_does_not_move_what_went_before(first: str, second: str) -> None:
    onsets, length = word_times(first)
    whole, total = word_times(first + " " + second)
    assert whole[: len(onsets)] == onsets
    assert abs(total - length - word_times(second)[1]) <= 1


def test_narration_runs_at_a_narrators_pace() -> None:
    # About 150 to 180 words a minute is common practice for narration.
    words = len(NARRATION.split())
    length = word_times(NARRATION)[1]
    assert 160 <= words / length * 60_000 <= 180


# Lengths in ms as eSpeak NG 1.52 says these at 170 words a minute; measured, not among the fitted sentences.
SAID = [
    ("The rook on d1 is guarded twice, and the queen may leave.", 3600),
    ("Knight takes d4.", 1520),
    ("He resigned.", 1000),
]


@pytest.mark.parametrize(("text", "ms"), SAID)
def test_length_is_near_that_of_a_real_voice(text: str, ms: int) -> None:
    assert word_times(text)[1] == pytest.approx(ms, rel=0.15)


def test_punctuation_makes_the_next_word_wait() -> None:
    plain = word_times("he takes and wins")[0][2]
    comma = word_times("he takes, and wins")[0][2]
    stop = word_times("he takes. and wins")[0][2]
    quoted = word_times("he takes.” and wins")[0][2]
    assert plain < comma < stop == quoted


def test_a_long_word_takes_longer_than_a_short_one() -> None:
    assert word_times("unquestionably")[1] > 2 * word_times("good")[1]


@pytest.mark.parametrize("speed", [0.0, 0.49, 3.01, -1.0, float("nan"), float("inf")])
def test_a_speed_nobody_speaks_at_is_refused(speed: float) -> None:
    with pytest.raises(ValueError, match="speed"):
        word_times("Good evening.", speed)


def test_other_scripts_take_time_too() -> None:
    assert word_times("конь бьёт слона")[1] > 1000
    assert word_times("白先手")[1] > 500
