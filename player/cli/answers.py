"""`moveteller answers`: your anonymous result for a lesson, for the coach."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from player.cli.lessons import find_lesson, read_script
from player.world.files import write_atomically
from player.world.trouble import Trouble
from player.world.world import World

HEAD = 3
"""The first lines say what the sheet is, and stay."""


@click.command("answers")
@click.argument("lesson")
@click.argument("file", required=False, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--strike", default="", metavar="LINES", help="Leave these lines out, such as 4,7.")
@click.option("--yes", is_flag=True, help="Write it without being asked.")
@click.pass_obj
def command(world: World, lesson: str, file: Path | None, strike: str, yes: bool) -> int:
    """Write your answers to LESSON, without name or time, as plain text to FILE.

    It is shown first, and any line can be struck out. Nothing is sent anywhere.
    """
    from player.learner.answer_sheet import lines_of, sheet_from
    from player.learner.keeper import questions_of
    from player.learner.record import open_record, record_path
    from player.session.journal import script_hash

    path = find_lesson(world, lesson).resolve()
    opened = read_script(path)
    with open_record(record_path(world.folders.data)) as record:
        for note in record.notes:
            print(note, file=world.stderr)
        keys = questions_of(opened.sheet, str(path))
        made = sheet_from(record, str(path), opened.sheet.title, script_hash(opened.source), keys)
    if not made.answers and made.stopped is None:
        print(
            f"You have not played {opened.sheet.title} yet, so there is nothing to write.", file=world.stdout
        )
        return 0
    lines = _without(lines_of(made), _numbers(strike))
    show(world, lines)
    target = world.here / (file or Path(f"{path.stem}.answers.txt"))
    if not yes and world.stdin_is_terminal:
        lines = asked(world, lines, target)
    elif not yes and file is None:
        print("Say where to write it, or --yes.", file=world.stderr)
        return 0
    if not lines:
        print("Nothing is written.", file=world.stdout)
        return 0
    write_atomically(target, "".join(f"{line}\n" for line in lines))
    print(f"It is in {target}. Nothing was sent anywhere.", file=world.stderr)
    return 0


def show(world: World, lines: Sequence[str]) -> None:
    """The sheet with the numbers of its lines."""
    for number, line in enumerate(lines, 1):
        print(f"{number:>3}  {line}", file=world.stdout)


def asked(world: World, lines: list[str], target: Path) -> list[str]:
    """The lines that are left once the learner is content; none where it is not to be written."""
    while True:
        print(
            f"Enter writes this to {target.name}; numbers strike lines out; 'no' leaves it.",
            file=world.stdout,
        )
        print("> ", end="", flush=True, file=world.stdout)
        said = world.stdin.readline()
        if not said or said.strip().casefold() in ("no", "n", "quit", "q"):
            return []
        if not said.strip():
            return lines
        try:
            lines = _without(lines, _numbers(said))
        except Trouble as trouble:
            print(trouble, file=world.stdout)
            continue
        show(world, lines)


def _numbers(text: str) -> set[int]:
    """The line numbers in a text. Raises Trouble where there is anything else."""
    words = text.replace(",", " ").split()
    if not all(word.isdigit() for word in words):
        raise Trouble("Lines are struck out by their numbers, such as 4, 7.")
    return {int(word) for word in words}


def _without(lines: list[str], numbers: set[int]) -> list[str]:
    if any(number <= HEAD for number in numbers):
        raise Trouble(f"The first {HEAD} lines say what this is, and have to stay.")
    return [line for number, line in enumerate(lines, 1) if number not in numbers]
