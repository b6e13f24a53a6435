from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.stretch import stretched
from tests.voice.acoustics import heard
from tests.voice.standins import noise

RATE = 22_050


def tone(hertz: float, ms: int) -> bytes:
    count = ms * RATE // 1_000
    return b"".join(
        round(8_000 * math.sin(2 * math.pi * hertz * at / RATE)).to_bytes(2, "little", signed=True)
        for at in range(count)
    )


@pytest.mark.parametrize("speed", [0.5, 0.75, 1.25, 2.0, 3.0])
@pytest.mark.parametrize("hertz", [110.0, 220.0, 700.0])
def test_the_pitch_stays_and_stays_pure(hertz: float, speed: float) -> None:
    sound = heard(stretched(tone(hertz, 1_200), RATE, speed))
    power = np.abs(np.fft.rfft(sound * np.hanning(len(sound)))) ** 2
    peak = int(np.argmax(power))
    assert abs(peak * RATE / len(sound) - hertz) <= 0.01 * hertz + RATE / len(sound)
    assert power[max(0, peak - 6) : peak + 7].sum() / power.sum() > 0.98
    assert np.abs(sound[500:-500]).max() <= 8_300


@given(st.integers(0, 400), st.floats(0.5, 3.0))
def test_the_length_is_that_of_the_speed(ms: int, speed: float) -> None:
    pcm = noise(ms, rate_hz=8_000)
    made = stretched(pcm, 8_000, speed)
    assert abs(len(made) / 2 - len(pcm) / 2 / speed) <= 1


def test_its_own_speed_changes_nothing() -> None:
    assert stretched(noise(100), RATE, 1.0) == noise(100)


def test_what_is_loud_stays_in_its_place() -> None:
    pcm = bytes(2 * RATE // 2) + tone(300, 300) + bytes(2 * RATE // 2)
    for speed in (0.5, 1.5):
        loud = np.nonzero(np.abs(heard(stretched(pcm, RATE, speed))) > 400)[0] / RATE * 1_000
        assert abs(loud[0] - 500 / speed) <= 25 and abs(loud[-1] - 800 / speed) <= 25
