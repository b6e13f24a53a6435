"""Speech engines for a real worker, each misbehaving in its own way when a text tells it to."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Sequence

from player.voice.engine import EngineFault, Made, VoiceName
from player.wording.pace import word_times
from tests.voice.standins import noise

RATE_HZ = 8_000


class RudeEngine:
    """Says noise. The words "crash", "hang", "empty", "short", "refuse", "mad", "print" and "die" do what
    they say.
    """

    version = "rude 1"

    def voices(self) -> Sequence[VoiceName]:
        return [VoiceName("Rude", "en")]

    def make(self, text: str, *, speed: float, voice: str, language: str) -> Made:
        onsets, ms = word_times(text, speed)
        frames = tuple(onset * RATE_HZ // 1000 for onset in onsets)
        if "crash" in text:
            os.abort()
        if "die" in text:
            os._exit(3)
        if "hang" in text:
            time.sleep(600)
        if "slow" in text:
            time.sleep(0.4)
        if "print" in text:
            print("noise on the standard output", flush=True)
            os.write(1, b"more of it")
            sys.stderr.write("and on the other\n")
        if "refuse" in text:
            raise EngineFault("This engine will not say that.")
        if "unforeseen" in text:
            raise ZeroDivisionError
        if "empty" in text:
            return Made(b"", RATE_HZ, frames)
        if "silent" in text:
            return Made(bytes(ms * RATE_HZ // 1000 * 2), RATE_HZ, frames)
        if "short" in text:
            return Made(noise(20, rate_hz=RATE_HZ), RATE_HZ, None)
        if "mad" in text:
            return Made(noise(ms, rate_hz=RATE_HZ), RATE_HZ, frames[::-1] if len(frames) > 1 else (-1,))
        if "untimed" in text:
            return Made(noise(ms, rate_hz=RATE_HZ), RATE_HZ, None)
        return Made(noise(ms, rate_hz=RATE_HZ), RATE_HZ, frames)


class MissingEngine(RudeEngine):
    """An engine whose library is not there."""

    def __init__(self) -> None:
        raise EngineFault("The library of this engine is not installed.")


class BrokenEngine(RudeEngine):
    """An engine that falls over as it starts."""

    def __init__(self) -> None:
        raise MemoryError
