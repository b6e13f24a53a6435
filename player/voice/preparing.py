"""Making sounds ahead of the listener, in a thread of its own."""

from __future__ import annotations

import contextlib
import importlib
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from player.voice.sound import NoSound, Sound
from player.voice.voice import Voice

AHEAD = 8
_REMEMBERED = 6
_CLOSING_S = 1.0


@dataclass(frozen=True, slots=True)
class Wanted:
    """A text to be made into sound."""

    spoken: str
    speed: float
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Ready:
    """A sound, and its frames at the rate of the output."""

    sound: Sound
    pcm: bytes


@dataclass(frozen=True, slots=True)
class Failed:
    """There is no sound of it now, and why, in a plain sentence."""

    why: str


class Preparer:
    """Has the sounds made that are wanted now and next; holds fourteen at most, of those and the last few.

    Without `threaded` a sound is made when it is asked for, by whoever asks: for telling on a virtual clock.
    """

    def __init__(self, voice: Voice, rate_hz: int, *, threaded: bool = True) -> None:
        self._voice = voice
        self._rate_hz = rate_hz
        self._change = threading.Condition()
        self._made: dict[Wanted, Ready | Failed] = {}
        self._now: Wanted | None = None
        self._coming: tuple[Wanted, ...] = ()
        self._used: list[Wanted] = []
        self._closed = False
        self._thread: threading.Thread | None = None
        if threaded:
            self._thread = threading.Thread(target=self._work, daemon=True, name="sound ahead")
            self._thread.start()

    def want(self, now: Wanted) -> None:
        """This one first; where it failed before, it is tried again."""
        with self._change:
            self._now = now
            self._used = [*(one for one in self._used if one != now), now][-_REMEMBERED:]
            if isinstance(self._made.get(now), Failed):
                del self._made[now]
            self._forget()
            self._change.notify_all()

    def ahead(self, coming: Sequence[Wanted]) -> None:
        """These next, in order; the latest call replaces the earlier ones, and eight at most are made."""
        with self._change:
            self._coming = tuple(coming[:AHEAD])
            self._forget()
            self._change.notify_all()

    def get(self, wanted: Wanted) -> Ready | Failed | None:
        """What has become of it; None while it is not made yet."""
        with self._change:
            made = self._made.get(wanted)
        if made is None and self._thread is None:
            made = self._made[wanted] = self._make(wanted)
        return made

    def close(self) -> None:
        """Give up what is under way, and the voice."""
        with self._change:
            self._closed = True
            self._change.notify_all()
        self._voice.close()
        if self._thread is not None:
            self._thread.join(_CLOSING_S)

    def _work(self) -> None:
        with contextlib.suppress(Exception):
            _ = self._voice.identity  # starts the engine before it is needed
        while True:
            with self._change:
                while not self._closed and self._next() is None:
                    self._change.wait()
                wanted = self._next()
                if self._closed or wanted is None:
                    return
            made = self._make(wanted)
            with self._change:
                self._made[wanted] = made
                self._forget()

    def _next(self) -> Wanted | None:
        first = (self._now,) if self._now is not None else ()
        return next((one for one in (*first, *self._coming) if one not in self._made), None)

    def _forget(self) -> None:
        kept = {*self._used, *self._coming}
        spare = [one for one in self._made if one not in kept]
        for old in spare[: max(0, len(self._made) - AHEAD - _REMEMBERED)]:
            del self._made[old]

    def _make(self, wanted: Wanted) -> Ready | Failed:
        try:
            sound = self._voice.make(wanted.spoken, wanted.speed, wanted.language)
            return Ready(sound, at_rate(sound.frames(), sound.rate_hz, self._rate_hz))
        except NoSound as fault:
            return Failed(str(fault))
        except Exception as fault:
            return Failed(f"The voice failed in an unforeseen way ({type(fault).__name__}).")


def at_rate(pcm: bytes, from_hz: int, to_hz: int) -> bytes:
    """The same 16-bit, one-channel sound at another rate."""
    if from_hz == to_hz or not pcm:
        return pcm
    try:
        miniaudio: Any = importlib.import_module("miniaudio")
    except ImportError as fault:
        raise NoSound("The sound has a rate that cannot be played here.") from fault
    plain = miniaudio.SampleFormat.SIGNED16
    return bytes(miniaudio.convert_frames(plain, 1, from_hz, pcm, plain, 1, to_hz))
