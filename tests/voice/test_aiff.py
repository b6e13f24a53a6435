from __future__ import annotations

import array
import struct

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.aiff import parse_aiff
from player.voice.wav import DamagedSound

# Sampling rates as 80-bit extended numbers, from the tables in common use for AIFF writers: the exponent is
# biased by 16383, and the leading bit of the mantissa is written (IEEE 754 double extended).
RATES = {
    8_000: "400BFA00000000000000",
    22_050: "400DAC44000000000000",
    44_100: "400EAC44000000000000",
    48_000: "400EBB80000000000000",
}


def aiff(
    samples: list[int], rate: int, channels: int = 1, kind: bytes | None = None, bits: int = 16
) -> bytes:
    order = "<" if kind == b"sowt" else ">"
    frames = len(samples) // channels
    common = struct.pack(">hIh", channels, frames, bits) + bytes.fromhex(RATES[rate])
    if kind is not None:
        common += kind + b"\x00\x00"
    sound = struct.pack(">II", 0, 0) + struct.pack(f"{order}{len(samples)}h", *samples)
    body = b"AIFF" if kind is None else b"AIFC"
    for name, content in ((b"COMM", common), (b"NAME", b"odd"), (b"SSND", sound)):
        body += name + struct.pack(">I", len(content)) + content + b"\0" * (len(content) % 2)
    return b"FORM" + struct.pack(">I", len(body)) + body


@given(
    st.lists(st.integers(-32768, 32767), max_size=50),
    st.sampled_from(sorted(RATES)),
    st.sampled_from([None, b"NONE", b"twos", b"sowt"]),
)
def test_samples_and_rate_come_out_whatever_the_order_of_bytes(
    samples: list[int], rate: int, kind: bytes | None
) -> None:
    wave = parse_aiff(aiff(samples, rate, kind=kind))
    assert wave.rate_hz == rate
    assert wave.pcm == struct.pack(f"<{len(samples)}h", *samples)


def test_two_channels_are_averaged() -> None:
    wave = parse_aiff(aiff([100, 300, -50, -150], 22_050, channels=2))
    assert array.array("h", wave.pcm).tolist() == [200, -100]


@pytest.mark.parametrize("cut", [3, 11, 20, 40, 70])
def test_a_file_still_growing_is_damaged(cut: int) -> None:
    whole = aiff(list(range(20)), 22_050)
    with pytest.raises(DamagedSound):
        parse_aiff(whole[:cut])


def test_compressed_or_wider_sound_is_refused() -> None:
    with pytest.raises(DamagedSound):
        parse_aiff(aiff([1, 2], 22_050, kind=b"ima4"))
    with pytest.raises(DamagedSound):
        parse_aiff(aiff([1, 2], 22_050, bits=24))
