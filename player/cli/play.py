"""`moveteller play`: tell a lesson, line by line or on the screen."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from player.cli.keeper import keeper_for
from player.cli.lessons import Opened, find_lessons, following, header_of, read_script
from player.cli.perform import Piece, Wishes, perform
from player.cues.sheet import Sheet
from player.session.session import Told
from player.stage.happenings import Quit
from player.world.trouble import Trouble
from player.world.world import World

if TYPE_CHECKING:
    from player.voice.take import Recording


@click.command("play")
@click.argument("lesson")
@click.option("--lines", is_flag=True, help="Line by line, for screen readers, pipes and plain terminals.")
@click.option("--hands-free", is_flag=True, help="Everything in words, and questions pass by themselves.")
@click.option("--listen", is_flag=True, help="Hands-free, take answers by voice.")
@click.option("--headphones", is_flag=True, help="Hands-free, listen while the voice speaks, too.")
@click.option("--mute", is_flag=True, help="No voice.")
@click.option("--at", default="", metavar="PLACE", help="Begin at 3:20, at 'part 2' or at 'question 4'.")
@click.option("--speed", type=click.FloatRange(0.5, 3.0), help="The pace of the voice, 1 being its own.")
@click.option("--voice", metavar="NAME", help="Which voice speaks; 'on' for the usual one.")
@click.option("--engine", metavar="PATH", help="An engine that may add its opinion; 'none' for none.")
@click.option("--questions-only", is_flag=True, help="Only the questions, without the telling.")
@click.option("--at-once", is_flag=True, help="Tell without waiting, for pipes and tests.")
@click.option("--ear", is_flag=True, help="Announce everything in words.")
@click.option("--width", type=click.IntRange(10, 1000), metavar="N", help="Lines of at most N cells.")
@click.option(
    "--minutes",
    type=click.FloatRange(min=0, min_open=True),
    metavar="N",
    help="End after the question during which N minutes run out.",
)
@click.option(
    "--fade",
    type=click.Choice(["auto", "0", "1", "3", "all"]),
    help="Ask the last moves of the lesson's game: none, one, three or all; auto asks more every time.",
)
@click.option("--fresh", is_flag=True, help="From the start, even where a place was kept.")
@click.option(
    "--journal", type=click.Path(path_type=Path, dir_okay=False), help="Keep the place in this file."
)
@click.option(
    "--record-happenings",
    "record",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write every happening to this file, one JSON object a line.",
)
@click.pass_obj
def command(world: World, /, lesson: str, **wishes: object) -> int:
    """Play LESSON: a script, a folder of them, or the name or number of a demo lesson."""
    return play(world, which(world, lesson), Wishes(**wishes))  # type: ignore[arg-type]


def which(world: World, named: str) -> Path:
    """The script that is meant; of several in a folder the first that was not told to its end.

    One line says which one that is. Raises Trouble where there is none.
    """
    from player.session.shelf import first_unfinished

    found = find_lessons(world, named)
    if len(found) == 1:
        return found[0]
    path = first_unfinished(world, found)
    if path is None:
        print(f"All {len(found)} lessons here are told; the first begins again.", file=world.stderr)
        path = found[0]
    print(f"Lesson {found.index(path) + 1} of {len(found)}: {header_of(path)[1]}", file=world.stderr)
    return path


def play(world: World, path: Path, wishes: Wishes) -> int:
    """Play a script in the skin that this terminal and the wishes call for, and what follows if asked to."""
    from player.lines.typing import Typing

    left: list[Quit] = []

    def listener(told: Told) -> None:
        if isinstance(told, Quit):
            left.append(told)

    typing = Typing(world.stdin)
    while True:
        left.clear()
        code = perform(world, _piece(world, path, wishes), wishes, listener, typing)
        if code or not left or not left[-1].to:
            return code
        path = Path(left[-1].to)
        wishes = replace(wishes, at="", fresh=False, warned=True)


def _piece(world: World, path: Path, wishes: Wishes) -> Piece:
    """The script as it is performed; it leads on to the next of its series unless a wish forbids it."""
    from player.learner.keeper import Source
    from player.session.journal import journal_path, script_hash

    opened = read_script(path)
    sheet = opened.sheet
    if not sheet.steps or len(sheet.steps) < 2:
        raise Trouble(f"There is nothing to tell in {path}. 'moveteller check' says what is wrong with it.")
    _warn(world, opened)
    after = following(path)
    if after is not None and not (wishes.journal or wishes.record or wishes.minutes):
        sheet = replace(sheet, following=(str(after[0]), after[1]))
    source, place = opened.source, opened.path
    if wishes.fade is not None:
        # Each step of the fading keeps a place of its own, beside the lesson's.
        sheet, count = _faded(world, opened, sheet, wishes.fade)
        source, place = f"{source}\n# {count}\n", place.with_name(f"{place.name}, {count}")
    return Piece(
        sheet,
        source,
        journal_path(world.folders.state, place),
        opened.lesson.header.voice,
        keeper_for(world, sheet, Source(str(opened.path.resolve()), script_hash(opened.source))),
        _recording(opened),
    )


def _recording(opened: Opened) -> Recording | None:
    """The coach's recording that the script names, with what is said in it."""
    from player.voice.take import Recording, lines_of

    name = opened.lesson.header.recording
    return Recording(opened.path.parent / name, lines_of(opened.sheet.steps)) if name else None


def _faded(world: World, opened: Opened, sheet: Sheet, wish: str) -> tuple[Sheet, str]:
    """The sheet with its game faded, and how many of its moves are asked, in words."""
    from player.cues.fade import LEVELS, askable, faded

    if wish == "auto":
        times = _times_told(world, opened)
        count = LEVELS[min(times, len(LEVELS) - 1)]
    else:
        count = None if wish == "all" else int(wish)
    if not askable(sheet):
        raise Trouble(f"There is no game in {opened.path.name} whose moves could be asked.")
    asked = askable(sheet) if count is None else min(count, askable(sheet))
    what = "No move" if not asked else "One move" if asked == 1 else f"{asked} moves"
    print(f"Lesson: {what} of the game will be asked.", file=world.stderr)
    return faded(sheet, count), f"{what} asked"


def _times_told(world: World, opened: Opened) -> int:
    """How often this lesson was told to its end."""
    from player.learner.record import open_record, record_path

    try:
        with open_record(record_path(world.folders.data)) as record:
            told = record.read(
                "SELECT count(*) FROM moments WHERE what = 'over' AND lesson = ?",
                (str(opened.path.resolve()),),
            )
            return int(told[0][0])
    except Trouble:
        return 0


def _warn(world: World, opened: Opened) -> None:
    """One sentence where the script has faults: the player tells what it can."""
    faults = [fault for fault in opened.faults if fault.severity == "fault"]
    if faults:
        count = "a fault" if len(faults) == 1 else f"{len(faults)} faults"
        print(
            f"This script has {count}, the first in line {faults[0].line}; what can be told of it is told. "
            "'moveteller check' names them.",
            file=world.stderr,
        )
