"""The line skin in a world made up for a test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from player.lines.play import play_lines
from player.session.opening import open_session
from player.session.session import Listener, Session, Told
from player.stage.state import Telling
from tests.stage.sheets import LESSON, sheet_of
from tests.worlds import printed, scratch_world

PACED = Telling(voice=False, by_beat=True, at_once=True)
AT_ONCE = Telling(voice=False, at_once=True)


def telling(
    folder: Path,
    typed: str,
    *,
    told: Telling = PACED,
    source: str = LESSON,
    width: int = 0,
    encoding: str = "utf-8",
    journal: Path | None = None,
    heard: list[Told] | None = None,
) -> str:
    """Play a lesson with these lines typed, and return all that was printed."""
    world = scratch_world(folder, typed, encoding=encoding)
    sheet = sheet_of(source)

    def opening(listener: Listener) -> Session:
        session = open_session(
            sheet,
            source,
            told,
            world.clock,
            journal_file=journal,
            learn=lambda place, move: ("After that comes a capture.", "board"),
            listener=listener,
        )
        if heard is not None:
            session.listen(heard.append)
        return session

    assert play_lines(sheet, world, opening, width=width) == 0
    return printed(world)


def lines_of(text: str) -> Iterator[str]:
    """The lines without what stands behind a prompt."""
    return (line for line in text.splitlines() if not line.startswith(">"))
