"""Any PCM becomes one channel of 16 bits at 16 kHz, and what is none gets a sentence."""

from __future__ import annotations

import array
import io
import math
import wave
from itertools import pairwise

import pytest

from player.voice.ears.waves import RATE_HZ, UnreadableSound, noised, read_clip


def tone(rate: int, width: int, channels: int, seconds: float = 0.5) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(rate)
        top = (1 << (8 * width - 1)) - 1
        for at in range(int(rate * seconds)):
            value = round(0.5 * top * math.sin(2 * math.pi * 440 * at / rate))
            sample = bytes([value + 128]) if width == 1 else value.to_bytes(width, "little", signed=True)
            file.writeframesraw(sample * channels)
    return out.getvalue()


@pytest.mark.parametrize("rate", [8_000, 16_000, 44_100])
@pytest.mark.parametrize("width", [1, 2, 3, 4])
@pytest.mark.parametrize("channels", [1, 2])
def test_any_pcm_keeps_its_length_loudness_and_pitch(rate: int, width: int, channels: int) -> None:
    samples = array.array("h", read_clip(tone(rate, width, channels), "tone.wav"))
    assert abs(len(samples) - RATE_HZ // 2) < RATE_HZ // 50
    assert 14_000 < max(samples[2000:6000]) < 18_000
    crossings = sum(a < 0 <= b for a, b in pairwise(samples[800:-800]))
    assert abs(crossings / ((len(samples) - 1600) / RATE_HZ) - 440) < 12


@pytest.mark.parametrize("content", [b"", b"RIFF", b"not a sound at all", tone(16_000, 2, 1)[:30]])
def test_a_damaged_file_gets_one_sentence(content: bytes) -> None:
    with pytest.raises(UnreadableSound, match=r"^tone\.wav .*\.$"):
        read_clip(content, "tone.wav")


def test_a_file_without_sound_is_told_of() -> None:
    with pytest.raises(UnreadableSound, match="no sound in it"):
        read_clip(tone(16_000, 2, 1, 0.0), "tone.wav")


def test_a_cut_file_is_heard_as_far_as_it_goes() -> None:
    whole = tone(16_000, 2, 1)
    assert 0 < len(read_clip(whole[:-5_001], "tone.wav")) < len(whole)


def test_faint_noise_is_laid_under_silence_and_is_the_same_each_time() -> None:
    samples = array.array("h", noised(bytes(3200)))
    assert 0 < max(map(abs, samples)) < 100
    assert noised(bytes(3200)) == samples.tobytes()
    assert array.array("h", noised(array.array("h", [32767] * 100).tobytes()))[0] > 32_600
