"""A sound library whose devices fail in every way that real ones do."""

from __future__ import annotations

import threading
import time
from collections.abc import Generator
from enum import Enum
from typing import Any


class FakeDevice:
    """Asks for sound from a thread of its own, until it is told to misbehave."""

    def __init__(self, library: FakeLibrary) -> None:
        self.library = library
        self.asking = threading.Event()
        self.ended = threading.Event()
        self.closed = 0

    def start(self, frames: Generator[bytes, int, None]) -> None:
        if self.library.start_fault:
            raise self.library.start_fault

        def ask() -> None:
            while not self.ended.wait(0.02):
                if self.asking.is_set():
                    frames.send(441)

        self.asking.set()
        self.ended.clear()
        threading.Thread(target=ask, daemon=True).start()

    def stop(self) -> None:
        self.ended.set()

    def close(self) -> None:
        self.closed += 1
        self.ended.set()
        if self.library.hangs_on_close:
            time.sleep(30)


class FakeLibrary:
    """In place of miniaudio."""

    class MiniaudioError(Exception):
        pass

    class Backend(Enum):
        ALSA = 1
        NULL = 2

    class SampleFormat(Enum):
        SIGNED16 = 1

    def __init__(self) -> None:
        self.open_fault: Exception | None = None
        self.start_fault: Exception | None = None
        self.hangs_on_close = False
        self.hangs_on_open = threading.Event()
        self.devices: list[FakeDevice] = []
        self.tries = 0

    def get_enabled_backends(self) -> set[Any]:
        return set(self.Backend)

    def PlaybackDevice(self, **options: Any) -> FakeDevice:
        assert options["backends"] == [self.Backend.ALSA], "a backend that only pretends was asked for"
        self.tries += 1
        if self.hangs_on_open.is_set():
            time.sleep(30)
        if self.open_fault:
            raise self.open_fault
        self.devices.append(FakeDevice(self))
        return self.devices[-1]
