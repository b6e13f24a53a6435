"""Series of ten lessons for tests: short ones written here, and copies of the demo lessons."""

from __future__ import annotations

import re
from pathlib import Path

from player.cli.lessons import demo_scripts

ROADS = (
    "{Nf3} {d5} {g3} {Nf6} {Bg2} {e6} {castles} {Be7} {d3} {castles}.",
    "{Nf3} {Nf6} {g3} {d5} {Bg2} {e6} {castles} {Be7} {d3} {castles}.",
    "{g3} {d5} {Nf3} {Nf6} {Bg2} {e6} {castles} {Be7} {d3} {castles}.",
    "{Nf3} {d5} {g3} {e6} {Bg2} {Nf6} {castles} {Be7} {d3} {castles}.",
    "{Nf3} {e6} {g3} {d5} {Bg2} {Nf6} {castles} {Be7} {d3} {castles}.",
)
LESSON = """\
title: Evening {number}
series: Ten Evenings, {number} of 10
coach: Ines Calder
side: white

{road}
claim: g2-d5 is closed
claim: White attacks e4 1 time

idea the long road: It leads from g2 to b7.

question: Where does the knight from b1 belong?
  also c4: Sound too.
  reply Nc3: There it stands in front of the pawn.
  about: the long road

{{Nbd2}}. It backs e4.
claim: White attacks e4 2 times
claim: the knight on d2 is guarded 3 times

aside: If Black hurries
  {{d4}} {{c3}} {{dxc3}} {{bxc3}}.
  claim: the pawn on a2 is isolated

{{c5}} {{e4}} {{Nc6}} {{Re1}}.
claim: the pawn on e4 is guarded 3 times
claim: {extra}
"""
EXTRA = ("material is equal", "White has lost the right to castle", "Black has the move", "e1-e4 is open")


def ten_short(folder: Path) -> list[Path]:
    """Ten short lessons over the same positions, by several orders of moves."""
    paths = []
    for number in range(1, 11):
        path = folder / f"{number:02d}.lesson"
        road, extra = ROADS[number % len(ROADS)], EXTRA[number % len(EXTRA)]
        path.write_text(LESSON.format(number=number, road=road, extra=extra), encoding="utf-8")
        paths.append(path)
    return paths


def ten_demos(folder: Path) -> list[Path]:
    """Ten lessons of the demo lessons' length: copies of them, in one series."""
    demos = demo_scripts()
    paths = []
    for number in range(1, 11):
        text = demos[(number - 1) % len(demos)].read_text(encoding="utf-8")
        text = re.sub(r"^series:.*$", f"series: Ten Evenings, {number} of 10", text, flags=re.M)
        path = folder / f"{number:02d}.lesson"
        path.write_text(text, encoding="utf-8")
        paths.append(path)
    return paths
