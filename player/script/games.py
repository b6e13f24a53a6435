"""What `game:` says: who played, where and when, and how it ended."""

from __future__ import annotations

import re
from dataclasses import dataclass

_RESULT = re.compile(r"1-0|0-1|1/2-1/2|\u00bd-\u00bd|\*")
_PLAYERS = re.compile(r"(?P<white>\S.*?)\s+[-\u2013\u2014]\s+(?P<black>[^,]*\S)\s*(?:,(?P<rest>.*))?")
_YEAR = re.compile(r"(?:^|\s|,)(?P<year>\d{4})$")


@dataclass(frozen=True, slots=True)
class GameNames:
    """Empty strings where the line is silent."""

    white: str
    black: str
    site: str = ""
    year: str = ""
    result: str = ""


def game_names(value: str) -> GameNames | None:
    """`White - Black, Place 1998, 1-0` taken apart; None where there are not two players."""
    found = _PLAYERS.fullmatch(value.strip())
    if not found:
        return None
    parts = [part.strip() for part in (found["rest"] or "").split(",") if part.strip()]
    result = year = ""
    if parts and _RESULT.fullmatch(parts[-1]):
        result = parts.pop().replace("\u00bd", "1/2")
    site = ", ".join(parts)
    dated = _YEAR.search(site)
    if dated:
        year, site = dated["year"], site[: dated.start()].rstrip(" ,")
    return GameNames(found["white"], found["black"], site, year, result)
