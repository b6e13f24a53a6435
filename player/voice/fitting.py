"""Where the words of a sound probably begin, when the voice that made it does not say.

The estimate of `player.wording.pace` is stretched over the sound. Where the sound has as many clear pauses
as the text has stops and commas, each stretch between two of them is fitted by itself, which keeps the
error from adding up.
"""

from __future__ import annotations

import array
import sys
from itertools import pairwise

from player.wording.pace import pause_ms, word_times

_WINDOW_MS = 10
_PAUSE_MS = 100
_QUIET = 0.03
_LOPSIDED = 1.9
_SILENT_SHARE = 0.75
"""How much of an estimated pause is silence; the rest is the drawing out of the word before it (measured)."""

Span = tuple[float, float]


def fit_words(spoken: str, pcm: bytes, rate_hz: int) -> tuple[int, ...]:
    """The beginning of each word of `spoken.split()` in ms; `pcm` is 16-bit, one channel."""
    words = spoken.split()
    if not words:
        return ()
    total = len(pcm) * 500 / rate_hz
    guess, end = word_times(spoken)
    spans = loud_spans(pcm, rate_hz) or [(0.0, total)]
    cuts = [index for index, word in enumerate(words[:-1], start=1) if pause_ms(word)]
    stretches = _stretches(words, guess, end, cuts)
    fitted = _by_pauses(stretches, spans) or [
        ((stretches[0][0], stretches[-1][1]), (spans[0][0], spans[-1][1]))
    ]
    return tuple(round(min(_moved(at, fitted), total)) for at in guess)


def loud_spans(pcm: bytes, rate_hz: int) -> list[Span]:
    """The stretches with a voice in them, in ms, parted by silences of a tenth of a second or more."""
    samples = array.array("h")
    samples.frombytes(pcm)
    if sys.byteorder == "big":
        samples.byteswap()
    size = max(1, rate_hz * _WINDOW_MS // 1000)
    peaks = [_peak(samples[at : at + size]) for at in range(0, len(samples), size)]
    floor = max(peaks, default=0) * _QUIET
    spans: list[Span] = []
    for index, peak in enumerate(peaks):
        if peak > floor:
            start, stop = index * size * 1000 / rate_hz, (index + 1) * size * 1000 / rate_hz
            if spans and start - spans[-1][1] < _PAUSE_MS:
                spans[-1] = (spans[-1][0], stop)
            else:
                spans.append((start, stop))
    return spans


def _peak(samples: array.array[int]) -> int:
    return max(max(samples), -min(samples))


def _stretches(words: list[str], guess: tuple[int, ...], end: int, cuts: list[int]) -> list[Span]:
    """The stretches between pauses on the estimated line, each from its first word to the end of its last."""
    bounds = [0, *cuts, len(words)]
    return [
        (
            guess[first],
            (guess[after] if after < len(words) else end) - pause_ms(words[after - 1]) * _SILENT_SHARE,
        )
        for first, after in pairwise(bounds)
    ]


def _by_pauses(stretches: list[Span], spans: list[Span]) -> list[tuple[Span, Span]] | None:
    """Each estimated stretch with the stretch of sound it must be; None where the two do not agree."""
    if len(spans) < len(stretches):
        return None
    gaps = sorted(range(1, len(spans)), key=lambda index: spans[index - 1][1] - spans[index][0])
    breaks = [0, *sorted(gaps[: len(stretches) - 1]), len(spans)]
    heard = [(spans[first][0], spans[after - 1][1]) for first, after in pairwise(breaks)]
    ratios = [(b - a) / max(1.0, end - begin) for (begin, end), (a, b) in zip(stretches, heard, strict=True)]
    whole = sum(b - a for a, b in heard) / max(1.0, sum(end - begin for begin, end in stretches))
    if any(not whole / _LOPSIDED <= ratio <= whole * _LOPSIDED for ratio in ratios):
        return None
    return list(zip(stretches, heard, strict=True))


def _moved(at: float, fitted: list[tuple[Span, Span]]) -> float:
    """A moment on the estimated line, in the sound."""
    (begin, end), (left, right) = next(pair for pair in reversed(fitted) if at >= pair[0][0])
    return left + (right - left) * min(1.0, (at - begin) / max(1.0, end - begin))
