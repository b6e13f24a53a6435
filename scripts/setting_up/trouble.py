"""What went wrong, in words for the person at the terminal."""

from __future__ import annotations


class Trouble(Exception):
    """The set-up cannot go on. The message is one or two plain sentences that say why and what to do."""
