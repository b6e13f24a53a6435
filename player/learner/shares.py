"""Shares with their uncertainty."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist


@dataclass(frozen=True, slots=True)
class Share:
    """`hits` of `whole`; `low` and `high` (0 to 1) bound it with 95 % confidence."""

    hits: int
    whole: int
    low: float
    high: float


def share(hits: int, whole: int, confidence: float = 0.95) -> Share:
    """Wilson's score interval (E. B. Wilson, 1927). Of nothing, anything from 0 to 1 is possible.

    ValueError where `hits` is not from 0 to `whole`.
    """
    if not 0 <= hits <= whole:
        raise ValueError(f"{hits} of {whole} is no share")
    if whole == 0:
        return Share(0, 0, 0.0, 1.0)
    z = NormalDist().inv_cdf((1 + confidence) / 2)
    part = hits / whole
    middle = (part + z * z / (2 * whole)) / (1 + z * z / whole)
    reach = z / (1 + z * z / whole) * math.sqrt(part * (1 - part) / whole + z * z / (4 * whole * whole))
    low = 0.0 if hits == 0 else max(0.0, middle - reach)
    high = 1.0 if hits == whole else min(1.0, middle + reach)
    return Share(hits, whole, low, high)


def in_words(one: Share) -> str:
    """The share with its bounds: "7 of 9 (in the long run 45 to 94 of 100)"."""
    if one.whole == 0:
        return "none yet"
    low, high = round(one.low * 100), round(one.high * 100)
    return f"{one.hits} of {one.whole} (in the long run {low} to {high} of 100)"
