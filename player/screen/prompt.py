"""The line at which the learner types; it always has the focus."""

from __future__ import annotations

from textual.events import Key, Paste
from textual.widgets import Input

from player.world.clean import clean, clean_line

LONGEST = 300
"""Characters of a paste that are taken."""


class Prompt(Input):
    """An input of one line without a frame. What is pasted into it is cleaned like everything foreign."""

    def __init__(self, placeholder: str) -> None:
        super().__init__(placeholder=placeholder, id="prompt", select_on_focus=False)
        self.cursor_blink = False  # a blink is a timer, and a lesson that waits needs none

    async def _on_key(self, event: Key) -> None:
        """Take a key in its turn. An action's key would only be run once its event has risen to the app,
        overtaken by letters typed fast.
        """
        # What was typed before the screen was there had its Enter made a line feed by the terminal.
        if event.key in ("enter", "ctrl+j"):
            words, self.value = clean_line(self.value), ""
            self.post_message(self.Submitted(self, words))
        elif event.key == "backspace":
            self.action_delete_left()
        else:
            await super()._on_key(event)
            return
        event.stop()
        event.prevent_default()

    def on_paste(self, event: Paste) -> None:
        """Have only harmless text of one line put in, and no more than anybody would say."""
        event.text = " ".join(clean(event.text).splitlines())[:LONGEST]

    def begin(self, words: str) -> None:
        """Put the beginning of a command there, to be finished by the learner."""
        self.value = words
        self.cursor_position = len(words)
