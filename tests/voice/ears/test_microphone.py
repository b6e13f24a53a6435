"""The microphone with a library that stands in for miniaudio."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Generator
from types import SimpleNamespace
from typing import Any

from player.voice.ears.ear import Ear
from player.voice.ears.heard import Heard, Listening, Verdict
from player.voice.ears.microphone import LOST_MICROPHONE, NO_MICROPHONE, Microphone
from player.voice.ears.waves import FRAME_BYTES
from player.voice.ears.worker import Worker

PATIENCE_S = 5.0


class Device:
    """Gives one second of sound, in odd pieces, as soon as it is started."""

    def __init__(self, **wanted: Any) -> None:
        self.closed = False

    def start(self, taking: Generator[None, bytes, None]) -> None:
        for _ in range(32):
            taking.send(b"s" * 1000)

    def close(self) -> None:
        self.closed = True


def library(device: Any = Device) -> Any:
    return SimpleNamespace(CaptureDevice=device, SampleFormat=SimpleNamespace(SIGNED16=2), Backend=None)


def refuse(**wanted: Any) -> Any:
    raise OSError("denied")


def until(wanted: Any) -> Any:
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
        if (found := wanted()) is not None:
            return found
        time.sleep(0.005)
    raise AssertionError("it did not come")


def test_frames_are_cut_from_whatever_the_device_gives() -> None:
    microphone = Microphone(library=library())
    microphone.start()
    frames = [microphone.frame() for _ in range(32 * 1000 // FRAME_BYTES)]
    assert all(frame is not None and len(frame) == FRAME_BYTES for frame in frames)
    assert microphone.notice() is None
    microphone.stop()
    assert microphone.frame(0.01) is None


def test_a_microphone_that_is_refused_is_told_of_once() -> None:
    microphone = Microphone(library=library(refuse))
    microphone.start()
    assert until(microphone.notice) == NO_MICROPHONE
    assert microphone.notice() is None
    assert not microphone.works
    microphone.start()
    assert microphone.frame(0.01) is None


def test_a_microphone_that_goes_away_is_told_of_once() -> None:
    microphone = Microphone(library=library())
    microphone.start()
    assert microphone.frame() is not None
    microphone.lost()
    assert [microphone.notice(), microphone.notice()] == [LOST_MICROPHONE, None]


class Script:
    """Frames that say one thing and then nothing."""

    def __init__(self) -> None:
        self.left = [b"."] * 5 + [b"s"] * 10 + [b"."] * 30

    def frame(self, timeout_s: float = 1.0) -> bytes | None:
        if self.left:
            return self.left.pop(0)
        time.sleep(0.01)
        return None


class Always:
    def __init__(self, verdict: Verdict) -> None:
        self.verdict = verdict

    def judge(self, pcm: bytes, listen: Listening) -> Verdict:
        return self.verdict


def test_a_program_that_still_listens_can_end() -> None:
    """With miniaudio's own null backend, whose microphone gives silence."""
    text = """if True:
        from player.voice.ears.microphone import Microphone
        listening = Microphone(backends=("NULL",))
        listening.start()
        print(listening.frame(10) is not None)
    """
    command = [sys.executable, "-c", text]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=30, check=False)
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "True\n", "")


def test_a_worker_reports_what_was_said_and_keeps_nobody_waiting() -> None:
    ear = Ear(lambda frame: frame == b"s", headphones=True)
    heard = Heard("hold", ("hold",), 0.9)
    worker = Worker(Script(), ear, lambda: Always(heard), Listening(()))
    assert until(worker.poll) == heard
    worker.close()


def test_a_worker_without_ears_says_why() -> None:
    def none() -> Always:
        raise RuntimeError("There are no ears here.")

    worker = Worker(Script(), Ear(lambda frame: False), none, Listening(()))
    assert until(lambda: worker.trouble) == "There are no ears here."
    worker.close()
