"""Sheets for the stage's tests."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet
from player.script.follow import follow
from player.script.read import read

LESSON = """\
script: 1
title: A Short Walk
coach: Ines Calder
side: white

part: Opening remarks

Good evening. White begins {Nf3}, Black takes {d5}, and now {g3}.

idea the long diagonal: A bishop on g2 looks along the long diagonal.

{Nf6} comes next.

question: White to move. Where does the bishop live?
  also Bh3: Sound too.
  reply Nc3: That hides the knight behind a pawn.
  nudge: Think of the long diagonal.
  because: The diagonal is open.

{Bg2}. Home at last.

part: The middle

aside: If Black hurries
  {c5} {O-O} and all is well.
  instead: And if White waits
    {Nc3} {d4} and the knight must go.
  back: Back we go.

{e6} {O-O} {Be7}.

imagine: remove d5
  Now the bishop sees everything.

question: White to move. Which quiet move backs e4?
  otherwise: Something calmer.

{d3}. And there we stop.
"""


@lru_cache(maxsize=64)
def sheet_of(source: str) -> Sheet:
    """The sheet of a script that has no fault."""
    lesson, faults = read(source)
    told, more = follow(lesson)
    wrong = [fault for fault in (*faults, *more) if fault.severity == "fault"]
    assert not wrong, wrong
    return compile_lesson(told)


def sheet_at(path: Path) -> Sheet:
    return sheet_of(path.read_text(encoding="utf-8"))
