"""The microphone, through miniaudio: frames for the ear, from a thread of the device's own.

A microphone that is missing, refused or pulled out is told of once, in a sentence; the lesson goes on.
"""

from __future__ import annotations

import atexit
import contextlib
import importlib
import queue
import threading
from collections.abc import Generator
from typing import Any

from player.voice.alsa import quieten_alsa
from player.voice.ears.waves import FRAME_BYTES, FRAME_MS, RATE_HZ

NO_MICROPHONE = "No microphone was found, so answers are typed; the lesson goes on."
LOST_MICROPHONE = "The microphone went away, so answers are typed; the lesson goes on."
_PERIOD_MS = 30
_KEPT_FRAMES = 400


class Microphone:
    """Opened aside, since some systems take seconds, or ask the user first. `library` is miniaudio."""

    def __init__(self, *, library: Any = None, backends: tuple[str, ...] = ()) -> None:
        self._library = library
        self._backends = backends
        self._frames: queue.Queue[bytes] = queue.Queue(_KEPT_FRAMES)
        self._lock = threading.Lock()
        self._device: Any = None
        self._wanted = False
        self._trouble: str | None = None
        self._told = False

    def start(self) -> None:
        """Begin to listen; comes back at once."""
        with self._lock:
            if self._wanted or self._trouble is not None:
                return
            self._wanted = True
        threading.Thread(target=self._open, daemon=True, name="microphone").start()

    def stop(self) -> None:
        """Listen no more, and forget what was not fetched; comes back at once."""
        with self._lock:
            self._wanted = False
            device, self._device = self._device, None
        if device is not None:
            threading.Thread(target=_let_go, args=(device,), daemon=True).start()
        while not self._frames.empty():
            try:
                self._frames.get_nowait()
            except queue.Empty:
                return

    def frame(self, timeout_s: float = 1.0) -> bytes | None:
        """The next frame of `FRAME_MS`, or None where none comes in time."""
        try:
            return self._frames.get(timeout=timeout_s)
        except queue.Empty:
            return None

    def notice(self) -> str | None:
        """The sentence about a microphone that does not work, once; else None."""
        with self._lock:
            if self._trouble is None or self._told:
                return None
            self._told = True
            return self._trouble

    @property
    def works(self) -> bool:
        """Whether nothing has gone wrong with it so far."""
        return self._trouble is None

    def _open(self) -> None:
        device: Any = None
        try:
            audio: Any = self._library or importlib.import_module("miniaudio")
            more = (
                {"backends": [getattr(audio.Backend, one) for one in self._backends]}
                if self._backends
                else {}
            )
            quieten_alsa()
            device = audio.CaptureDevice(
                input_format=audio.SampleFormat.SIGNED16,
                nchannels=1,
                sample_rate=RATE_HZ,
                buffersize_msec=_PERIOD_MS,
                **more,
            )
            taking = self._take()
            next(taking)
            device.start(taking)
        except Exception:
            with self._lock:
                self._trouble, self._wanted = NO_MICROPHONE, False
            if device is not None:
                _let_go(device)
            return
        with self._lock:
            keep = self._wanted
            if keep:
                self._device = device
                atexit.register(device.close)  # else its thread keeps the program from ending
        if not keep:
            _let_go(device)

    def lost(self) -> None:
        """The frames have stopped coming: say so once."""
        self.stop()
        with self._lock:
            self._trouble = LOST_MICROPHONE

    def _take(self) -> Generator[None, bytes, None]:
        """Called by the device with each stretch of sound; cut here into frames, the oldest dropped."""
        kept = b""
        while True:
            kept += yield
            while len(kept) >= FRAME_BYTES:
                if self._frames.full():
                    with contextlib.suppress(queue.Empty):
                        self._frames.get_nowait()
                self._frames.put_nowait(kept[:FRAME_BYTES])
                kept = kept[FRAME_BYTES:]


def _let_go(device: Any) -> None:
    atexit.unregister(device.close)
    try:
        device.close()
    except Exception:
        return


__all__ = ["FRAME_MS", "LOST_MICROPHONE", "NO_MICROPHONE", "Microphone"]
