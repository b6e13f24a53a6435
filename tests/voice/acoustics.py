"""Hearing in samples when a word begins, and how far from it a move may be: what sync is measured with.

The tolerances, seen from the sound: a move is on the board no more than 60 ms before and 40 ms after its word
for 99 moves in 100 (the 40 ms early and 60 ms late of EBU R 37, figures second-hand), and never more than
185 ms before or 90 ms after (acceptability in ITU-R BT.1359-1, considering g).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

Samples = npt.NDArray[np.float64]

OFTEN_MS = (-60.0, 40.0)
ALWAYS_MS = (-185.0, 90.0)
OFTEN_SHARE = 0.99

_HOP_MS = 1
_GAP_MS = 8
_QUIET = 0.02
_BACK_MS, _ON_MS = 40, 90
_FLUX_MS = 60


def heard(pcm: bytes | bytearray) -> Samples:
    """16-bit sound of one channel as numbers."""
    return np.frombuffer(bytes(pcm[: len(pcm) // 2 * 2]), dtype="<i2").astype(np.float64)


def onset_near(sound: Samples, rate_hz: int, near_ms: float) -> float:
    """When the word that is marked near there begins to be heard, in ms: found in the samples alone.

    That is where a quiet of 8 ms or more ends; in speech without a gap it is where the spectrum changes most.
    """
    level = _levels(sound, rate_hz, 4)
    quiet = level < _QUIET * level.max(initial=0.0)
    first, last = max(0, round(near_ms) - _BACK_MS), min(len(level), round(near_ms) + _ON_MS)
    ends = [
        at
        for at in range(first, last)
        if not quiet[at] and (at == 0 or (at >= _GAP_MS and quiet[at - _GAP_MS : at].all()))
    ]
    if ends:
        return float(min(ends, key=lambda at: abs(at - near_ms)))
    return _change_near(sound, rate_hz, near_ms)


def find(sound: Samples, piece: Samples, first: int, last: int) -> tuple[int, float]:
    """Where between two frames of a sound this piece of it begins, and how alike it is, 1.0 being the same."""
    first, last = max(0, first), min(len(sound), last + len(piece))
    window = sound[first:last]
    if len(window) < len(piece):
        return first, 0.0
    size = len(window) + len(piece)
    both = np.fft.irfft(np.fft.rfft(window, size) * np.conj(np.fft.rfft(piece, size)), size)
    both = both[: len(window) - len(piece) + 1]
    power = np.concatenate(([0.0], np.cumsum(window**2)))
    power = power[len(piece) :] - power[: len(window) - len(piece) + 1]
    alike = both / np.sqrt(np.maximum(power, 1.0) * max(1.0, float((piece**2).sum())))
    at = int(np.argmax(alike))
    return first + at, float(alike[at])


@dataclass(frozen=True)
class Landing:
    """A move that landed so many milliseconds after its word began to be heard; before it where negative."""

    word: str
    late_ms: float


def verdict(landings: Sequence[Landing]) -> str:
    """What is wrong with these landings by the tolerances above, or nothing."""
    within = sum(OFTEN_MS[0] <= one.late_ms <= OFTEN_MS[1] for one in landings)
    outside = [one for one in landings if not ALWAYS_MS[0] <= one.late_ms <= ALWAYS_MS[1]]
    if outside:
        return f"{len(outside)} of {len(landings)} moves land where nobody would accept it: {outside[:5]}"
    if within < OFTEN_SHARE * len(landings):
        far = sorted(landings, key=lambda one: abs(one.late_ms))[within:]
        return f"only {within} of {len(landings)} moves land on their word: {far[:5]}"
    return ""


def figures(landings: Sequence[Landing]) -> str:
    """The spread in one line."""
    late = np.array([one.late_ms for one in landings])
    within = np.mean((late >= OFTEN_MS[0]) & (late <= OFTEN_MS[1]))
    parts = [f"{name} {value:+.0f}" for name, value in _spread(late)]
    return f"{len(late)} moves, ms after the word: {', '.join(parts)}; within {within:.1%}"


def _spread(late: Samples) -> list[tuple[str, float]]:
    names = ("least", "1 %", "median", "99 %", "most")
    return list(zip(names, (float(value) for value in np.percentile(late, [0, 1, 50, 99, 100])), strict=True))


def _levels(sound: Samples, rate_hz: int, window_ms: int) -> Samples:
    """The loudest sample of each window, one window beginning at each ms."""
    hop, size = rate_hz * _HOP_MS / 1000, max(1, rate_hz * window_ms // 1000)
    count = int(len(sound) / hop)
    loud = np.abs(sound)
    return np.array([loud[int(at * hop) : int(at * hop) + size].max(initial=0.0) for at in range(count)])


def _change_near(sound: Samples, rate_hz: int, near_ms: float) -> float:
    """Where, within 60 ms, the spectrum of the 12 ms to come differs most from that of the 12 ms before."""
    size = rate_hz * 12 // 1000
    shape: Any = np.hanning(size)
    best, found = -1.0, near_ms
    for at_ms in np.arange(near_ms - _FLUX_MS, near_ms + _FLUX_MS, 2.0):
        at = int(at_ms * rate_hz / 1000)
        if at < size or at + size > len(sound):
            continue
        before, after = (np.log1p(np.abs(np.fft.rfft(sound[a : a + size] * shape))) for a in (at - size, at))
        change = float(((after - before) ** 2).sum())
        if change > best:
            best, found = change, float(at_ms)
    return found
