"""Where reading and following put what they find wrong."""

from __future__ import annotations

import re

from player.script.faults import Fault, lines_of
from player.script.model import Spot


class Found:
    """Collects faults and queries; it never raises."""

    def __init__(self, source: str = "") -> None:
        self.faults: list[Fault] = []
        self._source = source
        self._lines: list[str] | None = None

    def fault(self, spot: Spot, code: str, message: str, fix: str = "") -> None:
        self.faults.append(Fault(spot.line, spot.column, spot.width, "fault", code, message, fix))

    def query(self, spot: Spot, code: str, message: str, fix: str = "") -> None:
        self.faults.append(Fault(spot.line, spot.column, spot.width, "query", code, message, fix))

    def where(self, text: str, near: Spot) -> Spot:
        """Where this text stands in the script, from `near` on; `near` where it is not found so."""
        if self._lines is None:
            self._lines = lines_of(self._source)
        for number in range(near.line, min(near.line + 30, len(self._lines) + 1)):
            start = near.column - 1 if number == near.line else 0
            at = self._lines[number - 1].find(text, start)
            if at >= 0:
                return Spot(number, at + 1, max(1, len(text)))
        return near

    def told_after(self, spot: Spot) -> str:
        """The line right under this one if it is told; "" where it is a key's or stamped, or none."""
        below = lines_of(self._source)[spot.line : spot.line + 1]
        text = below[0].strip() if below else ""
        return "" if re.match(r"#|\[|[\w ]+:(?:\s|$)", text) else short(text)

    def in_order(self) -> tuple[Fault, ...]:
        """All of them by line and column, each once."""
        return tuple(sorted(dict.fromkeys(self.faults), key=lambda fault: (fault.line, fault.column)))


def short(text: str, limit: int = 60) -> str:
    """A text as a message quotes it: one line, and not too long of it."""
    plain = " ".join(text.split())
    return plain if len(plain) <= limit else plain[: limit - 3].rstrip() + "..."
