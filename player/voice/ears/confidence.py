"""How sure an answer is: a logistic model on what the recogniser says of a clip.

Its parameters stand in `confidence.toml`, written by scripts/ears.py from clips of synthetic speech, as do
the thresholds, chosen on other clips.
"""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from player.voice.ears.recogniser import Decoded

_SCALE = 1e4
_FARTHEST = 15.0


@dataclass(frozen=True, slots=True)
class Confidence:
    """Weights of `features`, the first a constant; below `ask` speech is not for us, from `act` on it is."""

    weights: tuple[float, ...]
    means: tuple[float, ...]
    spreads: tuple[float, ...]
    ask: float
    act: float

    def sure(self, features: tuple[float, ...]) -> float:
        """How likely the phrase was said, 0 to 1."""
        total = self.weights[0]
        rows = zip(features, self.means, self.spreads, self.weights[1:], strict=True)
        for value, mean, spread, weight in rows:
            total += weight * max(-4.0, min(4.0, (value - mean) / spread))
        return 1 / (1 + math.exp(-max(-50.0, min(50.0, total))))


def features(best: Decoded, second: Decoded | None, free: float, clip_frames: int) -> tuple[float, ...]:
    """What confidence is made of.

    The margin to the second meaning; how much worse our phrase fits than any row of English sounds does, and
    how well that fits, each for a frame of 10 ms of the clip; frames a word; words; the fit of the
    words alone; the share of speech.
    """
    frames = max(1, clip_frames)
    margin = _FARTHEST
    if second is not None and second.meanings:
        margin = min(_FARTHEST, (best.score - second.score) * 100)
    return (
        margin,
        (best.score - free) * _SCALE / frames,
        free * _SCALE / frames,
        min(80.0, best.frames / max(1, best.words)) / 10,
        float(min(8, best.words)),
        best.acoustic / max(1, best.frames),
        best.frames / frames,
    )


@lru_cache(maxsize=1)
def learnt() -> Confidence:
    """The model that came with the program."""
    text = (resources.files("player.voice.ears") / "confidence.toml").read_text(encoding="utf-8")
    data = tomllib.loads(text)
    return Confidence(
        tuple(data["weights"]), tuple(data["means"]), tuple(data["spreads"]), data["ask"], data["act"]
    )
