"""Which ideas the scripts of a series tell, read from their texts alone."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

from player.world.files import read_text_forgiving
from player.world.trouble import Trouble

_IDEA = re.compile(r"^[ \t]*(?:\[[\d:.]+\][ \t]*)?idea[ \t]+([^:\n]+):", re.MULTILINE)
_SERIES = re.compile(r"^series:[ \t]*(.+?),[ \t]*(\d+)[ \t]+of[ \t]+\d+[ \t]*$", re.MULTILINE)

Reader = Callable[[Path], str]


@lru_cache(maxsize=256)
def ideas_in(source: str) -> tuple[str, ...]:
    """The names of the ideas that a script tells."""
    return tuple(" ".join(found[1].split()) for found in _IDEA.finditer(source))


def ideas_before(path: Path, read: Reader = read_text_forgiving) -> list[str]:
    """The ideas told by earlier scripts of the same series in the script's folder; none without a series."""
    own = _series(path, read)
    if own is None:
        return []
    out: list[str] = []
    for other in sorted(path.parent.glob(f"*{path.suffix}")):
        place = _series(other, read)
        if place is not None and place[0] == own[0] and place[1] < own[1]:
            out += ideas_in(read(other))
    return out


def _series(path: Path, read: Reader) -> tuple[str, int] | None:
    """Name and number in the series; None where there is none or the file cannot be read."""
    try:
        return _series_in(read(path))
    except (OSError, Trouble):
        return None


@lru_cache(maxsize=256)
def _series_in(source: str) -> tuple[str, int] | None:
    found = _SERIES.search(source)
    return None if found is None else (" ".join(found[1].casefold().split()), int(found[2]))
