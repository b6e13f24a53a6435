"""The pages of help as text to read on the screen."""

from __future__ import annotations

import re
from importlib import resources

from rich.text import Text

from player.screen.dress import Dress
from player.stage.registry import ACTIONS, Action

COMMANDS = "commands"


def names() -> list[str]:
    """The names of the pages, what can be said here first."""
    files = resources.files("player.help").iterdir()
    return [COMMANDS, *sorted(one.name.removesuffix(".md") for one in files if one.name.endswith(".md"))]


def page(name: str, dress: Dress) -> Text:
    """A page, ready to be shown."""
    if name == COMMANDS:
        return commands(dress)
    text = (resources.files("player.help") / f"{name}.md").read_text("utf-8")
    return from_markdown(text.replace("PAGES", ", ".join(names())), dress)


def commands(dress: Dress) -> Text:
    """All that can be said at the prompt, with letters and keys, from the registry of actions."""
    text = Text()
    text.append("What you can say here\n", f"bold {dress.lamp}")
    text.append(
        "A move in any ordinary form answers a question, or tries it on the board: Nf3, knight f3, g1f3.\n"
        "Page up and page down read back.\n\n"
    )
    for action in ACTIONS:
        text.append(said_as(action), f"bold {dress.text}")
        letter = f"letter {action.letter}, " if action.letter else ""
        text.append(f"  ({letter}key {key_name(action.key)})\n", dress.quiet)
        text.append(f"    {action.help}\n")
    return text


def said_as(action: Action) -> str:
    """How an action is said: "what if ...", "look [...]"."""
    return f"{action.words[0]}{ {'must': ' ...', 'may': ' [...]'}.get(action.object, '') }"


def key_name(key: str) -> str:
    """A key as it is printed on a keyboard: "Ctrl+R", "F1", "Escape"."""
    return "+".join(part.upper() if len(part) < 3 else part.capitalize() for part in key.split("+"))


def from_markdown(markdown: str, dress: Dress) -> Text:
    """The little Markdown of the pages: headings, lists, `words` and blocks of script."""
    text = Text()
    fenced = False
    for line in markdown.strip().splitlines():
        if line.lstrip().startswith("```"):
            fenced = not fenced
        elif fenced or line.startswith("    "):
            text.append(f"{line}\n", dress.quiet)
        elif line.startswith("#"):
            text.append(line.lstrip("# ") + "\n", f"bold {dress.lamp}")
        else:
            for n, piece in enumerate(re.split(r"`([^`]*)`", line.replace("**", ""))):
                text.append(piece, f"bold {dress.text}" if n % 2 else "")
            text.append("\n")
    return text
