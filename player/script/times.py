"""Lengths of time as a script says them: `20s`, `1.5s`, `2 min`, `a breath`."""

from __future__ import annotations

import re

BREATH_MS = 700
LONGEST_MS = 60 * 60 * 1000
_LENGTH = re.compile(
    r"(?:(?P<minutes>\d{1,3})\s*(?:m|min|minutes?))?\s*"
    r"(?:(?P<seconds>\d{1,5}(?:\.\d{1,3})?)\s*(?:s|sec|seconds?))?",
    re.IGNORECASE,
)


def length_ms(text: str) -> int | None:
    """A length of time in milliseconds, from above nothing to an hour; None where it is no such length."""
    found = _LENGTH.fullmatch(text.strip())
    if not found:
        return None
    ms = int(found["minutes"] or 0) * 60_000 + round(float(found["seconds"] or 0) * 1000)
    return ms if 0 < ms <= LONGEST_MS else None


def pause_ms(text: str) -> int | None:
    """What `pause:` may say: a length of time, or `a breath` (0.7 s)."""
    return BREATH_MS if " ".join(text.lower().split()) in ("a breath", "breath") else length_ms(text)
