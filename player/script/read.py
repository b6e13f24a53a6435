"""Reading a script: from any text at all to a lesson, and what is wrong with it."""

from __future__ import annotations

from player.script.blocks import blocks_of
from player.script.build import build
from player.script.clock import check_clock
from player.script.faults import Fault
from player.script.found import Found
from player.script.model import Lesson, Spot
from player.script.physical import physical_lines
from player.script.slips import Slips


def read(source: str) -> tuple[Lesson, tuple[Fault, ...]]:
    """The lesson that a script says, and its faults and queries in file order. Never raises."""
    found = Found(source)
    lines, controls = physical_lines(source)
    for control in controls:
        found.fault(
            control.spot, "control-character", "There is a control character here; take it out of the script."
        )
    header, body = build(blocks_of(lines, Slips(found)), found)
    check_clock(body, found)
    if not body:
        found.fault(Spot(1), "empty-lesson", "There is nothing to tell in this script.", "Good evening. {e4}")
    if not header.title:
        found.query(Spot(1), "no-title", "The lesson has no title.", "title: One Set-up, Many Doors")
    return Lesson(header, body, source), found.in_order()
