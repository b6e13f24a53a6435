"""Two dresses: the plain one and one of high contrast. Colours are our own."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Dress:
    """Rich styles: ink on the light and dark squares, and the letters outside the board."""

    light: str
    dark: str
    outside: str


PLAIN = Dress("#161a24 on #e6e3da", "#161a24 on #a9b4c6", "#c9ced8")
HIGH = Dress("#000000 on #ffffff", "#000000 on #b4bfd4", "#ffffff")
BARE = Dress("black on white", "black on white", "default")


def dress_for(name: str) -> Dress:
    """The dress of this name; the plain one where it is unknown."""
    return HIGH if name == "high contrast" else PLAIN
