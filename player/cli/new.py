"""`moveteller new`: a five-line lesson that already plays."""

from __future__ import annotations

import re
from pathlib import Path

import click

from player.cli.lessons import SUFFIX
from player.world.clean import clean_line
from player.world.files import make_folder, write_atomically
from player.world.trouble import Trouble
from player.world.world import World

SCRIPT = """\
title: {title}
White begins {{knight to f3}}, and Black takes space with {{d5}}.
question: White to move. Which small step opens a long diagonal for the bishop from f1?
  nudge: It is a pawn, and it stands beside the one in front of the king.
{{g3}}. Now the bishop has a road to g2, and from there it looks at the middle.
"""


@click.command("new")
@click.argument("name")
@click.pass_obj
def command(world: World, name: str) -> int:
    """Write a small lesson called NAME, to be changed with any text editor."""
    path = path_for(world, name)
    if path.exists():
        raise Trouble(f"{path} is there already. Take another name, or move that file away first.")
    make_folder(path.parent)
    title = clean_line(re.sub(r"[-_]+", " ", path.stem)).replace("{", "(").replace("}", ")")
    write_atomically(path, SCRIPT.format(title=(title[:1].upper() + title[1:]) or "A new lesson"))
    print(path, file=world.stdout)
    print(f"Hear it with: moveteller play {_quoted(path)}", file=world.stderr)
    print(f"Check it with: moveteller check {_quoted(path)}", file=world.stderr)
    return 0


def path_for(world: World, name: str) -> Path:
    """Where a lesson of this name is written. Raises Trouble for a name that no file can have."""
    if not clean_line(name) or clean_line(name) != name or name.endswith(("/", "\\")):
        raise Trouble("A lesson needs a name, such as: moveteller new first-steps")
    path = world.here / Path(name).expanduser()
    return path if path.suffix == SUFFIX else path.with_name(path.name + SUFFIX)


def _quoted(path: Path) -> str:
    text = str(path)
    return f'"{text}"' if re.search(r"\s", text) else text
