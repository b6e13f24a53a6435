"""`moveteller selftest`: questions without the telling, of a lesson or of any game."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from player.cli.keeper import keeper_for
from player.cli.lessons import find_lesson, read_script
from player.cli.perform import Piece, Wishes, perform
from player.cues.sheet import Sheet
from player.wording.announce import questions_opening
from player.wording.prose import speakable
from player.world.trouble import Trouble
from player.world.world import World

if TYPE_CHECKING:
    from player.learner.tries import Question


@click.command("selftest")
@click.argument("lesson", required=False)
@click.option(
    "--game", type=click.Path(path_type=Path, dir_okay=False), help="A PGN file instead of a lesson."
)
@click.option("--number", type=click.IntRange(min=1), default=1, metavar="N", help="Which game of the file.")
@click.option("--side", type=click.Choice(["white", "black", "both"]), default="white", show_default=True)
@click.option("--lines", is_flag=True, help="Line by line, for screen readers, pipes and plain terminals.")
@click.option("--hands-free", is_flag=True, help="Everything in words, and questions pass by themselves.")
@click.option("--mute", is_flag=True, help="No voice.")
@click.option("--ear", is_flag=True, help="Announce everything in words.")
@click.option("--width", type=click.IntRange(10, 1000), metavar="N", help="Lines of at most N cells.")
@click.option(
    "--minutes",
    type=click.FloatRange(min=0, min_open=True),
    metavar="N",
    help="End after the question during which N minutes run out.",
)
@click.option("--fresh", is_flag=True, help="From the start, even where a place was kept.")
@click.pass_obj
def command(
    world: World,
    /,
    lesson: str | None,
    game: Path | None,
    number: int,
    side: Literal["white", "black", "both"],
    **wishes: object,
) -> int:
    """Ask the questions of LESSON alone, or every move of one side of a game."""
    wished = Wishes(**wishes)  # type: ignore[arg-type]
    if (lesson is None) == (game is None):
        raise Trouble("Name a lesson, or a game with --game FILE; one of them.")
    if game is not None:
        return _game(world, world.here / game.expanduser(), number, side, wished)
    assert lesson is not None
    return _lesson(world, find_lesson(world, lesson), wished)


def _lesson(world: World, path: Path, wishes: Wishes) -> int:
    from player.learner.keeper import questions_of

    opened = read_script(path)
    if not opened.sheet.questions:
        raise Trouble(f"{path.name} asks nothing.")
    lesson = str(path.resolve())
    known = questions_of(opened.sheet, lesson)
    piece = _piece(world, _only_asked(opened.sheet), opened.source, lesson, known, opened.lesson.header.voice)
    return perform(world, piece, replace(wishes, questions_only=True))


def _only_asked(sheet: Sheet) -> Sheet:
    """The sheet whose opening does not promise what is not told."""
    first = sheet.steps[0]
    if not first.ear_only:
        return sheet
    text = questions_opening(sheet.title, sheet.coach, len(sheet.questions))
    return replace(
        sheet, steps=(replace(first, say=speakable(text, lexicon=sheet.lexicon)), *sheet.steps[1:])
    )


def _game(
    world: World, file: Path, number: int, side: Literal["white", "black", "both"], wishes: Wishes
) -> int:
    from player.learner.games import game_script, read_game
    from player.learner.keeper import questions_of

    source = game_script(read_game(file, number), side)
    sheet = sheet_of(source)
    if not sheet.questions:
        raise Trouble(f"{side.capitalize()} makes no move in this game.")
    lesson = f"{file.resolve()} game {number}"
    known = {key: replace(one, like="game") for key, one in questions_of(sheet, lesson).items()}
    return perform(world, _piece(world, sheet, source, lesson, known), wishes)


def sheet_of(source: str) -> Sheet:
    """The sheet of a script's text."""
    from player.cues.compile import compile_lesson
    from player.script.follow import follow
    from player.script.read import read

    lesson, _ = read(source)
    told, _ = follow(lesson)
    return compile_lesson(told)


def _piece(
    world: World, sheet: Sheet, source: str, lesson: str, known: Mapping[str, Question], voice: str = ""
) -> Piece:
    from player.learner.keeper import Source
    from player.session.journal import journal_path

    marked = f"{source}\n# self-test\n"
    journal = journal_path(world.folders.state, Path(f"{lesson} self-test"))
    return Piece(
        sheet, marked, journal, voice, keeper_for(world, sheet, Source(lesson, "", "self-test"), known)
    )
