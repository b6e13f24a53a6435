"""Where speech is in sound: pocketsphinx's own voice activity detector and endpointer."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from typing import Any

from player.voice.ears.recogniser import NO_PACKAGE, NoEars
from player.voice.ears.waves import FRAME_BYTES, FRAME_MS, RATE_HZ

_FEWEST_FRAMES = 4


def speech_detector() -> Callable[[bytes], bool]:
    """Tells of a frame whether it is speech. NoEars where pocketsphinx is missing."""
    vad = _library().Vad(mode=3, sample_rate=RATE_HZ, frame_length=FRAME_MS / 1000)

    def is_speech(frame: bytes) -> bool:
        return len(frame) == FRAME_BYTES and bool(vad.is_speech(frame))

    return is_speech


def trimmed(pcm: bytes) -> bytes:
    """A clip from the first to the last speech that the endpointer finds, with a margin; b"" without any."""
    ends = _library().Endpointer(sample_rate=RATE_HZ)
    is_speech = speech_detector()
    size = ends.frame_bytes
    spoken: list[bytes] = []
    strict = 0
    padded = pcm + bytes(RATE_HZ)
    for at in range(0, len(padded) - size + 1, size):
        frame = padded[at : at + size]
        strict += is_speech(frame)
        found = ends.process(frame)
        if found is not None:
            spoken.append(found)
    return b"".join(spoken) if strict >= _FEWEST_FRAMES else b""


def _library() -> Any:
    try:
        return importlib.import_module("pocketsphinx")
    except Exception as fault:
        raise NoEars(NO_PACKAGE) from fault
