"""`moveteller record`: write out or erase what is kept of your answers."""

from __future__ import annotations

from pathlib import Path

import click

from player.learner.record import open_record, record_path
from player.world.files import write_atomically
from player.world.trouble import Trouble
from player.world.world import World


@click.group("record")
def command() -> None:
    """Write out or erase what is kept of your answers. It never leaves this machine."""


@command.command("export")
@click.argument("file", required=False, type=click.Path(path_type=Path, dir_okay=False))
@click.pass_obj
def export(world: World, file: Path | None) -> int:
    """Write all of it as plain text, to FILE or to the output."""
    from player.learner.export import exported

    path = record_path(world.folders.data)
    if not path.exists():
        print("Nothing is kept yet.", file=world.stderr)
        return 0
    with open_record(path) as record:
        lines = [f"{line}\n" for line in exported(record, world.now())]
    if file is None:
        for line in lines:
            world.stdout.write(line)
        return 0
    write_atomically(world.here / file, "".join(lines))
    print(f"It is all in {file}.", file=world.stderr)
    return 0


@command.command("erase")
@click.option("--yes", is_flag=True, help="Without being asked.")
@click.pass_obj
def erase(world: World, yes: bool) -> int:
    """Forget all of it, for good."""
    path = record_path(world.folders.data)
    if not path.exists():
        print("Nothing is kept.", file=world.stdout)
        return 0
    if not yes:
        if not world.stdin_is_terminal:
            raise Trouble("This forgets all your answers for good. Say --yes if you mean it.")
        print("This forgets all your answers for good. Type 'erase' to do it: ", end="", file=world.stdout)
        world.stdout.flush()
        if world.stdin.readline().strip().casefold() != "erase":
            print("Nothing is erased.", file=world.stdout)
            return 0
    with open_record(path) as record:
        record.erase()
    for aside in path.parent.glob(f"{path.name}.damaged*"):
        aside.unlink()
    print("All of it is erased.", file=world.stdout)
    return 0
