"""The header of a script: its keys, each at most once, and what they may say."""

from __future__ import annotations

import re
from collections.abc import Callable

from player.script.blocks import Item
from player.script.found import Found, short
from player.script.model import Header, Spot
from player.script.stretch import Stretch
from player.wording.languages import codes

VERSION = 1
_SERIES = re.compile(r"(?P<name>.*\S)\s*,\s*(?P<number>\d{1,4})\s+of\s+(?P<all>\d{1,4})")
_OUTSIDE = re.compile(r"^(?:[/\\~]|[A-Za-z]:)|(?:^|[/\\])\.\.(?:[/\\]|$)|^[a-z]+://")
SIDES = ("white", "black", "both")


class HeaderReader:
    """Gathers the header keys of a script; keys that come too late are told once, and taken all the same."""

    def __init__(self, found: Found) -> None:
        self._found = found
        self._given: dict[str, object] = {}
        self._late_told = False
        self._pronounce: dict[str, str] = {}
        self._spots: dict[str, Spot] = {}
        self._readers: dict[str, Callable[[Stretch], object]] = {
            "script": self._version,
            "series": self._series,
            "side": self._side,
            "language": self._language,
            "recording": self._recording,
        }

    def take(self, item: Item, late: bool) -> None:
        """One header line. A `late` one stands after the lesson has begun."""
        key = item.key
        value = item.value()
        spot = value.spot(0, len(value.text)) if value.text else key_spot(item)
        if late and not self._late_told:
            self._late_told = True
            self._found.fault(
                key_spot(item),
                "header-late",
                f"{key}: belongs at the top of the script, before the first line that is told.",
                short(item.first.text[item.head.stamp_end :]),
            )
        if item.head.stamp_ms is not None:
            self._found.fault(
                stamp_spot(item),
                "stamp-misplaced",
                f"{key}: takes no stamp, for it is not told.",
                f"{key}: {value.text}",
            )
        if not value.text:
            self._found.fault(spot, "empty-key", f"{key}: says nothing.", EXAMPLES[key])
            return
        name = f"pronounce {item.head.name}" if key == "pronounce" else key
        if name in self._spots:
            self._found.fault(
                key_spot(item), "key-twice", f"{name}: is already given in line {self._spots[name].line}."
            )
            return
        if key == "pronounce":
            if item.head.name:
                self._pronounce[item.head.name] = value.text
                self._spots[name] = spot
            return
        read = self._readers.get(key)
        made = read(value) if read is not None else value.text
        self._spots[name] = spot
        if made is not None:
            self._given[key] = made

    def header(self) -> Header:
        """The header as far as it was given."""
        return Header(**self._given, pronounce=self._pronounce, spots=self._spots)  # type: ignore[arg-type]

    def _version(self, value: Stretch) -> int | None:
        if value.text == str(VERSION):
            return VERSION
        self._found.fault(
            _all(value),
            "unknown-version",
            f"This program reads scripts of version {VERSION}.",
            f"script: {VERSION}",
        )
        return None

    def _series(self, value: Stretch) -> tuple[str, int, int] | None:
        found = _SERIES.fullmatch(value.text)
        if found and 1 <= int(found["number"]) <= int(found["all"]):
            return found["name"], int(found["number"]), int(found["all"])
        self._found.fault(
            _all(value),
            "bad-series",
            "A series is named with the number of this lesson and of how many.",
            EXAMPLES["series"],
        )
        return None

    def _side(self, value: Stretch) -> str | None:
        side = value.text.lower()
        if side in SIDES:
            return side
        self._found.fault(_all(value), "bad-side", "The side is white, black or both.", EXAMPLES["side"])
        return None

    def _language(self, value: Stretch) -> str | None:
        code = value.text.lower()
        if code in codes():
            return code
        self._found.fault(
            _all(value),
            "unknown-language",
            f"Languages are given by their code: {', '.join(codes())}.",
            "language: en",
        )
        return None

    def _recording(self, value: Stretch) -> str | None:
        if not _OUTSIDE.search(value.text):
            return value.text
        self._found.fault(
            _all(value),
            "recording-outside",
            "The recording must lie in the folder of the script or in a folder under it.",
            EXAMPLES["recording"],
        )
        return None


EXAMPLES = {
    "script": "script: 1",
    "title": "title: One Set-up, Many Doors",
    "series": "series: The Reading Room, 2 of 5",
    "coach": "coach: Ines Calder",
    "side": "side: white",
    "level": "level: club",
    "language": "language: en",
    "recording": "recording: evening.wav",
    "voice": "voice: en-gb",
    "pronounce": "pronounce Calder: KAWL-der",
}
"""A right line for each header key."""


def key_spot(item: Item) -> Spot:
    """Where the key of this item stands; the beginning of its text where it has none."""
    start = item.head.stamp_end
    first = item.first.column(start)
    return Spot(item.first.number, first, max(1, item.first.column(start + len(item.key)) - first))


def stamp_spot(item: Item) -> Spot:
    """Where the stamp of this item stands."""
    first = item.first.column(0)
    width = item.first.column(len(item.first.text[: item.head.stamp_end].rstrip())) - first
    return Spot(item.first.number, first, max(1, width))


def _all(value: Stretch) -> Spot:
    return value.spot(0, len(value.text))
