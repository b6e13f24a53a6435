"""Draw the picture in the README, by the program itself: .venv/bin/python scripts/picture.py [FILE.svg]

It plays the first demo lesson on a clock of its own, silently, answers the first question wrongly, and keeps
what the screen shows then.
"""

from __future__ import annotations

import asyncio
import io
import os
import re
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from player.cues.compile import compile_lesson  # noqa: E402
from player.screen.lesson import LessonApp  # noqa: E402
from player.screen.prompt import Prompt  # noqa: E402
from player.script.follow import follow  # noqa: E402
from player.script.read import read  # noqa: E402
from player.session.learn import Replying  # noqa: E402
from player.session.session import Listener, Session  # noqa: E402
from player.session.speakers import Voices  # noqa: E402
from player.stage.advance import begin  # noqa: E402
from player.stage.state import Telling  # noqa: E402
from player.world.clock import VirtualClock  # noqa: E402
from player.world.files import write_atomically  # noqa: E402
from player.world.folders import OWN_HOME, folders_for  # noqa: E402
from player.world.world import World  # noqa: E402

PICTURE = ROOT / "player" / "help" / "screen.svg"
ROOM = (120, 40)
WRONG = "knight to c3"


def main(arguments: list[str]) -> int:
    """Write the picture to the file named, or to its place in the help."""
    lesson = sorted((ROOT / "demo_lessons").glob("*.lesson"))[0]
    picture = asyncio.run(drawn(lesson.read_text("utf-8")))
    write_atomically(Path(arguments[0]) if arguments else PICTURE, picture)
    return 0


async def drawn(source: str) -> str:
    """The screen of this script as SVG, at its first question, after a wrong answer."""
    lesson, _ = read(source)
    sheet = compile_lesson(follow(lesson)[0])
    with tempfile.TemporaryDirectory() as folder:
        clock = VirtualClock()
        world = quiet_world(Path(folder), clock)

        def opened(listener: Listener) -> Session:
            state, replying = begin(sheet, Telling(voice=False)), Replying(sheet)
            return Session(state, Voices(clock), clock, learn=replying, listener=listener)

        app = LessonApp(sheet, world, opened)
        async with app.run_test(size=ROOM) as pilot:
            await pilot.pause()
            play_on(app, clock)
            app.query_one(Prompt).value = WRONG
            await pilot.press("enter")
            play_on(app, clock)
            await pilot.press("ctrl+n")
            play_on(app, clock)
            await pilot.pause()
            return alone(app.export_screenshot(title="Moveteller"))


def play_on(app: LessonApp, clock: VirtualClock) -> None:
    """Let the lesson go on until it waits."""
    while app.session is not None and (due := app.session.due_ms()) is not None:
        clock.sleep(due)
        app.tick()


def alone(svg: str) -> str:
    """The picture without fonts from elsewhere, and with the same names in it every time."""
    svg = re.sub(r"<!--.*?-->", "", svg, flags=re.S)
    svg = re.sub(r"@font-face\s*\{.*?\}", "", svg, flags=re.S)
    svg = re.sub(r"\bterminal-\d+-", "terminal-", svg)
    svg = svg.replace("Fira Code", "DejaVu Sans Mono")
    return "\n".join(line.rstrip() for line in svg.splitlines() if line.strip()) + "\n"


def quiet_world(folder: Path, clock: VirtualClock) -> World:
    """A world in a scratch folder, on a terminal with colours."""
    env = {OWN_HOME: str(folder / "home")}
    streams = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2)]
    return World(
        stdin=io.StringIO(),
        stdout=streams[0],
        stderr=streams[1],
        env=env,
        folders=folders_for(env),
        clock=clock,
        now=lambda: datetime(2026, 3, 1, 19, 30, tzinfo=UTC),
        stdin_is_terminal=True,
        stdout_is_terminal=True,
        terminal_size=lambda: os.terminal_size(ROOM),
        platform="linux",
        here=folder,
    )


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
