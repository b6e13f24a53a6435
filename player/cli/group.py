"""`moveteller group`: what many answer sheets say together, for the coach."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from player.cli.lessons import header_of, read_script
from player.learner.answer_sheet import AnswerSheet, read_sheet
from player.learner.group import merged
from player.learner.group_told import Script, told
from player.world.files import read_text_forgiving
from player.world.trouble import Trouble, in_words
from player.world.world import World

_NAMED = 3
"""How many files that cannot be read are named one by one."""


@click.command("group")
@click.argument("sheets", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--lesson",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="The script that the sheets are about, where it is not at hand.",
)
@click.pass_obj
def command(world: World, sheets: tuple[Path, ...], lesson: Path | None) -> int:
    """Merge answer SHEETS (files, or folders of them): where a class fails, never who."""
    read, refused = _read(world, sheets)
    for why in refused[:_NAMED]:
        print(why, file=world.stderr)
    if len(refused) > _NAMED:
        print(f"{len(refused) - _NAMED} more cannot be read as answer sheets.", file=world.stderr)
    if not read:
        raise Trouble("There is no answer sheet among these.")
    groups = merged(read)
    for title in dict.fromkeys(one.lesson for one in groups):
        of_lesson = [one for one in groups if one.lesson == title]
        script = script_at(lesson) if lesson is not None else at_hand(world, title)
        for line in told(of_lesson, script):
            print(line, file=world.stdout)
    return 0


def _read(world: World, paths: Sequence[Path]) -> tuple[list[AnswerSheet], list[str]]:
    """The sheets in these files and folders, and a sentence about each that cannot be read."""
    files: list[Path] = []
    for path in paths:
        whole = world.here / path
        files += sorted(whole.glob("*.txt")) if whole.is_dir() else [whole]
    sheets: list[AnswerSheet] = []
    refused: list[str] = []
    for file in files:
        try:
            sheets.append(read_sheet(read_text_forgiving(file), file.name))
        except Trouble as trouble:
            refused.append(str(trouble))
        except OSError as error:
            refused.append(in_words(error))
    return sheets, refused


def at_hand(world: World, title: str) -> Script | None:
    """The script with this title in this folder or among the demo lessons, or None."""
    from player.cli.shelf import lessons_at_hand

    found = next((path for path in lessons_at_hand(world) if header_of(path)[1] == title), None)
    return script_at(found) if found is not None else None


def script_at(path: Path) -> Script:
    """The script at this path. Raises OSError, or Trouble where it is no text."""
    opened = read_script(path)
    return Script.of(opened.sheet, opened.source)
