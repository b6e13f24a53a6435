"""Slower and faster speech at its own pitch: pieces of the sound laid over each other where they fit best.

The method is waveform similarity overlap-add (Verhelst and Roelands 1993). Each piece is looked for near the
place where an even stretching would take it from, at the shift at which it goes on most like the last one.
"""

from __future__ import annotations

import array
import math
import sys
from collections.abc import Sequence
from operator import mul

_HOP_MS = 12
_SEARCH_MS = 9
_COARSE = 6


def stretched(pcm: bytes, rate_hz: int, speed: float) -> bytes:
    """16-bit sound of one channel, so many times as fast and at the same pitch; speed is 0.5 to 3.0."""
    if speed == 1.0 or not pcm:
        return pcm
    sound = array.array("h")
    sound.frombytes(pcm[: len(pcm) // 2 * 2])
    if sys.byteorder == "big":
        sound.byteswap()
    hop, search = rate_hz * _HOP_MS // 1000, rate_hz * _SEARCH_MS // 1000
    length = round(len(sound) / speed)
    sound.extend([0] * (3 * hop + 2 * search))
    rise = [index / hop for index in range(hop)]
    fall = rise[::-1]
    made = array.array("h", sound[:hop])
    last = 0
    while len(made) < length:
        natural = last + hop
        wanted = min(round(len(made) * speed), len(sound) - 2 * hop - search)
        best = natural if abs(natural - wanted) < 2 else _like(sound, natural, wanted, hop, search)
        tail, head = sound[natural : natural + hop], sound[best : best + hop]
        made.extend(map(int, map(sum, zip(map(mul, tail, fall), map(mul, head, rise), strict=True))))
        last = best
    del made[length:]
    if sys.byteorder == "big":
        made.byteswap()
    return made.tobytes()


def _like(sound: array.array[int], natural: int, wanted: int, hop: int, search: int) -> int:
    """Where near `wanted` the sound is most like what would follow naturally; roughly first, then exactly."""
    first = max(0, wanted - search)
    pattern = sound[natural : natural + hop]
    rough = pattern[::_COARSE]
    near = max(
        range(first, wanted + search, _COARSE),
        key=lambda at: _likeness(rough, sound[at : at + hop : _COARSE]),
    )
    return max(
        range(max(0, near - _COARSE + 1), near + _COARSE),
        key=lambda at: _likeness(pattern[::2], sound[at : at + hop : 2]),
    )


def _likeness(one: Sequence[int], other: Sequence[int]) -> float:
    """How alike two pieces are, their loudness left out of it; a silence is like nothing."""
    power: int = sum(map(mul, other, other))
    alike: int = sum(map(mul, one, other))
    return alike / (math.sqrt(power) + 1.0)
