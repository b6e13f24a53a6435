"""Where in a sound a word is really heard to begin, given the frame at which its engine says that it does."""

from __future__ import annotations

import array
import sys
from collections.abc import Sequence

_LATEST_MS = 80
_QUIET = 0.01
_SPARSE = 257
_STEP = 4
_BLOCK = 32 * _STEP


def heard_onsets(pcm: bytes, rate_hz: int, word_frames: Sequence[int]) -> tuple[int, ...]:
    """Each onset moved on to the end of the quiet that it lies in, by 80 ms and to the next word at most.

    Engines put the beginning of a word where the mouth closes for its first sound: a "k" or a "p" is heard
    some 50 ms later. `pcm` is 16-bit, one channel; onsets come in order and stay so.
    """
    samples = _samples(pcm)
    floor = max(map(abs, samples[::_SPARSE]), default=0) * _QUIET
    moved = []
    for index, frame in enumerate(word_frames):
        limit = min(len(samples), frame + rate_hz * _LATEST_MS // 1000)
        if index + 1 < len(word_frames):
            limit = min(limit, word_frames[index + 1])
        moved.append(_loud(samples, frame, limit, floor))
    return tuple(moved)


def _loud(samples: memoryview[int], frame: int, limit: int, floor: float) -> int:
    """The first frame from `frame` on, in steps, that is louder than the floor; `frame` where none is."""
    for begin in range(frame, limit, _BLOCK):
        block = samples[begin : min(limit, begin + _BLOCK) : _STEP].tolist()
        if max(block) > floor or min(block) < -floor:
            return begin + _STEP * next(at for at, one in enumerate(block) if one > floor or one < -floor)
    return frame


def _samples(pcm: bytes) -> memoryview[int]:
    """The sound as numbers, without a copy where the machine has them that way round."""
    if sys.byteorder == "little":
        return memoryview(pcm[: len(pcm) // 2 * 2]).cast("h")
    swapped = array.array("h", pcm)
    swapped.byteswap()
    return memoryview(swapped)
