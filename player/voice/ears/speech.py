"""Where speech is in sound: pocketsphinx's own voice activity detector and endpointer."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from typing import Any

from player.voice.ears.recogniser import NO_PACKAGE, NoEars
from player.voice.ears.waves import FRAME_BYTES, FRAME_MS, RATE_HZ

_FEWEST_FRAMES = 4
_BEFORE_S, _AFTER_S = 0.4, 0.2


def speech_detector() -> Callable[[bytes], bool]:
    """Tells of a frame whether it is speech. NoEars where pocketsphinx is missing."""
    vad = _library().Vad(mode=3, sample_rate=RATE_HZ, frame_length=FRAME_MS / 1000)

    def is_speech(frame: bytes) -> bool:
        return len(frame) == FRAME_BYTES and bool(vad.is_speech(frame))

    return is_speech


def trimmed(pcm: bytes) -> bytes:
    """A clip from before the first to after the last speech that the endpointer finds; b"" without any.

    The margins are wide, since soft beginnings ("rook", "knight") are no speech to it yet. An answer too
    short for its window ("f6", "skip") goes by the frames that are plainly speech.
    """
    ends = _library().Endpointer(sample_rate=RATE_HZ)
    is_speech = speech_detector()
    size = ends.frame_bytes
    plain_s: list[float] = []
    first_s: float | None = None
    last_s = 0.0
    padded = pcm + bytes(RATE_HZ)
    for at in range(0, len(padded) - size + 1, size):
        frame = padded[at : at + size]
        if is_speech(frame):
            plain_s.append(at / 2 / RATE_HZ)
        if ends.process(frame) is not None:
            first_s = ends.speech_start if first_s is None else first_s
            last_s = (at + size) / 2 / RATE_HZ if ends.in_speech else ends.speech_end
    if len(plain_s) < _FEWEST_FRAMES:
        return b""
    if first_s is None:
        first_s, last_s = plain_s[0], plain_s[-1] + FRAME_MS / 1000
    begin = max(0, round((first_s - _BEFORE_S) * RATE_HZ))
    end = round((last_s + _AFTER_S) * RATE_HZ)
    return pcm[2 * begin : 2 * end]


def _library() -> Any:
    try:
        return importlib.import_module("pocketsphinx")
    except Exception as fault:
        raise NoEars(NO_PACKAGE) from fault
