"""Sound as the ears take it: one channel of 16-bit frames at 16 kHz, from any PCM file or device."""

from __future__ import annotations

import array
import importlib
import io
import random
import sys
import wave
from functools import lru_cache
from typing import Any

RATE_HZ = 16_000
FRAME_MS = 30
FRAME_BYTES = RATE_HZ * FRAME_MS // 1000 * 2
LONGEST_S = 120
NOISE = 24
"""Amplitude, of 32767, of the faint noise laid under every clip: digital silence misleads the recogniser."""


class UnreadableSound(Exception):
    """No sound can be had from a file; the message is one plain sentence."""


def read_clip(content: bytes, name: str) -> bytes:
    """The frames of a WAV file of any rate, width and number of channels, at `RATE_HZ`.

    UnreadableSound, with a sentence that names the file, where it is damaged, empty or no PCM.
    """
    try:
        with wave.open(io.BytesIO(content)) as file:
            channels, width, rate = file.getnchannels(), file.getsampwidth(), file.getframerate()
            pcm = file.readframes(min(file.getnframes(), LONGEST_S * max(1, rate)))
    except (wave.Error, EOFError, ValueError, RuntimeError) as fault:
        raise UnreadableSound(f"{name} is no sound file that can be read: WAV with PCM is needed.") from fault
    if width not in (1, 2, 3, 4) or not 1_000 <= rate <= 384_000 or not 1 <= channels <= 64:
        raise UnreadableSound(f"{name} says impossible things of its sound.")
    whole = len(pcm) // (width * channels) * width * channels
    if not whole:
        raise UnreadableSound(f"{name} has no sound in it.")
    return converted(pcm[:whole], rate, width, channels)


def at_our_rate(pcm: bytes, rate_hz: int) -> bytes:
    """One channel of 16-bit frames, brought to `RATE_HZ`."""
    return converted(pcm, rate_hz, 2, 1)


def converted(pcm: bytes, rate_hz: int, width: int, channels: int) -> bytes:
    """Frames of any PCM as one channel of 16 bits at `RATE_HZ`. `width` is in bytes."""
    if (rate_hz, width, channels) == (RATE_HZ, 2, 1):
        return pcm
    audio: Any = importlib.import_module("miniaudio")
    formats = {
        1: audio.SampleFormat.UNSIGNED8,
        2: audio.SampleFormat.SIGNED16,
        3: audio.SampleFormat.SIGNED24,
        4: audio.SampleFormat.SIGNED32,
    }
    return bytes(
        audio.convert_frames(formats[width], channels, rate_hz, pcm, audio.SampleFormat.SIGNED16, 1, RATE_HZ)
    )


def noised(pcm: bytes) -> bytes:
    """The frames with the faint noise laid under them; the same for the same frames."""
    samples = array.array("h", pcm)
    if sys.byteorder == "big":
        samples.byteswap()
    noise = _noise()
    length = len(noise)
    mixed = array.array(
        "h", [max(-32768, min(32767, one + noise[at % length])) for at, one in enumerate(samples)]
    )
    if sys.byteorder == "big":
        mixed.byteswap()
    return mixed.tobytes()


@lru_cache(maxsize=1)
def _noise() -> array.array[int]:
    source = random.Random(1)
    return array.array("h", [round(source.gauss(0, NOISE / 2)) for _ in range(RATE_HZ)])
