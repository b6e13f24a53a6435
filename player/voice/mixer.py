"""The sound that a device asks for, frame by frame, and how much of it has been heard.

Everything here is called from two threads: the device's, which asks for frames, and the program's.
"""

from __future__ import annotations

import array
import math
import sys
import threading
from collections.abc import Callable
from functools import cache

from player.voice.wav import FRAME_BYTES

FADE_MS = 5
"""Sound begun or ended in the middle of a word is faded over this long, so that it does not click."""

TONE_HZ = 392
TONE_MS = 450
TONE_LEVEL = 0.16


class Mixer:
    """One sound at a time, a soft tone over it, and silence otherwise; 16-bit, one channel.

    `now_s` is a steady clock in seconds. `delay_s` is the part of the device's buffer that lies, on average,
    between asking for a frame and hearing it. A device just begun may ask once long before it can be heard,
    or lose what it asked for first, so it is given silence `settling` times.
    """

    def __init__(
        self, rate_hz: int, now_s: Callable[[], float], *, delay_s: float = 0.0, settling: int = 0
    ) -> None:
        self.rate_hz = rate_hz
        self.volume = 1.0
        self._now_s = now_s
        self._delay_s = delay_s
        self._settling = settling
        self._asks = 0
        self._lock = threading.Lock()
        self._pcm: bytes | None = None
        self._at = 0
        self._from = 0
        self._fade_in = 0
        self._overlays: list[array.array[int]] = []
        self._asked_s: float | None = None
        self._asked_at: int | None = None
        self._asked_frames = 0
        self._idle_since_s = now_s()

    def play(self, pcm: bytes, from_frame: int = 0) -> None:
        """Begin this sound with the next frame asked for, in place of any other."""
        with self._lock:
            self._cut()
            self._pcm = pcm
            self._at = self._from = max(0, min(from_frame, len(pcm) // FRAME_BYTES))
            self._fade_in = self._fade_frames() if self._from else 0
            self._asked_at = None

    def stop(self) -> int | None:
        """Silence from the next frame asked for; the frame to go on from later, or None where nothing played.

        What has been given to the device before is still heard, so nothing between is lost or said twice.
        """
        with self._lock:
            if self._pcm is None:
                return None
            stopped = min(self._at, len(self._pcm) // FRAME_BYTES)
            self._cut()
            return stopped

    def tone(self) -> None:
        """A soft tone over whatever is heard."""
        with self._lock:
            self._overlays.append(array.array("h", _tone(self.rate_hz)))

    def heard(self) -> float | None:
        """How many frames of the sound have been heard, going on past its end; None before the first of
        them.
        """
        with self._lock:
            if self._asked_at is None or self._asked_s is None:
                return None
            since = min(self._now_s() - self._asked_s, self._asked_frames / self.rate_hz)
            heard = self._asked_at + (since - self._delay_s) * self.rate_hz
            return heard if heard >= self._from else None

    def silent_s(self) -> float:
        """How long there has been nothing to hear; 0 while there is something."""
        with self._lock:
            if self._pcm is not None or self._overlays:
                return 0.0
            return self._now_s() - self._idle_since_s

    def unasked_s(self) -> float | None:
        """How long the device has asked for nothing; None where it never has."""
        with self._lock:
            return None if self._asked_s is None else self._now_s() - self._asked_s

    def forget_device(self, *, lost: bool = False) -> None:
        """A device begins or is lost: what was asked for before says nothing about what is heard from now
        on.
        """
        with self._lock:
            self._asked_s = self._asked_at = None
            self._asks = 0
            if lost:
                self._overlays.clear()

    def render(self, frames: int) -> bytes:
        """The next frames, for the device."""
        with self._lock:
            self._asked_s, self._asked_frames = self._now_s(), frames
            self._asks += 1
            if self._asks <= self._settling:
                return bytes(frames * FRAME_BYTES)
            spoken = b""
            if self._pcm is not None:
                self._asked_at = self._at
                spoken = self._pcm[self._at * FRAME_BYTES : (self._at + frames) * FRAME_BYTES]
                self._at += frames
            if not (self._overlays or self._fade_in or (spoken and self.volume != 1.0)):
                return spoken.ljust(frames * FRAME_BYTES, b"\0")
            return self._mixed(spoken, frames)

    def _mixed(self, spoken: bytes, frames: int) -> bytes:
        mixed = _samples(spoken.ljust(frames * FRAME_BYTES, b"\0"))
        if self._fade_in:
            length = self._fade_frames()
            for index in range(min(frames, self._fade_in)):
                mixed[index] = mixed[index] * (length - self._fade_in + index) // length
            self._fade_in = max(0, self._fade_in - frames)
        for overlay in self._overlays:
            for index, sample in enumerate(overlay[:frames]):
                mixed[index] = max(-32768, min(32767, mixed[index] + sample))
        self._overlays = [overlay[frames:] for overlay in self._overlays if len(overlay) > frames]
        if not self._overlays and self._pcm is None:
            self._idle_since_s = self._now_s()
        level = round(max(0.0, min(1.0, self.volume)) * 1024)
        if level != 1024:
            mixed = array.array("h", [sample * level >> 10 for sample in mixed])
        return _bytes(mixed)

    def _cut(self) -> None:
        """End the sound that plays; a few milliseconds of it fade away over what comes."""
        if self._pcm is None:
            return
        length = self._fade_frames()
        rest = _samples(self._pcm[self._at * FRAME_BYTES : (self._at + length) * FRAME_BYTES])
        if rest and self._asked_at is not None:
            self._overlays.append(
                array.array("h", [sample * (length - index) // length for index, sample in enumerate(rest)])
            )
        self._pcm = self._asked_at = None
        self._fade_in = 0
        self._idle_since_s = self._now_s()

    def _fade_frames(self) -> int:
        return self.rate_hz * FADE_MS // 1000


@cache
def _tone(rate_hz: int) -> bytes:
    """A soft tone of 392 Hz with its octave, swelling and dying away."""
    count = rate_hz * TONE_MS // 1000
    samples = array.array("h")
    for index in range(count):
        swell = math.sin(math.pi * index / count) ** 2
        turn = 2 * math.pi * TONE_HZ * index / rate_hz
        samples.append(round(32767 * TONE_LEVEL * swell * (0.8 * math.sin(turn) + 0.2 * math.sin(2 * turn))))
    return samples.tobytes()


def _samples(pcm: bytes) -> array.array[int]:
    samples = array.array("h")
    samples.frombytes(pcm)
    if sys.byteorder == "big":
        samples.byteswap()
    return samples


def _bytes(samples: array.array[int]) -> bytes:
    if sys.byteorder == "big":
        samples = array.array("h", samples)
        samples.byteswap()
    return samples.tobytes()
