"""The doors of the screen: a lesson played, and a lesson chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Literal

from player.cues.sheet import Sheet
from player.screen.lesson import LessonApp
from player.session.session import Listener, Session
from player.session.words import Words
from player.stage.state import Telling
from player.world.world import World


def play_lesson(
    sheet: Sheet, telling: Telling, world: World, open_session: Callable[[Listener], Session]
) -> int:
    """Play a lesson on the screen until it is left; 0. How it is told is the session's affair."""
    app = LessonApp(sheet, world, open_session)
    try:
        code = app.run() or 0
    finally:
        if app.session is not None:
            app.session.close()
    if app.session is not None and app.left is not None:
        said = Words(sheet).own(app.left, app.session.state)
        if said:
            print(said, file=world.stderr, flush=True)
    return code


def shelf(world: World, lessons: Sequence[Path], waiting: int = 0) -> Path | Literal["revisit"] | None:
    """Let the learner choose one of these scripts, or what waits for today; None where nothing was chosen."""
    from player.screen.shelf import REVISIT, ShelfApp

    chosen = ShelfApp(world, lessons, waiting).run()
    if chosen == REVISIT:
        return "revisit"
    return Path(chosen) if chosen is not None else None
