"""The pages of help: which there are, and their little Markdown taken apart for whoever shows them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib import resources
from typing import Literal

from player.stage.registry import Action

COMMANDS = "commands"
"""The page that is made from the registry of actions, and so differs a little from skin to skin."""

MOVES = "A move in any ordinary form answers a question, or tries it on the board: Nf3, knight f3, g1f3."


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a page: a heading, a line of an example (as it stands, fenced or indented), or words.

    `pieces` are its words in order, each with whether it is something to type.
    """

    kind: Literal["head", "fenced", "indented", "words"]
    pieces: tuple[tuple[str, bool], ...]

    @property
    def text(self) -> str:
        """The line without its marks."""
        return "".join(piece for piece, _ in self.pieces)


def page_names() -> list[str]:
    """The names of all pages, in the order of the alphabet."""
    files = resources.files("player.help").iterdir()
    names = {one.name.removesuffix(".md") for one in files if one.name.endswith(".md")}
    return sorted(names | {COMMANDS})


def markdown(name: str) -> str:
    """A written page, with the names of all pages where it has PAGES. Raises OSError where there is none."""
    text = (resources.files("player.help") / f"{name}.md").read_text("utf-8")
    return text.replace("PAGES", ", ".join(page_names()))


def lines_of(text: str) -> list[Line]:
    """The lines of Markdown: headings, lists, `words to type`, **weight** (dropped) and examples."""
    lines: list[Line] = []
    fenced = False
    for line in text.strip().splitlines():
        if line.lstrip().startswith("```"):
            fenced = not fenced
        elif fenced or line.startswith("    "):
            lines.append(Line("fenced" if fenced else "indented", ((line.rstrip(), False),)))
        elif line.startswith("#"):
            lines.append(Line("head", ((line.lstrip("# ").rstrip(), False),)))
        else:
            pieces = re.split(r"`([^`]*)`", line.replace("**", "").rstrip())
            lines.append(Line("words", tuple((one, n % 2 == 1) for n, one in enumerate(pieces) if one)))
    return lines


def said_as(action: Action) -> str:
    """How an action is said: "what if ...", "look [...]"."""
    return f"{action.words[0]}{ {'must': ' ...', 'may': ' [...]'}.get(action.object, '') }"
