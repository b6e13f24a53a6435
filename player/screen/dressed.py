"""What both screens share: the dress, colour or none, and no keys but our own."""

from __future__ import annotations

import asyncio
import os
import signal
from typing import TypeVar

from textual.app import App

from player.screen.dress import Dress, Uncoloured, dress_for, theme_of
from player.world.settings import load_settings, settings_path
from player.world.world import World

Result = TypeVar("Result")


class Dressed(App[Result], inherit_bindings=False):
    """An app in the dress that the settings name, without colour where the world wants none."""

    ENABLE_COMMAND_PALETTE = False
    CSS_PATH = "dress.tcss"

    def __init__(self, world: World) -> None:
        # Textual takes NO_COLOR out of the environment and makes greys of colours; both are undone here.
        asked = os.environ.get("NO_COLOR")
        self.dress: Dress = dress_for(
            load_settings(settings_path(world.folders.config)).settings.dress, colour=world.colour_wanted
        )
        super().__init__()
        if asked is not None:
            os.environ["NO_COLOR"] = asked
        self.world = world
        self.no_color = False
        self._filters = [Uncoloured()] if self.dress.bare else []
        self.blocks = world.can_show("█▚╭░")
        theme = theme_of(self.dress)
        self.register_theme(theme)
        self.theme = theme.name

    def on_mount(self) -> None:
        """Leave in order, with the terminal as it was, where the system asks for the end of the program."""
        if self.is_headless or os.name != "posix":
            return
        for one in (signal.SIGTERM, signal.SIGHUP, signal.SIGINT):
            asyncio.get_running_loop().add_signal_handler(one, self.call_later, self.leave)

    def leave(self) -> None:
        """End without a result."""
        self.exit(None)
