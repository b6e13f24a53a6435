"""The sound of one utterance at one speed."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from player.voice.wav import DamagedSound, read_wav


class NoSound(Exception):
    """No sound of a text can be had now; the message is one plain sentence."""


@dataclass(frozen=True, slots=True)
class Sound:
    """One channel of 16-bit sound, or a silence of the length that the words would take.

    `file` holds the sound; where it could not be kept on disk, `pcm` holds it (16-bit little-endian frames at
    `rate_hz`), and where there is none at all both are empty. `ms` is the whole length and `word_ms` has the
    beginning of each word of `spoken.split()`. `measured` says that the voice itself gave those beginnings;
    otherwise they are estimates, fitted into the length.
    """

    file: Path | None
    ms: int
    word_ms: tuple[int, ...]
    measured: bool
    rate_hz: int
    pcm: bytes = field(default=b"", repr=False, compare=False)

    @property
    def audible(self) -> bool:
        """Whether there is any sound to play."""
        return self.file is not None or bool(self.pcm)

    def frames(self) -> bytes:
        """The sound itself; empty for a silence. NoSound if the file has gone or is damaged."""
        if self.pcm or self.file is None:
            return self.pcm
        try:
            return read_wav(self.file).pcm
        except (OSError, DamagedSound) as fault:
            raise NoSound("A stored sound could not be read again.") from fault
