"""The machine's own sound device, through miniaudio."""

from __future__ import annotations

import atexit
import contextlib
import importlib
import threading
import time
import weakref
from collections.abc import Callable, Generator, Sequence
from typing import Any

from player.voice.alsa import quieten_alsa
from player.voice.mixer import Mixer
from player.voice.output import PERIOD_MS, RATE_HZ

DELAY_S = 0.6 * PERIOD_MS / 1000
OPENING_S = 1.5
REST_S = 5.0
RETRY_S = 3.0
LONGEST_RETRY_S = 60.0
MISSING_PERIODS = 10
_SETTLING_ASKS = 3
_SETTLED_PERIODS = 12
_SETTLING_S = 2.5
_CLOSING_S = 0.5
_NO_BACKENDS = ("NULL", "CUSTOM", "JACK")
"""Those that pretend, and one that starts a server and prints; who runs it can also be reached in other
ways.
"""

NO_DEVICE = "No sound device was found."
SLOW_DEVICE = "The sound device does not answer."
LOST_DEVICE = "The sound device went away."


class DeviceOutput:
    """Plays through a device that a thread of its own opens, rests and replaces.

    The device is opened by `wake` or the first sound, stopped after five seconds of silence, and looked for
    again, at longer and longer intervals, where there is none or it has gone. `backends` are names of
    miniaudio's `Backend` ("NULL"); none named means every real one of this machine. `tap` is given
    everything the device is given.
    """

    def __init__(
        self,
        *,
        backends: Sequence[str] = (),
        tap: Callable[[bytes], None] | None = None,
        library: Any = None,
        rest_s: float = REST_S,
        retry_s: float = RETRY_S,
    ) -> None:
        self.rate_hz = RATE_HZ
        self._mixer = Mixer(RATE_HZ, time.monotonic, delay_s=DELAY_S, settling=_SETTLING_ASKS)
        self._backends = tuple(backends)
        self._tap = tap
        self._library = library
        self._rest_s = rest_s
        self._wake = threading.Condition()
        self._wanted = False
        self._closed = False
        self._device: Any = None
        self._running = False
        self._since_s = 0.0
        self._periods = 0
        self._suspect: int | None = None
        self._suspect_s = 0.0
        self._opening_s: float | None = None
        self._why: str | None = None
        self._retry_at_s = 0.0
        self._first_retry_s = self._retry_s = retry_s
        self._keeper = threading.Thread(target=self._keep, daemon=True, name="sound device")
        self._keeper.start()
        atexit.register(_close_at_exit, weakref.ref(self))

    def wake(self) -> None:
        self._call()

    def play(self, pcm: bytes, from_frame: int = 0) -> None:
        self._mixer.play(pcm, from_frame)
        self._call()

    def stop(self) -> int | None:
        return self._mixer.stop()

    def heard(self) -> float | None:
        return self._mixer.heard()

    def tone(self) -> None:
        self._mixer.tone()
        self._call()

    def set_volume(self, volume: float) -> None:
        self._mixer.volume = volume

    def trouble(self) -> str | None:
        now = time.monotonic()
        with self._wake:
            if self._why is not None:
                return self._why
            if self._opening_s is not None:
                return SLOW_DEVICE if now - self._opening_s > OPENING_S else None
            if not self._running or not self._is_missing(now):
                return None
            self._lose(LOST_DEVICE)
            return self._why

    def close(self) -> None:
        with self._wake:
            if self._closed:
                return
            self._closed = True
            self._wake.notify_all()
        self._mixer.stop()
        if threading.current_thread() is not self._keeper:
            self._keeper.join(_CLOSING_S)

    def _call(self) -> None:
        """Have the keeper see to it that a device runs."""
        with self._wake:
            self._wanted = True
            self._wake.notify_all()

    def _is_missing(self, now: float) -> bool:
        """Whether a running device has stopped asking for sound, seen twice with more than a period between.

        A device that has just been started may be slow to begin, so it is given some seconds; one
        glance may fall into a moment in which this whole program was held up.
        """
        asked = self._mixer.unasked_s()
        settled = self._periods >= _SETTLED_PERIODS
        silent_s = now - self._since_s if asked is None else asked
        if silent_s < (MISSING_PERIODS * PERIOD_MS / 1000 if settled else _SETTLING_S):
            self._suspect = None
            return False
        if self._suspect != self._periods:
            self._suspect, self._suspect_s = self._periods, now
            return False
        return now - self._suspect_s > 1.5 * PERIOD_MS / 1000

    def _lose(self, why: str) -> None:
        """Give the device up; letting go of one that hangs may hang too, so that is done aside."""
        device, self._device, self._running = self._device, None, False
        self._fail(why)
        self._mixer.forget_device(lost=True)
        if device is not None:
            threading.Thread(target=_let_go, args=(device,), daemon=True).start()
        self._wake.notify_all()

    def _fail(self, why: str) -> None:
        self._why = why
        self._retry_at_s = time.monotonic() + self._retry_s
        self._retry_s = min(LONGEST_RETRY_S, self._retry_s * 2)
        self._wanted = False

    def _keep(self) -> None:
        """The keeper's life: open or start the device when wanted, stop it when it has long been silent."""
        while True:
            with self._wake:
                while not self._closed and not self._has_work():
                    self._wake.wait(self._rest_s / 4 if self._running else None)
                self._wanted = False
                device, rest = self._device, self._running
                if self._closed:
                    self._device, self._running = None, False
                    break
                self._opening_s = None if rest else time.monotonic()
            try:
                if device is None:
                    device = self._open()
                if rest:
                    device.stop()
                else:
                    self._mixer.forget_device()
                    device.start(self._frames())
            except Exception as fault:
                self._settle(device, False, NO_DEVICE if _is_absence(fault) else LOST_DEVICE)
            else:
                self._settle(device, not rest, None)
        if device is not None:
            _let_go(device)

    def _has_work(self) -> bool:
        """Whether to start (wanted and not running) or to stop (running and long silent)."""
        if self._running:
            return self._mixer.silent_s() > self._rest_s
        return self._wanted and (self._why is None or time.monotonic() >= self._retry_at_s)

    def _settle(self, device: Any, running: bool, why: str | None) -> None:
        """Note how opening, starting or stopping went."""
        with self._wake:
            self._opening_s = None
            self._device, self._running = device, running
            self._since_s, self._periods, self._suspect = time.monotonic(), 0, None
            if why is not None:
                self._lose(why)
            elif running:
                self._why, self._retry_s = None, self._first_retry_s

    def _open(self) -> Any:
        library = self._library or importlib.import_module("miniaudio")
        real = [one for one in library.get_enabled_backends() if one.name not in _NO_BACKENDS]
        quieten_alsa()
        named = [library.Backend[name] for name in self._backends]
        return library.PlaybackDevice(
            output_format=library.SampleFormat.SIGNED16,
            nchannels=1,
            sample_rate=RATE_HZ,
            buffersize_msec=PERIOD_MS,
            backends=named or sorted(real, key=lambda backend: backend.value),
            app_name="moveteller",
        )

    def _frames(self) -> Generator[bytes, int, None]:
        """What the device asks for, started and waiting to be asked."""
        asked = self._asked()
        next(asked)
        return asked

    def _asked(self) -> Generator[bytes, int, None]:
        frames = yield b""
        while True:
            self._periods += 1
            sound = self._mixer.render(frames)
            if self._tap is not None:
                self._tap(sound)
            frames = yield sound


def _is_absence(fault: Exception) -> bool:
    """Whether a fault in opening means that there is no device, rather than that one broke."""
    return isinstance(fault, ImportError) or type(fault).__name__ == "MiniaudioError"


def _let_go(device: Any) -> None:
    with contextlib.suppress(Exception):
        device.close()


def _close_at_exit(output: weakref.ref[DeviceOutput]) -> None:
    """A device that still asks for sound while Python goes away would hang or crash it."""
    held = output()
    if held is not None:
        held.close()
