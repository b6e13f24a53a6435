"""Hearing in samples when a word begins, and how far from it a move may be: what sync is measured with.

The tolerances, seen from the sound: a move is on the board no more than 60 ms before and 40 ms after its word
for 99 moves in 100 (the 40 ms early and 60 ms late of EBU R 37, figures second-hand), and never more than
185 ms before or 90 ms after (acceptability in ITU-R BT.1359-1, considering g).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Samples = npt.NDArray[np.float64]

OFTEN_MS = (-60.0, 40.0)
ALWAYS_MS = (-185.0, 90.0)
OFTEN_SHARE = 0.99

_HOP_MS = 3
_WINDOW_MS = 16
_BANDS = 24
_QUIET = 0.02
_LIKENESS_MS = 130
_REACH_MS = 250


def heard(pcm: bytes | bytearray) -> Samples:
    """16-bit sound of one channel as numbers."""
    return np.frombuffer(bytes(pcm[: len(pcm) // 2 * 2]), dtype="<i2").astype(np.float64)


def heard_word(sound: Samples, rate_hz: int, near_ms: float, alone: Samples) -> float:
    """When a word begins to be heard in a sentence, in ms, whatever the engine says of it.

    `alone` is the sound of the same words said from that one on: its first loud sample is plain, and the
    130 ms from there are looked for, by their spectrum, up to 250 ms on either side of `near_ms`.
    """
    loud = np.nonzero(np.abs(alone) > _QUIET * np.abs(alone).max(initial=0.0))[0]
    count, shifts = _LIKENESS_MS // _HOP_MS, 2 * _REACH_MS // _HOP_MS
    pattern = _spectra(alone, rate_hz, float(loud[0]), count)
    around = _spectra(sound, rate_hz, (near_ms - _REACH_MS) * rate_hz / 1000, shifts + count)
    apart = [float(((around[at : at + count] - pattern) ** 2).mean()) for at in range(shifts)]
    return near_ms - _REACH_MS + int(np.argmin(apart)) * _HOP_MS


def find(sound: Samples, piece: Samples, first: int, last: int) -> tuple[int, float]:
    """Where between two frames of a sound this piece of it begins, and how alike it is, 1.0 at most."""
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


def _spectra(sound: Samples, rate_hz: int, first: float, count: int) -> Samples:
    """The loudness in bands of pitch, in one row for each hop from a frame on; silence outside the sound."""
    size = rate_hz * _WINDOW_MS // 1000
    edges = np.unique(np.geomspace(2, size // 2, _BANDS).astype(int))
    shape = np.hanning(size)
    rows = []
    for at in (int(first + row * rate_hz * _HOP_MS / 1000) for row in range(count)):
        window = np.zeros(size)
        piece = sound[max(0, at) : max(0, at + size)]
        window[: len(piece)] = piece
        power = np.abs(np.fft.rfft(window * shape)) ** 2
        rows.append(np.log(1000 + np.add.reduceat(power, edges)))
    return np.array(rows)
