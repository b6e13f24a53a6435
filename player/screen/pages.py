"""The pages of help as text to read on the screen."""

from __future__ import annotations

from rich.text import Text

from player.screen.dress import Dress
from player.session.pages import COMMANDS, MOVES, lines_of, markdown, page_names, said_as
from player.stage.registry import ACTIONS


def names() -> list[str]:
    """The names of the pages, what can be said here first."""
    return [COMMANDS, *(name for name in page_names() if name != COMMANDS)]


def page(name: str, dress: Dress) -> Text:
    """A page, ready to be shown."""
    return commands(dress) if name == COMMANDS else from_markdown(markdown(name), dress)


def commands(dress: Dress) -> Text:
    """All that can be said at the prompt, with letters and keys, from the registry of actions."""
    text = Text()
    text.append("What you can say here\n", f"bold {dress.lamp}")
    text.append(f"{MOVES}\nPage up and page down read back.\n\n")
    for action in ACTIONS:
        text.append(said_as(action), f"bold {dress.text}")
        letter = f"letter {action.letter}, " if action.letter else ""
        text.append(f"  ({letter}key {key_name(action.key)})\n", dress.quiet)
        text.append(f"    {action.help}\n")
    return text


def key_name(key: str) -> str:
    """A key as it is printed on a keyboard: "Ctrl+R", "F1", "Escape"."""
    return "+".join(part.upper() if len(part) < 3 else part.capitalize() for part in key.split("+"))


def from_markdown(source: str, dress: Dress) -> Text:
    """The little Markdown of the pages, in the colours of the dress."""
    text = Text()
    for line in lines_of(source):
        if line.kind == "words":
            for piece, typed in line.pieces:
                text.append(piece, f"bold {dress.text}" if typed else "")
        else:
            text.append(line.text, f"bold {dress.lamp}" if line.kind == "head" else dress.quiet)
        text.append("\n")
    return text
