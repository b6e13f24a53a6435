"""Reading AIFF and AIFF-C with plain 16-bit samples: what the Macintosh writes when it speaks into a file.

After "Audio Interchange File Format: AIFF, A Standard for Sampled Sound Files, Version 1.3" (Apple
Computer, 1989): big-endian chunks, the rate as an 80-bit extended number. AIFF-C adds the kind of
compression; "NONE", "twos" are big-endian samples and "sowt" little-endian ones.
"""

from __future__ import annotations

import array
import struct

from player.voice.wav import DamagedSound, Wave


def parse_aiff(content: bytes) -> Wave:
    """One channel of 16-bit sound; several channels are averaged. DamagedSound for anything else."""
    if len(content) < 12 or content[:4] != b"FORM" or content[8:12] not in (b"AIFF", b"AIFC"):
        raise DamagedSound("no AIFF header")
    chunks = _chunks(content)
    try:
        common, data = chunks[b"COMM"], chunks[b"SSND"]
        channels, frames, bits = struct.unpack_from(">hIh", common)
        rate = _extended(common[8:18])
        (offset,) = struct.unpack_from(">I", data)
    except (KeyError, struct.error) as fault:
        raise DamagedSound("a part of the file is missing") from fault
    kind = common[18:22] if content[8:12] == b"AIFC" else b"NONE"
    if bits != 16 or channels < 1 or kind not in (b"NONE", b"twos", b"sowt") or not 4_000 <= rate <= 192_000:
        raise DamagedSound("not plain 16-bit sound")
    sound = data[8 + offset : 8 + offset + frames * channels * 2]
    if len(sound) != frames * channels * 2:
        raise DamagedSound("the sound is shorter than its header says")
    samples = array.array("h")
    samples.frombytes(sound)
    if kind != b"sowt":
        samples.byteswap()
    if channels > 1:
        parts = [samples[channel::channels] for channel in range(channels)]
        samples = array.array("h", [sum(frame) // channels for frame in zip(*parts, strict=True)])
    return Wave(rate, samples.tobytes())


def _extended(ten: bytes) -> int:
    """An 80-bit IEEE 754 extended number as a whole number."""
    sign_exponent, mantissa = struct.unpack(">HQ", ten)
    shift = (sign_exponent & 0x7FFF) - 16383 - 63
    value: int = mantissa >> -shift if shift < 0 else mantissa << min(shift, 64)
    return value


def _chunks(content: bytes) -> dict[bytes, bytes]:
    found: dict[bytes, bytes] = {}
    at = 12
    while at + 8 <= len(content):
        (size,) = struct.unpack_from(">I", content, at + 4)
        found.setdefault(content[at : at + 4], content[at + 8 : at + 8 + size])
        at += 8 + size + size % 2
    return found
