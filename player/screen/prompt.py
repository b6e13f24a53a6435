"""The line at which the learner types; it always has the focus."""

from __future__ import annotations

from textual.widgets import Input

from player.world.clean import clean_line


class Prompt(Input):
    """An input of one line without a frame. What is pasted into it is cleaned like everything foreign."""

    def __init__(self, placeholder: str) -> None:
        super().__init__(placeholder=placeholder, id="prompt", select_on_focus=False)
        self.cursor_blink = False  # a blink is a timer, and a lesson that waits needs none

    def begin(self, words: str) -> None:
        """Put the beginning of a command there, to be finished by the learner."""
        self.value = words
        self.cursor_position = len(words)

    def take(self) -> str:
        """What was typed, and an empty line again."""
        words = clean_line(self.value)
        self.value = ""
        return words
