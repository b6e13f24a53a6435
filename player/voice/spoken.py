"""A voice whose engine lives in a worker: texts made fit, answers distrusted, the worker restarted with
patience.
"""

from __future__ import annotations

import array
import sys
from typing import Any

from player.voice.engine import VoiceName
from player.voice.fitting import fit_words
from player.voice.pieces import pieces
from player.voice.process import WorkerGone, WorkerProcess
from player.voice.sound import NoSound, Sound
from player.voice.wav import FRAME_BYTES
from player.world.clock import Clock

SILENCE = 64
"""The largest sample, of 32767, that still counts as silence: -54 dB below full scale."""

ANSWER_S = 4.0
CHAR_S = 0.005
LONGEST_REST_MS = 30_000
GRUDGE_MS = 60_000
_GRUDGES = 256
_SHORTEST_MS = 10
"""What a letter takes at the least, at speed 1: about a seventh of what it takes on average."""

_LOOK_BYTES = 4096


class SpokenVoice:
    """Any engine behind `WorkerProcess`. An empty `name` is the engine's usual voice for each language.

    A text is tried twice. After a worker has been lost twice in a row the voice rests, for longer each time
    up to half a minute, and says NoSound at once meanwhile; a text that ended two workers is not tried
    again for a minute.
    """

    def __init__(
        self, process: WorkerProcess, clock: Clock, *, name: str = "", answer_s: float = ANSWER_S
    ) -> None:
        self._process = process
        self._clock = clock
        self._name = name
        self._answer_s = answer_s
        self._version = ""
        self._voices: tuple[VoiceName, ...] = ()
        self._losses = 0
        self._rest_until_ms = 0
        self._grudges: dict[str, int] = {}

    @property
    def identity(self) -> str:
        self._greet()
        return f"{self._version} {self._name}".strip()

    def voices(self) -> tuple[VoiceName, ...]:
        """Every voice of the engine; NoSound where it cannot be started."""
        self._greet()
        return self._voices

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        words = spoken.split()
        texts = pieces(spoken)
        if self._clock.now_ms() < self._grudges.get(spoken, 0):
            raise NoSound("The voice could not say this sentence.")
        parts, rate, onsets, measured = list[bytes](), 0, list[int](), True
        for text in texts:
            request = {"do": "make", "text": text, "speed": speed, "voice": self._name, "language": language}
            head, body = self._twice(request, spoken, self._answer_s + CHAR_S * len(text))
            frames, told = _checked(text, speed, head, body)
            rate = rate or head["rate_hz"]
            if head["rate_hz"] != rate:
                raise NoSound("The voice changed its sampling rate in the middle of a text.")
            start = sum(map(len, parts)) // FRAME_BYTES
            onsets += [round((start + frame) * 1000 / rate) for frame in frames]
            measured = measured and told
            parts.append(body)
        assert len(onsets) == len(words)
        pcm = b"".join(parts)
        ms = round(len(pcm) // FRAME_BYTES * 1000 / rate)
        return Sound(None, ms, tuple(onsets), measured, rate, pcm)

    def close(self) -> None:
        self._process.close()

    def _greet(self) -> None:
        if not self._version:
            head, _ = self._once({"do": "voices"}, self._answer_s)
            self._voices = tuple(VoiceName(str(name), str(code)) for name, code in head["voices"])
            self._version = str(head["version"])

    def _twice(self, request: dict[str, Any], spoken: str, timeout_s: float) -> tuple[dict[str, Any], bytes]:
        try:
            return self._once(request, timeout_s)
        except WorkerGone:
            try:
                return self._once(request, timeout_s)
            except WorkerGone:
                while len(self._grudges) >= _GRUDGES:
                    del self._grudges[next(iter(self._grudges))]
                self._grudges[spoken] = self._clock.now_ms() + GRUDGE_MS
                raise

    def _once(self, request: dict[str, Any], timeout_s: float) -> tuple[dict[str, Any], bytes]:
        if self._clock.now_ms() < self._rest_until_ms:
            raise NoSound("The voice has stopped working and is being given a rest.")
        try:
            answer = self._process.ask(request, timeout_s)
        except WorkerGone:
            self._losses += 1
            if self._losses > 1:
                rest = min(LONGEST_REST_MS, 500 * 2 ** min(self._losses - 1, 10))
                self._rest_until_ms = self._clock.now_ms() + rest
            raise
        except NoSound:
            self._losses = 0
            raise
        self._losses = 0
        return answer


def _checked(text: str, speed: float, head: dict[str, Any], body: bytes) -> tuple[tuple[int, ...], bool]:
    """The frame at which each word begins, and whether the engine said so; NoSound where that cannot be."""
    rate, frames = head.get("rate_hz"), len(body) // FRAME_BYTES
    if not isinstance(rate, int) or not 4_000 <= rate <= 192_000 or len(body) % FRAME_BYTES:
        raise NoSound("The voice gave something that is no sound.")
    if is_silent(body):
        if any(c.isalnum() for c in text):
            raise NoSound("The voice gave an empty sound.")
    elif frames * 1000 / rate < sum(map(str.isalnum, text)) * _SHORTEST_MS / speed:
        raise NoSound("The voice gave only the beginning of the sound.")
    told = head.get("word_frames")
    if told is None:
        onsets = fit_words(text, body, rate)
        return tuple(min(frames, round(ms * rate / 1000)) for ms in onsets), False
    if not _are_onsets(told, len(text.split()), frames):
        raise NoSound("The voice gave times for the words that cannot be true.")
    return tuple(told), True


def is_silent(pcm: bytes) -> bool:
    """Whether nothing would be heard of this 16-bit sound."""
    for at in range(0, len(pcm) // FRAME_BYTES * FRAME_BYTES, _LOOK_BYTES):
        samples = array.array("h")
        samples.frombytes(pcm[at : at + _LOOK_BYTES])
        if sys.byteorder == "big":
            samples.byteswap()
        if max(samples) > SILENCE or min(samples) < -SILENCE:
            return False
    return True


def _are_onsets(told: Any, words: int, frames: int) -> bool:
    if not isinstance(told, list) or len(told) != words or not all(isinstance(at, int) for at in told):
        return False
    return told == sorted(told) and (not told or (told[0] >= 0 and told[-1] <= frames))
