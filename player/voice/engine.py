"""What a worker runs: a speech engine, called for one text at a time in a process of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol


class EngineFault(Exception):
    """The engine cannot do it; the message is one plain sentence."""


@dataclass(frozen=True, slots=True)
class Made:
    """Sound as an engine gives it: 16-bit little-endian, one channel.

    `word_frames` is the frame at which each word of `text.split()` begins, or None where the engine does
    not say.
    """

    pcm: bytes
    rate_hz: int
    word_frames: tuple[int, ...] | None


@dataclass(frozen=True, slots=True)
class VoiceName:
    """A voice that an engine has, and the code of the language it speaks ("en-gb")."""

    name: str
    language: str


class Engine(Protocol):
    """Made once in a worker; the constructor raises EngineFault where the engine is missing on this
    machine.
    """

    version: str

    def voices(self) -> Sequence[VoiceName]:
        """Every voice it has."""

    def make(self, text: str, *, speed: float, voice: str, language: str) -> Made:
        """The sound of a text of at least one word. An empty `voice` is the usual one for the language."""
