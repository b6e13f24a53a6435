"""Where sound goes, as a protocol; the output that goes nowhere; and one that writes down what would be
heard.
"""

from __future__ import annotations

from pathlib import Path
from typing import Protocol

from player.voice.mixer import Mixer
from player.voice.wav import FRAME_BYTES, Wave, wav_bytes
from player.world.clock import Clock

RATE_HZ = 22_050
PERIOD_MS = 20


class Output(Protocol):
    """One sound at a time. No method waits for a device, and none raises for want of one."""

    @property
    def rate_hz(self) -> int:
        """The rate that sounds must have."""

    def wake(self) -> None:
        """Something will be said soon: have the device ready."""

    def play(self, pcm: bytes, from_frame: int = 0) -> None:
        """Begin a sound (16-bit, one channel) in place of any other; also a reason to look for a device
        again.
        """

    def stop(self) -> int | None:
        """Silence at once; the frame to go on from, or None where nothing played."""

    def heard(self) -> float | None:
        """Frames of the sound heard so far, going on past its end; None before the device took any."""

    def trouble(self) -> str | None:
        """Why nothing can be heard now, as one plain sentence; None while it can, or may yet."""

    def tone(self) -> None:
        """A soft tone."""

    def set_volume(self, volume: float) -> None:
        """From 0.0 to 1.0, at once."""

    def close(self) -> None:
        """Let the device go; never waits long."""


class NullOutput:
    """No device at all."""

    rate_hz = RATE_HZ

    def __init__(self, why: str = "There is no sound on this machine.") -> None:
        self._why = why

    def wake(self) -> None:
        return

    def play(self, pcm: bytes, from_frame: int = 0) -> None:
        return

    def stop(self) -> int | None:
        return None

    def heard(self) -> float | None:
        return None

    def trouble(self) -> str | None:
        return self._why

    def tone(self) -> None:
        return

    def set_volume(self, volume: float) -> None:
        return

    def close(self) -> None:
        return


class CaptureOutput:
    """A device in memory that asks for a period of sound every 20 ms of its clock, and keeps all it was
    given.

    Frame 0 of what it captured is the moment it was made, so a place in `captured` is a time by the clock.
    It runs its clock's time up whenever it is called; `catch_up` does only that.
    """

    def __init__(self, clock: Clock, *, rate_hz: int = RATE_HZ, period_ms: int = PERIOD_MS) -> None:
        self.rate_hz = rate_hz
        self.captured = bytearray()
        self.gone = ""
        self._clock = clock
        self._period_ms = period_ms
        self._begun_ms = clock.now_ms()
        self._periods = 0
        self._at_ms: int | None = None
        self._mixer = Mixer(rate_hz, lambda: (clock.now_ms() if self._at_ms is None else self._at_ms) / 1000)

    def wake(self) -> None:
        self.catch_up()

    def play(self, pcm: bytes, from_frame: int = 0) -> None:
        self.catch_up()
        self._mixer.play(pcm, from_frame)

    def stop(self) -> int | None:
        self.catch_up()
        return self._mixer.stop()

    def heard(self) -> float | None:
        self.catch_up()
        return self._mixer.heard()

    def trouble(self) -> str | None:
        return self.gone or None

    def tone(self) -> None:
        self.catch_up()
        self._mixer.tone()

    def set_volume(self, volume: float) -> None:
        self.catch_up()
        self._mixer.volume = volume

    def close(self) -> None:
        self.catch_up()

    def catch_up(self) -> None:
        """Ask for all the periods that have begun by now; a device that has gone asks for none."""
        now = self._clock.now_ms()
        while (begins := self._begun_ms + self._periods * self._period_ms) <= now:
            self._periods += 1
            frames = self._period_ms * self.rate_hz // 1000
            self._at_ms = begins
            self.captured += bytes(frames * FRAME_BYTES) if self.gone else self._mixer.render(frames)
            self._at_ms = None

    def write(self, path: Path) -> None:
        """What was captured, as a sound file."""
        path.write_bytes(wav_bytes(Wave(self.rate_hz, bytes(self.captured))))
