"""What the screen wears: a plain dress, one of high contrast, and a bare one where colour is unwanted."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import LineFilter
from textual.theme import Theme


@dataclass(frozen=True, slots=True)
class Dress:
    """Colours as #rrggbb. Men are ink on paper and slate, as in a printed diagram.

    `paper` and `slate` are the two kinds of square, `ink` draws men and signs, `light` is the letter on a
    solid man. `room` is the ground of the whole screen, `text` what is read on it, `quiet` what matters less,
    `lamp` names and titles, `frame` the rim of the board. `bare` leaves all colours to the terminal and
    hatches the dark squares.
    """

    name: str
    paper: str
    slate: str
    ink: str
    light: str
    room: str
    desk: str
    text: str
    quiet: str
    lamp: str
    frame: str
    bare: bool = False


PLAIN = Dress(
    "plain",
    paper="#ece4d3",
    slate="#9badc4",
    ink="#141a24",
    light="#f7f2e6",
    room="#161b24",
    desk="#1f2631",
    text="#e4ded0",
    quiet="#9aa6b6",
    lamp="#e3b873",
    frame="#566479",
)
HIGH = Dress(
    "high contrast",
    paper="#ffffff",
    slate="#a8c0e0",
    ink="#000000",
    light="#ffffff",
    room="#000000",
    desk="#000000",
    text="#ffffff",
    quiet="#d6dde6",
    lamp="#ffd88a",
    frame="#ffffff",
)
BARE = Dress(
    "bare",
    paper="#000000",
    slate="#000000",
    ink="#ffffff",
    light="#ffffff",
    room="#000000",
    desk="#000000",
    text="#ffffff",
    quiet="#ffffff",
    lamp="#ffffff",
    frame="#ffffff",
    bare=True,
)


def dress_for(name: str, *, colour: bool = True) -> Dress:
    """The dress of this name, the plain one where it is unknown; the bare one where colour is unwanted."""
    if not colour:
        return BARE
    return HIGH if name == HIGH.name else PLAIN


def theme_of(dress: Dress) -> Theme:
    """The dress as the names that `dress.tcss` uses."""
    return Theme(
        name=dress.name.replace(" ", "-"),
        primary=dress.lamp,
        secondary=dress.slate,
        accent=dress.lamp,
        foreground=dress.text,
        background=dress.room,
        surface=dress.desk,
        panel=dress.desk,
        variables={
            "quiet": dress.quiet,
            "lamp": dress.lamp,
            "text": dress.text,
            "room": dress.room,
            "desk": dress.desk,
            "frame": dress.frame,
        },
    )


class Uncoloured(LineFilter):
    """Takes every colour off and keeps weight, slant, underline and reverse, as no-color.org asks."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        return [
            Segment(segment.text, uncoloured(segment.style), segment.control) if segment.style else segment
            for segment in segments
        ]


@lru_cache(maxsize=512)
def uncoloured(style: Style) -> Style:
    """The style without its colours; the links inside it stay."""
    return Style(
        bold=style.bold,
        italic=style.italic,
        underline=style.underline,
        reverse=style.reverse,
        meta=style.meta,
    )
