"""Where in a recording of the coach each sentence of a lesson is said, and each word of it.

Stamps bind: a stamped beat begins at its stamp, and a stamped move at its own. Between two stamps the words
are fitted to the sound by its pauses and by the pace of speech.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from player.cues.sheet import Step
from player.voice.fitting import fit_words, loud_spans
from player.voice.wav import FRAME_BYTES

_LEAD_MS = 40
_TAIL_MS = 120


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence of the lesson that the coach says, with the script's own times for some of its words.

    `stamp_ms` is that of its beginning, and `words_ms` of single words by their number, both by the clock of
    the recording. `beat` is the number of the beat that it belongs to.
    """

    spoken: str
    beat: int
    stamp_ms: int | None = None
    words_ms: Mapping[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Recording:
    """Where the coach's recording of a lesson lies, and what is said in it."""

    path: Path
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Where in a recording a sentence is: from, to, and the beginning of each of its words, in ms of it."""

    first_ms: int
    last_ms: int
    word_ms: tuple[int, ...]


def lines_of(steps: Iterable[Step]) -> tuple[Line, ...]:
    """What a coach says who reads the lesson aloud: everything that is told to all, in order."""
    return tuple(
        Line(
            step.say.spoken,
            step.beat,
            step.stamp_ms,
            {cue.word: cue.stamp_ms for cue in step.cues if cue.stamp_ms is not None},
        )
        for step in steps
        if step.say is not None and step.say.spoken and not (step.ear_only or step.extra)
    )


def placed(lines: Sequence[Line], pcm: bytes, rate_hz: int) -> list[Stretch | None]:
    """Each line in this recording, 16-bit sound of one channel; None for one that lies past its end."""
    total = len(pcm) // FRAME_BYTES * 1000 // rate_hz
    words = [word for line in lines for word in line.spoken.split()]
    onsets = [0] * len(words)
    for (first, begin), (after, end) in pairwise(_anchors(lines, len(words), total)):
        piece = _cut(pcm, rate_hz, begin, end)
        fitted = fit_words(" ".join(words[first:after]), piece, rate_hz)
        onsets[first:after] = [min(begin + at, max(begin, end)) for at in fitted]
        if first < after and first in _bound(lines):
            onsets[first] = begin
    return _stretches(lines, onsets, pcm, rate_hz, total)


def _anchors(lines: Sequence[Line], count: int, total: int) -> list[tuple[int, int]]:
    """The words whose moment is known, in order of words and of time, with both ends of the recording."""
    anchors = [(0, 0)]
    for word, ms in sorted(_bound(lines).items()):
        if word == anchors[-1][0]:
            anchors[-1] = (word, max(ms, anchors[-1][1]))
        elif ms >= anchors[-1][1]:
            anchors.append((word, ms))
    return [*anchors, (count, max(total, anchors[-1][1]))]


def _bound(lines: Sequence[Line]) -> dict[int, int]:
    """The moments that the script gives, by the number of the word in the whole text."""
    bound: dict[int, int] = {}
    first = 0
    for line in lines:
        size = len(line.spoken.split())
        for word, ms in (line.words_ms or {}).items():
            if word < size:
                bound[first + word] = ms
        if line.stamp_ms is not None:
            bound[first] = line.stamp_ms
        first += size
    return bound


def _stretches(
    lines: Sequence[Line], onsets: Sequence[int], pcm: bytes, rate_hz: int, total: int
) -> list[Stretch | None]:
    found: list[Stretch | None] = []
    first, free = 0, 0
    for line in lines:
        after = first + len(line.spoken.split())
        begin = max(free, onsets[first] - _LEAD_MS)
        limit = max(begin, (onsets[after] - _LEAD_MS) if after < len(onsets) else total)
        spans = loud_spans(_cut(pcm, rate_hz, onsets[first], limit), rate_hz)
        free = limit
        if onsets[first] < total and spans:
            end = min(limit, onsets[first] + round(spans[-1][1]) + _TAIL_MS)
            words = tuple(min(max(0, at - begin), end - begin) for at in onsets[first:after])
            found.append(Stretch(begin, end, words))
        else:
            found.append(None)
        first = after
    return found


def _cut(pcm: bytes, rate_hz: int, begin_ms: int, end_ms: int) -> bytes:
    first, last = (max(0, ms) * rate_hz // 1000 * FRAME_BYTES for ms in (begin_ms, end_ms))
    return pcm[first:last]
