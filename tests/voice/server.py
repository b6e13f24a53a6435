"""A PulseAudio server with a null sink, and a recording of its monitor: what is heard, in real time."""

from __future__ import annotations

import os
import shutil
import subprocess
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

IS_HERE = all(map(shutil.which, ("pulseaudio", "parec")))
SKIP = "PulseAudio is not installed, so nothing can be recorded of what is heard"


class Server:
    """A sound server of our own, with a sink that goes nowhere."""

    def __init__(self, folder: Path, rate_hz: int) -> None:
        self.rate_hz = rate_hz
        folder.chmod(0o700)
        self.env = {**os.environ, "XDG_RUNTIME_DIR": str(folder), "HOME": str(folder)}
        sink = f"module-null-sink sink_name=test channels=1 rate={rate_hz}"
        self.process = subprocess.Popen(
            ["pulseaudio", "-n", "--exit-idle-time=-1", "-L", "module-native-protocol-unix", "-L", sink],
            env=self.env,
            stderr=subprocess.DEVNULL,
        )
        until = time.monotonic() + 10
        while not (folder / "pulse" / "native").exists() and time.monotonic() < until:
            time.sleep(0.02)
        self.heard = bytearray()
        self.begun_s: list[float] = []
        self.recorder = subprocess.Popen(
            ["parec", "-d", "test.monitor", "--channels=1", f"--rate={rate_hz}", "--latency-msec=5"],
            env=self.env,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            bufsize=0,
        )
        threading.Thread(target=self._listen, daemon=True).start()
        while not self.begun_s and time.monotonic() < until:
            time.sleep(0.02)

    def _listen(self) -> None:
        assert self.recorder.stdout is not None
        while more := os.read(self.recorder.stdout.fileno(), 65_536):
            self.heard += more
            self.begun_s.append(time.monotonic() - len(self.heard) / 2 / self.rate_hz)

    def at_s(self, frame: int) -> float:
        """When a frame of the recording was heard, by the monotonic clock."""
        return min(self.begun_s) + frame / self.rate_hz

    def close(self) -> None:
        for process in (self.recorder, self.process):
            process.kill()
            process.wait()


def serve(folder: Path, patch: pytest.MonkeyPatch, rate_hz: int) -> Iterator[Server]:
    """A server that this process and its libraries find, until the test is over."""
    made = Server(folder, rate_hz)
    for name in ("XDG_RUNTIME_DIR", "HOME"):
        patch.setenv(name, str(folder))
    yield made
    made.close()
