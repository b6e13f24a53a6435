"""The whole way with the real voice: worker, kept sounds, speaker; heard on a captured output."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from player.stage.inputs import Finished, Heard
from player.voice.cache import CachedVoice, SoundCache
from player.voice.choose import ESPEAK
from player.voice.fitting import loud_spans
from player.voice.measure import measure
from player.voice.output import RATE_HZ, CaptureOutput
from player.voice.process import WorkerProcess
from player.voice.speaking import SoundSpeaker
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock, VirtualClock
from tests.voice.standins import last_loud_ms, listen, notices, utter, where, words

pytest.importorskip("espeakng_loader")
if not sys.platform.startswith("linux"):
    pytest.skip("eSpeak NG is the voice of Linux here", allow_module_level=True)

ROOT = Path(__file__).resolve().parents[2]
LESSON = [
    "Good evening, and welcome to the reading room.",
    "White begins knight to f3, Black takes space with d5, and now a pawn moves.",
    "A bishop on the long diagonal wakes when the pawn in front of it is challenged.",
    "Castles.",
    "Queen takes h7, mate.",
]


@pytest.fixture
def worker() -> Iterator[WorkerProcess]:
    process = WorkerProcess(ESPEAK)
    yield process
    process.close()


@pytest.mark.parametrize("speed", [0.7, 1.0, 2.0])
def test_a_lesson_is_heard_word_by_word(worker: WorkerProcess, tmp_path: Path, speed: float) -> None:
    clock = VirtualClock()
    voice = CachedVoice(SpokenVoice(worker, RealClock()), SoundCache(tmp_path))
    output = CaptureOutput(clock)
    speaker = SoundSpeaker(voice, output, clock, threaded=False)
    for number, text in enumerate(LESSON):
        sound = voice.make(text, speed)
        begun = clock.now_ms()
        speaker.say(number, utter(text), speed=speed)
        events = listen(speaker, clock)
        assert notices(events) == []
        assert words(events) == list(range(1, len(text.split()) + 1))
        assert events[-1][1] == Finished(number, sound.ms)
        pcm = sound.frames()
        start = where(pcm[2 * 221 :], bytes(output.captured)[2 * (begun * RATE_HZ // 1000) :])
        assert start >= 0, "the sound was not heard whole"
        start_ms = begun + (start - 221) * 1000 / RATE_HZ
        for at, event in events[:-1]:
            assert isinstance(event, Heard)
            assert -60 <= at - (start_ms + sound.word_ms[event.word - 1]) <= 40


def test_a_pause_in_a_real_sentence_is_silent_and_goes_on_where_it_was(worker: WorkerProcess) -> None:
    clock = VirtualClock()
    voice = SpokenVoice(worker, RealClock())
    output = CaptureOutput(clock)
    speaker = SoundSpeaker(voice, output, clock, threaded=False)
    speaker.say(1, utter(LESSON[1]), speed=1.0)
    before = listen(speaker, clock, until=lambda event: isinstance(event, Heard) and event.word == 5)
    hushed_ms = clock.now_ms()
    stopped = speaker.hush()
    assert stopped is not None
    clock.sleep(3000)
    output.catch_up()
    assert last_loud_ms(output) - hushed_ms <= 150
    speaker.say(2, utter(LESSON[1]), speed=1.0, from_ms=stopped.ms)
    after = listen(speaker, clock)
    assert words(before) + words(after) == list(range(1, 16))
    # Without the pause the two halves are as long as the sentence, and have its stretches of voice.
    (whole,) = measure([utter(LESSON[1])], voice)
    silent = 3000 - (hushed_ms - round(hushed_ms, -1))
    assert abs(clock.now_ms() - silent - whole.ms) <= 100
    assert len(loud_spans(bytes(output.captured), RATE_HZ)) == 4


def test_a_worker_killed_between_sentences_is_not_noticed(worker: WorkerProcess) -> None:
    clock = VirtualClock()
    output = CaptureOutput(clock)
    speaker = SoundSpeaker(SpokenVoice(worker, RealClock()), output, clock, threaded=False)
    for number, text in enumerate(LESSON):
        speaker.say(number, utter(text), speed=1.0)
        assert notices(listen(speaker, clock)) == []
        assert worker.pid is not None
        os.kill(worker.pid, signal.SIGKILL)
        time.sleep(0.05)


def test_sound_already_kept_needs_no_new_making(worker: WorkerProcess, tmp_path: Path) -> None:
    voice = CachedVoice(SpokenVoice(worker, RealClock()), SoundCache(tmp_path))
    first = [voice.make(text, 1.0) for text in LESSON]
    begun = time.monotonic()
    again = [voice.make(text, 1.0) for text in LESSON]
    assert time.monotonic() - begun < 1
    assert first == again and all(sound.measured for sound in again)


def memory_mb(pid: int) -> float:
    pages = int(Path(f"/proc/{pid}/statm").read_text().split()[1])
    return pages * resource.getpagesize() / 1e6


def test_many_short_texts_lose_no_sound_and_no_memory(
    worker: WorkerProcess, request: pytest.FixtureRequest
) -> None:
    many = 2000 if request.config.getoption("--large") else 200
    voice = SpokenVoice(worker, RealClock())
    voice.make("Ready.", 1.0)
    pid = worker.pid
    assert pid is not None
    sizes = []
    for number in range(many):
        square = "abcdefgh"[number % 8] + str(number // 8 % 8 + 1)
        sound = voice.make(f"Knight to {square}, move {number}.", (1.0, 1.5, 0.8)[number % 3])
        assert sound.audible and sound.measured and len(sound.word_ms) == 5 and sound.ms > 700
        if number in (many // 10, many - 1):
            sizes.append((memory_mb(pid), memory_mb(os.getpid())))
    assert worker.pid == pid
    assert all(after - before < 12 for before, after in zip(*sizes, strict=True)), sizes


def test_leaving_in_the_middle_of_a_lesson_is_prompt_clean_and_leaves_no_worker(tmp_path: Path) -> None:
    program = (
        f"import sys\nsys.path.insert(0, {str(ROOT)!r})\n"
        "import time\nfrom pathlib import Path\n"
        "from player.voice.choose import open_speaker\n"
        "from player.world.clock import RealClock\n"
        "from tests.voice.standins import utter\n"
        f"speaker, sentence = open_speaker(RealClock(), Path({str(tmp_path)!r}))\n"
        "speaker.say(1, utter('A long and winding sentence about a rook.'), speed=1.0)\n"
        "speaker.ahead([utter(f'Sentence {n}.') for n in range(8)], speed=1.0)\n"
        "until = time.time() + 0.5\n"
        "while time.time() < until: speaker.poll(); time.sleep(0.01)\n"
        "print(speaker._preparer._voice._voice._process.pid)\n"
    )
    begun = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=30, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert time.monotonic() - begun < 15
    pid = int(done.stdout)
    until = time.monotonic() + 5
    while time.monotonic() < until and (Path("/proc") / str(pid)).exists():
        state = (Path("/proc") / str(pid) / "stat").read_text().rpartition(")")[2].split()[0]
        if state == "Z":
            break
        time.sleep(0.02)
    else:
        assert not (Path("/proc") / str(pid)).exists(), "the worker went on"
