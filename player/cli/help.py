"""`moveteller help`: the pages of help, printed plainly."""

from __future__ import annotations

import re
from importlib import resources

import click

from player.stage.registry import ACTIONS
from player.world.trouble import Trouble
from player.world.world import World

FIRST = "start"
COMMANDS_PAGE = "commands"


@click.command("help")
@click.argument("page", required=False)
@click.pass_obj
def command(world: World, page: str | None) -> int:
    """Print PAGE of the help, or the first one, which names the others."""
    print(page_text(page or FIRST), file=world.stdout)
    return 0


def page_names() -> list[str]:
    """The names of all pages."""
    files = resources.files("player.help").iterdir()
    names = {one.name.removesuffix(".md") for one in files if one.name.endswith(".md")}
    return sorted(names | {COMMANDS_PAGE})


def page_text(name: str) -> str:
    """A page as plain text. Raises Trouble where there is none."""
    wanted = name.casefold()
    if wanted not in page_names():
        raise Trouble(f"There is no page '{name}'. There are: {', '.join(page_names())}.")
    if wanted == COMMANDS_PAGE:
        return plainly(commands_page())
    text = (resources.files("player.help") / f"{wanted}.md").read_text("utf-8")
    return plainly(text).replace("PAGES", ", ".join(page_names()))


def commands_page() -> str:
    """All that can be said at the prompt, from the registry of actions, as Markdown."""
    said = [
        "# What you can say while a lesson is told",
        "",
        "A move in any ordinary form answers a question, or tries it on the board: Nf3, knight f3, g1f3.",
        "Enter alone goes on. Words may be typed whole; where there is a letter, it does the same.",
        "",
    ]
    for action in ACTIONS:
        what = {"must": " ...", "may": " [...]"}.get(action.object, "")
        others = [f"{word}" for word in action.words[1:]]
        forms = f" Also: {', '.join(others)}." if others else ""
        letter = f" Letter: {action.letter}." if action.letter else ""
        said.append(f"* {action.words[0]}{what}: {action.help}{forms}{letter}")
    return "\n".join(said)


def plainly(markdown: str) -> str:
    """Markdown as one reads it aloud: no marks of headings, code or emphasis; lists and examples stay."""
    lines: list[str] = []
    fenced = False
    for line in markdown.strip().splitlines():
        if line.lstrip().startswith("```"):
            fenced = not fenced
            continue
        if fenced:
            lines.append(f"    {line}".rstrip())
            continue
        line = re.sub(r"^#+\s*", "", line)
        line = re.sub(r"`([^`]*)`", r"\1", line)
        line = re.sub(r"\*\*([^*]+)\*\*", r"\1", line)
        lines.append(line.rstrip())
    return "\n".join(lines)
