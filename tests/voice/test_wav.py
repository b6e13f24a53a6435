from __future__ import annotations

import io
import wave
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.wav import DamagedSound, Wave, parse_wav, read_wav, wav_bytes
from tests.voice.standins import noise

sounds = st.builds(
    Wave,
    rate_hz=st.sampled_from([8_000, 16_000, 22_050, 44_100]),
    pcm=st.binary(max_size=400).map(lambda b: b[: len(b) // 2 * 2]),
    cues=st.lists(st.integers(0, 2**32 - 1), max_size=8).map(tuple),
    measured=st.booleans(),
)


@given(sounds)
def test_what_is_written_is_read(sound: Wave) -> None:
    assert parse_wav(wav_bytes(sound)) == sound


@given(sounds)
def test_another_reader_finds_the_same_sound(sound: Wave) -> None:
    # The standard library's reader of RIFF/WAVE knows nothing of ours.
    with wave.open(io.BytesIO(wav_bytes(sound))) as other:
        assert (other.getnchannels(), other.getsampwidth(), other.getframerate()) == (1, 2, sound.rate_hz)
        assert other.readframes(other.getnframes()) == sound.pcm


@given(sounds, st.data())
def test_any_shortened_or_changed_file_is_damaged(sound: Wave, data: st.DataObject) -> None:
    content = wav_bytes(sound)
    cut = data.draw(st.integers(0, len(content) - 1))
    with pytest.raises(DamagedSound):
        parse_wav(content[:cut])
    if sound.pcm:
        at = len(content) - 1 - data.draw(st.integers(0, len(sound.pcm) - 1))
        with pytest.raises(DamagedSound):
            parse_wav(content[:at] + bytes([content[at] ^ 1]) + content[at + 1 :])


@given(st.binary(max_size=200))
def test_anything_else_is_damaged(content: bytes) -> None:
    with pytest.raises(DamagedSound):
        parse_wav(b"RIFF" + (len(content) + 4).to_bytes(4, "little") + b"WAVE" + content)


def test_a_sound_of_two_channels_is_not_ours(tmp_path: Path) -> None:
    path = tmp_path / "stereo.wav"
    with wave.open(str(path), "wb") as out:
        out.setnchannels(2)
        out.setsampwidth(2)
        out.setframerate(22_050)
        out.writeframes(noise(20))
    with pytest.raises(DamagedSound):
        read_wav(path)
