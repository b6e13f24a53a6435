"""Lessons on a screen without a terminal, on a clock moved by hand."""

from __future__ import annotations

from pathlib import Path

from player.cues.sheet import Sheet
from player.screen.lesson import LessonApp
from player.session.session import Listener, Session
from player.session.speakers import Voices
from player.stage.advance import begin
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from player.world.clock import VirtualClock
from player.world.settings import change_settings, settings_path
from player.world.world import World
from tests.stage.sheets import sheet_of
from tests.worlds import scratch_world

SIZES = [(40, 12), (80, 24), (120, 40)]
DRESSES = ["plain", "high contrast"]

LESSON = """title: One Lamp
coach: Ines Calder
side: white

part: By the window

Good evening from the reading room. White begins {knight to f3}, Black takes space with {d5}.

idea the long diagonal: A bishop on the long diagonal wakes late.

{g3} {Nf6}. {show g2-b7 as line: This line} is worth a look.

question: White to move. Where does the bishop go?
  reply h3: That keeps the bishop at home.
  nudge: It likes long roads.
  about: the long diagonal

{Bg2}. Home at last.

aside: If Black comes nearer
  {c5} {castles}. He takes more ground, and we bring the king to safety.

part: The other side

aside: A quiet walk
  {e6}. Black shuts his own bishop in.

imagine: remove f3
  Picture the knight gone.

{e6} {castles} {Be7}.
"""


def world_in(folder: Path, *, dress: str = "plain", colour: bool = True, encoding: str = "utf-8") -> World:
    """A world on a terminal, with this dress chosen."""
    world = scratch_world(folder, "", clock=VirtualClock(), terminal=colour, encoding=encoding)
    change_settings(settings_path(world.folders.config), {"dress": dress})
    return world


def lesson_in(
    folder: Path,
    *,
    script: str = LESSON,
    telling: Telling | None = None,
    dress: str = "plain",
    colour: bool = True,
    encoding: str = "utf-8",
    sheet: Sheet | None = None,
) -> LessonApp:
    """The screen of a lesson, not yet run."""
    world = world_in(folder, dress=dress, colour=colour, encoding=encoding)
    whole = sheet or sheet_of(script)

    def opened(listener: Listener) -> Session:
        state = begin(whole, telling or Telling(voice=False))
        return Session(state, Voices(world.clock), world.clock, listener=listener)

    return LessonApp(whole, world, opened)


def run_for(app: LessonApp, ms: int) -> None:
    """Let this much time pass on the lesson's clock, or less where it comes to wait for the learner."""
    session = app.session
    assert session is not None
    session.start()
    passed = 0
    for _ in range(20_000):
        due = session.due_ms()
        if due is None or passed + due > ms:
            break
        app.world.clock.sleep(due)
        passed += due
        app.tick()


def to_question(app: LessonApp) -> None:
    """Tell up to the next question, or to the end."""
    run_for(app, 10**9)


def told(app: LessonApp) -> str:
    """All that stands in the narration, a paragraph a line: who says it, and what."""
    from player.screen.narration import Narration

    return "\n".join(f"{one.who}: {one.text}" for one in app.screen_stack[0].query_one(Narration).told)


def did(app: LessonApp, *given: Did | Typed) -> None:
    """Feed these and let what follows be told."""
    for one in given:
        app.give(one)
        to_question(app)
