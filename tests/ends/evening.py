"""A short lesson and a learner who does everything once, for both skins, each in a process of its own."""

from __future__ import annotations

import json
import os
import signal
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from player.session.journal import Journal, journal_path
from player.session.opening import replay
from player.stage.state import State
from player.world.folders import OWN_HOME, folders_for
from player.world.settings import change_settings, settings_path
from tests.ends.terminal import PATIENCE_S, ROOT, Terminal
from tests.stage.sheets import sheet_of

LESSON = """\
title: Gate and Garden
coach: Tobias Wren

White begins {Nf3}, Black takes {d5}, and then {d4 Nf6}.

question: White to move. Which quiet step opens a road for the bishop?
  reply e3: That is a road, but a short one.
  reply c4: On another evening.
  reply Nbd2: Not he.
  nudge: It is a pawn.

{g3}. Open. {e6}.

question: Who goes through it?
  reply a3, a4: No.
  because: He sees far.

{Bg2}. Good. {Be7}.

aside: If Black takes space
  Somebody always asks what becomes of us if Black takes all the room in the middle with one more pawn,
  and the answer is long, and the evening is short, and the tea is getting cold, so let us look at it briefly
  and go back to the garden before anybody has noticed that we were away.

  board: after 4.Bg2
  {c5} {c3} and White waits.

One thing is left, {O-O}.

question: Black to move. He does the same.
{O-O: He castles too}. Good night.
"""


@dataclass(frozen=True)
class Turn:
    """What the learner types, and when: once `first` has been read, in both skins, and `goes_on` goes on.

    `goes_on` is how the screen's line of state begins by then.
    """

    first: str
    goes_on: str
    typed: str


ASKED = "White to move: your move?"
BEFORE: tuple[Turn, ...] = (
    Turn("Which quiet step", ASKED, "Ke5"),  # illegal
    Turn("A king cannot go", ASKED, "c4"),  # wrong
    Turn("On another evening.", ASKED, "e3"),  # twice wrong
    Turn("That is a road, but a short one.", ASKED, "Nd2"),  # ambiguous
    Turn("Which knight", "which one?", "the one from b1"),
    Turn("Not he.", ASKED, "nudge"),
    Turn("It is a pawn.", ASKED, "what if c4 dxc4"),
    Turn("What if c4 dxc4.", "trying moves", "home"),
    Turn("Back at the question", ASKED, "g3"),  # right
    Turn("Who goes through it?", ASKED, "a3"),
    Turn("No.", ASKED, ""),  # here the process is killed
)
AFTER: tuple[Turn, ...] = (
    Turn("It goes on where you stopped.", ASKED, "tell me"),
    Turn("Somebody always asks", "telling", "skip"),
    Turn("He does the same.", "Black to move: your move?", "castles"),
    Turn("The lesson is told.", "the lesson is told", "quit"),
)


@dataclass(frozen=True)
class Evening:
    """A lesson played to its end past a kill: what happened before and after it, and how all came to stand.

    `reached` is the step that was begun last when the process was killed, and `state` what the journal of
    the whole leads to.
    """

    before: tuple[dict[str, Any], ...]
    reached: str
    after: tuple[dict[str, Any], ...]
    state: State


def home_in(folder: Path) -> Path:
    """A lesson's file in this folder, whose home has everything told as fast as it can be."""
    folder.mkdir(exist_ok=True)
    path = folder / "gate.lesson"
    path.write_text(LESSON, encoding="utf-8")
    config = folders_for({OWN_HOME: str(folder / "home")}).config
    change_settings(settings_path(config), {"silence_scale": 0.3, "speed": 3.0, "mute": True})
    return path


def on_the_screen(folder: Path) -> Evening:
    """Play it on the screen."""
    path = home_in(folder)
    runs = []
    for name, turns in (("before", BEFORE), ("after", AFTER)):
        run = Terminal("play", path.name, "--record-happenings", name, folder=folder)
        try:
            for turn in turns:
                run.sees(turn.first)
                run.stands(turn.goes_on)
                if turn.typed:
                    run.types(turn.typed)
            if turns is BEFORE:
                run.kills()
                runs.append(reached(folder, path))
            else:
                assert run.ends() == 0
        finally:
            run.close()
    return evening(folder, path, runs[0])


def in_lines(folder: Path, before: Sequence[Turn] = BEFORE, after: Sequence[Turn] = AFTER) -> Evening:
    """Play it line by line, with Enter at every prompt until the words come that a turn waits for."""
    import pexpect  # type: ignore[import-untyped]

    path = home_in(folder)
    runs = []
    env = {**os.environ, OWN_HOME: str(folder / "home"), "PYTHONPATH": str(ROOT), "TERM": "dumb"}
    for name, turns in (("before", before), ("after", after)):
        run = pexpect.spawn(
            sys.executable,
            ["-m", "player.cli", "play", path.name, "--record-happenings", name],
            env=env,
            cwd=str(folder),
            encoding="utf-8",
            timeout=PATIENCE_S,
            dimensions=(24, 200),
        )
        try:
            for turn in turns:
                _enters(run, turn.first)
                if turn.typed:
                    run.sendline(turn.typed)
            if turns is before:
                run.kill(signal.SIGKILL)
                run.expect(pexpect.EOF)
                runs.append(reached(folder, path))
            else:
                run.expect(pexpect.EOF)
                run.close()
                assert run.exitstatus == 0
        finally:
            run.close(force=True)
    return evening(folder, path, runs[0])


def _enters(run: Any, words: str) -> None:
    read = ""
    for _ in range(20):
        run.expect_exact("\n> ")
        read += str(run.before)
        if words in read:
            return
        run.sendline("")
    raise AssertionError(f"never came: {words}\n{read}")


def reached(folder: Path, path: Path) -> str:
    """The step that the journal names as begun last."""
    kept, damaged = Journal(journal_of(folder, path)).look()
    assert kept is not None and not damaged
    return kept.reached


def journal_of(folder: Path, path: Path) -> Path:
    return journal_path(folders_for({OWN_HOME: str(folder / "home")}).state, path)


def evening(folder: Path, path: Path, step: str) -> Evening:
    kept, _ = Journal(journal_of(folder, path)).look()
    assert kept is not None and kept.over
    state, *_ = replay(kept, sheet_of(LESSON))
    return Evening(happened(folder / "before"), step, happened(folder / "after"), state)


TIMING = ("wake", "asleep", "hush")
"""Happenings that only order silence and sound: the screen goes by a clock, and lines by Enter."""


def happened(record: Path) -> tuple[dict[str, Any], ...]:
    """What was recorded, but for what only orders the time, and for the numbers of sayings."""
    all_ = (json.loads(line) for line in record.read_text(encoding="utf-8").splitlines())
    return tuple(
        {name: value for name, value in one.items() if name != "saying"}
        for one in all_
        if one["kind"] not in TIMING
    )


def standing(state: State) -> dict[str, Any]:
    """All of a state that does not depend on how the telling is paced."""
    return {
        "places": [frame.place for frame in state.frames],
        "steps": [(frame.why, frame.at, frame.doing, frame.shown) for frame in state.frames],
        "asked": state.asked,
        "seen": state.seen,
        "notebook": state.notebook,
        "scopes": state.scopes,
        "flip": (state.flip, state.turned),
        "over": state.over,
    }
