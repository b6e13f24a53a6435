"""Noise for clips: white, brown (a fan, a street) and a hum, at a given distance below the speech."""

from __future__ import annotations

import array
import math
import random

from player.voice.ears.waves import RATE_HZ


def noisy(pcm: bytes, below_db: float, source: random.Random) -> bytes:
    """The clip with noise whose power lies this many dB below the clip's, and a random loudness."""
    samples = array.array("h", pcm)
    noise = _noise(len(samples), source)
    power = sum(one * one for one in samples) / max(1, len(samples))
    own = sum(one * one for one in noise) / max(1, len(noise)) or 1.0
    gain = math.sqrt(power / own) * 10 ** (-below_db / 20)
    level = 10 ** (source.uniform(-12, 0) / 20)
    return array.array(
        "h",
        [
            max(-32768, min(32767, round(level * (one + gain * more))))
            for one, more in zip(samples, noise, strict=True)
        ],
    ).tobytes()


def _noise(count: int, source: random.Random) -> list[float]:
    kind = source.choice(("white", "white", "brown", "hum"))
    if kind == "hum":
        return [math.sin(at * 2 * math.pi * 100 / RATE_HZ) + source.gauss(0, 0.3) for at in range(count)]
    white = [source.gauss(0, 1) for _ in range(count)]
    if kind == "white":
        return white
    out, last = [], 0.0
    for one in white:
        last = 0.97 * last + one
        out.append(last)
    return out
