"""The voice: what it costs over the bare synthesiser, and how soon it begins and stops.

.venv/bin/python scripts/bench_voice.py

The cost is a ratio of two things done in turn; the rest is in real time, on a device that goes nowhere.
"""

# ruff: noqa: E402 (the checkout comes before any installed copy)
from __future__ import annotations

import statistics
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from player.cues.compile import compile_lesson
from player.script.follow import follow
from player.script.read import read
from player.voice.cache import CachedVoice, SoundCache
from player.voice.choose import ESPEAK
from player.voice.device import DeviceOutput
from player.voice.espeak import EspeakEngine
from player.voice.process import WorkerProcess
from player.voice.speaking import SoundSpeaker
from player.voice.spoken import SpokenVoice
from player.wording.utterance import Utterance
from player.world.clock import RealClock

LESSON = ROOT / "demo_lessons" / "1-the-set-up.lesson"
ROUNDS = 5
MOST_RATIO, MOST_WARM_MS, MOST_COLD_MS, MOST_HUSH_MS = 1.15, 500, 1500, 150


def said() -> list[Utterance]:
    """All that is said in a lesson."""
    sheet = compile_lesson(follow(read(LESSON.read_text(encoding="utf-8"))[0])[0])
    return [step.say for step in sheet.steps if step.say is not None and step.say.spoken]


def bare_s(engine: EspeakEngine, texts: list[Utterance]) -> float:
    """The library alone, in this process: no word times, no checks, no other process."""
    library = engine._library
    begun = time.perf_counter()
    for text in texts:
        encoded = text.spoken.encode()
        flags = library.CHARS_UTF8 | library.ENDPAUSE
        library.cSynth(encoded, len(encoded) + 1, 0, library.POS_CHARACTER, 0, flags, None, None)
    return time.perf_counter() - begun


def ours_s(voice: SpokenVoice, texts: list[Utterance]) -> float:
    """The voice as a lesson uses it."""
    begun = time.perf_counter()
    for text in texts:
        voice.make(text.spoken, 1.0, text.language)
    return time.perf_counter() - begun


def ratio(texts: list[Utterance]) -> float:
    """How many times as long our rendering takes as the bare one; the median of some rounds."""
    engine = EspeakEngine()
    engine.make("ready", speed=1.0, voice="", language="en")
    voice = SpokenVoice(WorkerProcess(ESPEAK), RealClock())
    voice.make("ready", 1.0)
    rounds = [ours_s(voice, texts) / bare_s(engine, texts) for _ in range(ROUNDS)]
    voice.close()
    return statistics.median(rounds)


def start_and_stop_ms(folder: Path, text: Utterance) -> tuple[float, float]:
    """From `say` to the first sound given to the device, and from `hush` to the last."""
    last_s, first_s = 0.0, 0.0

    def tap(pcm: bytes) -> None:
        nonlocal last_s, first_s
        if any(pcm):
            last_s = time.monotonic()
            first_s = first_s or last_s

    begun = time.monotonic()
    voice = CachedVoice(SpokenVoice(WorkerProcess(ESPEAK), RealClock()), SoundCache(folder))
    speaker = SoundSpeaker(voice, DeviceOutput(backends=["NULL"], tap=tap), RealClock())
    speaker.say(1, text, speed=1.0)
    while not first_s and time.monotonic() - begun < 10:
        speaker.poll()
        time.sleep(0.002)
    time.sleep(0.25)  # in the middle of a word
    speaker.poll()
    hushed = time.monotonic()
    speaker.hush()
    time.sleep(0.4)
    speaker.close()
    return (first_s - begun) * 1000, max(0.0, last_s - hushed) * 1000


def main() -> int:
    """Print the figures; 1 where one is out of its bounds."""
    texts = said()
    cost = ratio(texts)
    long = max(texts, key=lambda text: len(text.spoken))
    cold, warm, stop = [], [], []
    for _ in range(ROUNDS):
        with tempfile.TemporaryDirectory() as folder:
            begun, ended = start_and_stop_ms(Path(folder), long)
            again, ended_again = start_and_stop_ms(Path(folder), long)
        cold.append(begun)
        warm.append(again)
        stop += [ended, ended_again]
    lines = [
        (f"rendering {len(texts)} sentences, times the bare synthesiser", cost, MOST_RATIO, "x"),
        ("from play to sound, nothing kept", statistics.median(cold), MOST_COLD_MS, " ms"),
        ("from play to sound, the sentence kept", statistics.median(warm), MOST_WARM_MS, " ms"),
        ("from key to silence", max(stop), MOST_HUSH_MS, " ms"),
    ]
    for what, found, most, unit in lines:
        print(f"{what}: {found:.2f}{unit} (at most {most}{unit})")
    return int(any(found > most for _, found, most, _ in lines))


if __name__ == "__main__":
    sys.exit(main())
