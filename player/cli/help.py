"""`moveteller help`: the pages of help, printed plainly."""

from __future__ import annotations

import click

from player.session.pages import COMMANDS, MOVES, lines_of, markdown, page_names, said_as
from player.stage.registry import ACTIONS
from player.world.trouble import Trouble
from player.world.world import World

FIRST = "start"


@click.command("help")
@click.argument("page", required=False)
@click.pass_obj
def command(world: World, page: str | None) -> int:
    """Print PAGE of the help, or the first one, which names the others."""
    print(page_text(page or FIRST), file=world.stdout)
    return 0


def page_text(name: str) -> str:
    """A page as plain text. Raises Trouble where there is none."""
    wanted = name.casefold()
    from player.cli.main import COMMANDS as OF_THE_PROGRAM  # which imports this file

    if wanted not in page_names() and wanted in OF_THE_PROGRAM:
        raise Trouble(f"There is no page '{wanted}', but 'moveteller {wanted} --help' tells how it is used.")
    if wanted not in page_names():
        from difflib import get_close_matches

        near = get_close_matches(wanted, page_names(), 1)
        meant = f" Did you mean '{near[0]}'?" if near else ""
        raise Trouble(f"There is no page '{name}'.{meant} There are: {', '.join(page_names())}.")
    if wanted == COMMANDS:
        return plainly(commands_page())
    return plainly(markdown(wanted))


def commands_page() -> str:
    """All that can be said at the prompt, from the registry of actions, as Markdown."""
    said = [
        "# What you can say while a lesson is told",
        "",
        MOVES,
        "Enter alone goes on. Words may be typed whole; where there is a letter, it does the same.",
        "",
    ]
    for action in ACTIONS:
        others = [f"{word}" for word in action.words[1:]]
        forms = f" Also: {', '.join(others)}." if others else ""
        letter = f" Letter: {action.letter}." if action.letter else ""
        said.append(f"* {said_as(action)}: {action.help}{forms}{letter}")
    return "\n".join(said)


def plainly(source: str) -> str:
    """Markdown as one reads it aloud: no marks of headings, code or emphasis; lists and examples stay."""
    lines = lines_of(source)
    return "\n".join(f"{'    ' if one.kind == 'fenced' else ''}{one.text}".rstrip() for one in lines)
