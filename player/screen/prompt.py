"""The line at which the learner types; it always has the focus."""

from __future__ import annotations

from textual.binding import Binding
from textual.events import Paste
from textual.widgets import Input

from player.world.clean import clean, clean_line

LONGEST = 300
"""Characters of a paste that are taken."""


class Prompt(Input):
    """An input of one line without a frame. What is pasted into it is cleaned like everything foreign."""

    # What was typed before the screen was there had its Enter made a line feed by the terminal.
    BINDINGS = [Binding("ctrl+j", "submit", show=False)]  # noqa: RUF012

    def __init__(self, placeholder: str) -> None:
        super().__init__(placeholder=placeholder, id="prompt", select_on_focus=False)
        self.cursor_blink = False  # a blink is a timer, and a lesson that waits needs none

    def on_paste(self, event: Paste) -> None:
        """Have only harmless text of one line put in, and no more than anybody would say."""
        event.text = " ".join(clean(event.text).splitlines())[:LONGEST]

    def begin(self, words: str) -> None:
        """Put the beginning of a command there, to be finished by the learner."""
        self.value = words
        self.cursor_position = len(words)

    def take(self) -> str:
        """What was typed, and an empty line again."""
        words = clean_line(self.value)
        self.value = ""
        return words
