"""The real device layer: on miniaudio's NULL backend, which runs in real time, and on fakes that fail."""

from __future__ import annotations

import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from player.voice.device import DeviceOutput
from player.voice.output import RATE_HZ
from tests.voice.library import FakeLibrary
from tests.voice.standins import noise, where

pytest.importorskip("miniaudio")
ROOT = Path(__file__).resolve().parents[2]


def wait_for(true: Callable[[], object], seconds: float = 5.0) -> bool:
    until = time.monotonic() + seconds
    while not true() and time.monotonic() < until:
        time.sleep(0.005)
    return bool(true())


@pytest.fixture
def tapped() -> Iterator[tuple[DeviceOutput, bytearray]]:
    heard = bytearray()
    output = DeviceOutput(backends=["NULL"], tap=heard.extend, rest_s=0.2)
    yield output, heard
    output.close()


def test_a_sound_is_given_whole_and_heard_in_real_time(tapped: tuple[DeviceOutput, bytearray]) -> None:
    output, given = tapped
    sound = noise(400)
    output.play(sound)
    assert wait_for(lambda: output.heard() is not None)
    first, first_s = output.heard() or 0.0, time.monotonic()
    time.sleep(0.2)
    second, second_s = output.heard() or 0.0, time.monotonic()
    assert abs((second - first) / RATE_HZ - (second_s - first_s)) < 0.15
    assert wait_for(lambda: (output.heard() or 0) >= len(sound) // 2)
    assert where(sound, given) >= 0
    assert output.trouble() is None


def test_stop_and_going_on_lose_nothing(tapped: tuple[DeviceOutput, bytearray]) -> None:
    output, given = tapped
    sound = noise(600)
    output.play(sound)
    assert wait_for(lambda: (output.heard() or 0) > 2000)
    stopped = output.stop()
    assert stopped is not None and output.heard() is None
    before = len(given)
    time.sleep(0.1)
    assert not any(bytes(given)[before + 2 * 441 :]), "it was not silent at once"
    output.play(sound, stopped)
    assert wait_for(lambda: (output.heard() or 0) >= len(sound) // 2)
    assert where(sound[: 2 * stopped], given) >= 0
    assert where(sound[2 * (stopped + 120) :], given) >= 0


def test_the_device_rests_in_silence_and_wakes(tapped: tuple[DeviceOutput, bytearray]) -> None:
    output, given = tapped
    output.wake()
    assert wait_for(lambda: given)
    time.sleep(0.5)
    size = len(given)
    time.sleep(0.2)
    assert len(given) == size, "it goes on asking for silence"
    output.tone()
    assert wait_for(lambda: any(given))
    time.sleep(0.5)
    output.play(noise(50))
    assert wait_for(lambda: where(noise(50), given) >= 0)


@pytest.fixture
def library() -> FakeLibrary:
    return FakeLibrary()


@pytest.fixture
def output(library: FakeLibrary) -> Iterator[DeviceOutput]:
    made = DeviceOutput(library=library, retry_s=0.1)
    yield made
    made.close()


def test_no_device_is_said_soon_and_looked_for_again(library: FakeLibrary, output: DeviceOutput) -> None:
    library.open_fault = library.MiniaudioError("failed to init device")
    output.play(noise(300))
    assert wait_for(output.trouble, 1)
    assert output.trouble() == "No sound device was found."
    for _ in range(20):
        output.play(noise(300))
    time.sleep(0.02)
    assert library.tries == 1, "it asks the system again and again"
    library.open_fault = None
    time.sleep(0.1)
    output.play(noise(300))
    assert wait_for(lambda: output.trouble() is None and output.heard(), 2)


def test_a_device_that_stops_asking_is_given_up_and_replaced(
    library: FakeLibrary, output: DeviceOutput
) -> None:
    output.play(noise(5000))
    assert wait_for(lambda: (output.heard() or 0) > 441 * 15)
    heard = output.heard() or 0
    library.devices[0].asking.clear()
    begun = time.monotonic()
    assert wait_for(output.trouble, 2)
    # Three periods of 20 ms, and a second look.
    assert time.monotonic() - begun < 1.5
    assert output.trouble() == "The sound device went away."
    stopped = output.stop()
    assert stopped is not None and 0 <= stopped - heard <= 441 * 12
    assert wait_for(lambda: library.devices[0].closed)
    time.sleep(0.1)
    output.play(noise(5000), stopped)
    assert wait_for(lambda: output.trouble() is None and (output.heard() or 0) > stopped, 2)
    assert len(library.devices) == 2


def test_a_moment_in_which_the_program_is_held_up_is_no_loss(
    library: FakeLibrary, output: DeviceOutput
) -> None:
    output.play(noise(5000))
    assert wait_for(lambda: (output.heard() or 0) > 441 * 15)
    library.devices[0].asking.clear()
    time.sleep(0.15)
    assert output.trouble() is None
    before = output.heard() or 0
    library.devices[0].asking.set()
    assert wait_for(lambda: (output.heard() or 0) > before)
    for _ in range(10):
        assert output.trouble() is None
        time.sleep(0.01)


def test_a_device_that_starts_slowly_is_given_time(library: FakeLibrary, output: DeviceOutput) -> None:
    output.wake()
    assert wait_for(lambda: library.devices)
    library.devices[0].asking.clear()
    until = time.monotonic() + 1.2
    while time.monotonic() < until:
        assert output.trouble() is None
        time.sleep(0.02)
    library.devices[0].asking.set()
    output.play(noise(300))
    assert wait_for(output.heard)


@pytest.mark.parametrize("what", ["open", "close"])
def test_a_device_that_hangs_blocks_nobody(library: FakeLibrary, output: DeviceOutput, what: str) -> None:
    if what == "open":
        library.hangs_on_open.set()
        output.play(noise(300))
        assert wait_for(lambda: library.tries)
        time.sleep(1.6)
        assert output.trouble() == "The sound device does not answer."
    else:
        output.play(noise(300))
        assert wait_for(lambda: library.devices)
        library.hangs_on_close = True
    begun = time.monotonic()
    output.play(noise(300))
    output.stop()
    output.tone()
    assert time.monotonic() - begun < 0.5
    output.close()
    assert time.monotonic() - begun < 2


def test_a_device_that_cannot_be_started_is_trouble(library: FakeLibrary, output: DeviceOutput) -> None:
    library.start_fault = library.MiniaudioError("failed to start audio device")
    output.play(noise(300))
    assert wait_for(output.trouble, 1)


def test_nothing_goes_on_after_close(library: FakeLibrary, output: DeviceOutput) -> None:
    before = threading.active_count()
    output.play(noise(300))
    assert wait_for(lambda: library.devices)
    output.close()
    assert wait_for(lambda: threading.active_count() < before)
    assert library.devices[0].closed == 1
    output.play(noise(300))
    output.close()
    assert len(library.devices) == 1


def run(program: str) -> subprocess.CompletedProcess[str]:
    lines = [f"import sys\nsys.path.insert(0, {str(ROOT)!r})", "from player.voice.device import DeviceOutput"]
    return subprocess.run(
        [sys.executable, "-c", "\n".join([*lines, program])],
        capture_output=True,
        text=True,
        timeout=20,
        check=False,
    )


def test_leaving_in_the_middle_of_a_sound_without_closing_is_clean() -> None:
    done = run("import time\no = DeviceOutput(backends=['NULL'])\no.play(bytes(400000))\ntime.sleep(0.3)")
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_looking_for_a_device_prints_nothing() -> None:
    # The system's sound library likes to complain on the terminal.
    done = run(
        "import time\no = DeviceOutput()\no.play(bytes(4000))\n"
        "until = time.time() + 3\n"
        "while o.heard() is None and o.trouble() is None and time.time() < until: time.sleep(0.01)\n"
        "o.close()"
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
