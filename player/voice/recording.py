"""The coach's own voice: a recording of the whole lesson, or a folder with a file for each beat."""

from __future__ import annotations

import importlib
import re
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from player.voice.output import RATE_HZ
from player.voice.sound import NoSound, Sound
from player.voice.stretch import stretched
from player.voice.take import Line, Stretch, placed
from player.voice.voice import Voice
from player.voice.wav import FRAME_BYTES

ENDINGS = (".wav", ".mp3", ".flac", ".ogg")
_LONGEST_S = 6 * 3600


@dataclass(frozen=True, slots=True)
class _Take:
    """A sentence in a decoded file."""

    pcm: bytes
    stretch: Stretch


class RecordedVoice:
    """Says the sentences of a lesson from a recording, and leaves all others to another voice.

    `path` is a WAV, MP3, FLAC or Ogg Vorbis file, or a folder in which the name of each file begins with the
    number of its beat, from 1. It is read when the first sentence is wanted. A sentence that is not in it is
    NoSound, so that the text goes on; one that the recording has nothing to do with is said by `other`. At
    another speed it keeps its pitch.
    """

    def __init__(self, path: Path, lines: Sequence[Line], other: Voice | None = None) -> None:
        self._path = path
        self._lines = tuple(lines)
        self._texts = {line.spoken for line in lines}
        self._other = other
        self._reading = threading.Lock()
        self._takes: dict[str, _Take] | None = None
        self._why = ""

    @property
    def identity(self) -> str:
        return f"recording {self._path.name}"

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        if spoken not in self._texts:
            if self._other is None:
                raise NoSound("The recording has not this sentence.")
            return self._other.make(spoken, speed, language)
        take = self._read().get(spoken)
        if take is None:
            raise NoSound(self._why or f"The recording {self._path.name} ends before this sentence.")
        first, last = (
            ms * RATE_HZ // 1000 * FRAME_BYTES for ms in (take.stretch.first_ms, take.stretch.last_ms)
        )
        pcm = stretched(take.pcm[first:last], RATE_HZ, speed)
        ms = len(pcm) // FRAME_BYTES * 1000 // RATE_HZ
        words = tuple(min(ms, round(at / speed)) for at in take.stretch.word_ms)
        return Sound(None, ms, words, False, RATE_HZ, pcm)

    def close(self) -> None:
        if self._other is not None:
            self._other.close()

    def _read(self) -> dict[str, _Take]:
        """Every sentence that is in the recording; read once, and again where there was nothing to read."""
        with self._reading:
            if self._takes is None:
                takes: dict[str, _Take] = {}
                self._why = ""
                for path, lines in self._files():
                    try:
                        pcm = decoded(path)
                    except NoSound as fault:
                        self._why = self._why or str(fault)
                        continue
                    for line, stretch in zip(lines, placed(lines, pcm, RATE_HZ), strict=True):
                        if stretch is not None:
                            takes.setdefault(line.spoken, _Take(pcm, stretch))
                if not takes:
                    return {}
                self._takes = takes
            return self._takes

    def _files(self) -> list[tuple[Path, tuple[Line, ...]]]:
        """The files there are, each with its lines."""
        if not self._path.is_dir():
            return [(self._path, self._lines)]
        found = []
        beats = list(dict.fromkeys(line.beat for line in self._lines))
        for path in sorted(self._path.iterdir()):
            number = re.match(r"0*(\d{1,6})(?!\d)", path.name)
            if number and path.suffix.lower() in ENDINGS and 0 < int(number[1]) <= len(beats):
                beat = beats[int(number[1]) - 1]
                found.append((path, tuple(_own(line) for line in self._lines if line.beat == beat)))
        if not found:
            self._why = f"There is no recording of any beat in the folder {self._path.name}."
        return found


def decoded(path: Path) -> bytes:
    """A sound file as 16-bit sound of one channel at `RATE_HZ`; NoSound with a plain sentence."""
    if not path.is_file():
        raise NoSound(f"The recording {path.name} is not there.")
    try:
        library: Any = importlib.import_module("miniaudio")
    except ImportError as fault:
        raise NoSound("The package miniaudio, which reads recordings, is not installed.") from fault
    try:
        length_s = library.get_file_info(str(path)).duration
        if length_s > _LONGEST_S:
            raise NoSound(f"The recording {path.name} is longer than six hours.")
        plain = library.SampleFormat.SIGNED16
        made = library.decode_file(str(path), output_format=plain, nchannels=1, sample_rate=RATE_HZ)
    except (OSError, ValueError, MemoryError, library.MiniaudioError) as fault:
        raise NoSound(
            f"The recording {path.name} cannot be read: it is no WAV, MP3, FLAC or Ogg file."
        ) from fault
    pcm = bytes(made.samples)
    if not pcm:
        raise NoSound(f"The recording {path.name} is empty.")
    return pcm


def _own(line: Line) -> Line:
    """A line of a beat that has a file of its own, in which the stamps of the whole lesson mean nothing."""
    return Line(line.spoken, line.beat)
