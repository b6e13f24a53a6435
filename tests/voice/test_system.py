"""The engine of macOS and Windows, on stand-ins for pyttsx3 and on pyttsx3 itself with this machine's
driver.
"""

from __future__ import annotations

import io
import json
import subprocess
import sys
import threading
import time
import wave
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from player.voice.engine import EngineFault
from player.voice.system import SystemEngine
from tests.voice.standins import noise
from tests.voice.test_aiff import aiff


def wav(pcm: bytes, rate: int = 16_000, channels: int = 1) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes(pcm)
    return out.getvalue()


class FakeEngine:
    """What pyttsx3 gives on another system: queued properties, and a file when its loop runs."""

    def __init__(self, content: bytes = b"") -> None:
        self.content = content
        self.properties: dict[str, Any] = {
            "voices": [
                SimpleNamespace(id="com.voice.daniel", name="Daniel", languages=["en_GB"]),
                SimpleNamespace(id="com.voice.anna", name="Anna", languages=["de_DE"]),
                SimpleNamespace(id="com.voice.bytes", name="Old", languages=[b"\x05fr"]),
                SimpleNamespace(id="com.voice.none", name="Nameless", languages=None),
            ],
            "voice": "com.voice.daniel",
        }
        self.jobs: list[tuple[str, str]] = []
        self.delay_s = 0.0
        self.parts = 1

    def __str__(self) -> str:
        return "fake"

    def getProperty(self, name: str) -> Any:
        return self.properties[name]

    def setProperty(self, name: str, value: Any) -> None:
        self.properties[name] = value

    def save_to_file(self, text: str, name: str) -> None:
        self.jobs.append((text, name))

    def runAndWait(self) -> None:
        text, name = self.jobs[-1]
        if "nothing" in text:
            return

        def write() -> None:
            time.sleep(self.delay_s)
            with open(name, "wb") as file:
                step = len(self.content) // self.parts + 1
                for at in range(0, len(self.content), step):
                    file.write(self.content[at : at + step])
                    file.flush()
                    time.sleep(0.03 if self.parts > 1 else 0)

        if self.delay_s or self.parts > 1:
            threading.Thread(target=write).start()
        else:
            write()


def engine(fake: FakeEngine, whole_s: float = 2.0) -> SystemEngine:
    return SystemEngine(lambda: fake, whole_s=whole_s)


def test_the_file_of_macos_is_read() -> None:
    fake = FakeEngine(aiff(list(range(-400, 400)), 22_050))
    made = engine(fake).make("Hello.", speed=1.0, voice="", language="en")
    assert (made.rate_hz, len(made.pcm), made.word_frames) == (22_050, 1600, None)


def test_the_file_of_windows_is_read_whatever_its_rate() -> None:
    pytest.importorskip("miniaudio")
    sound = noise(300, rate_hz=16_000)
    made = engine(FakeEngine(wav(sound))).make("Hello.", speed=1.0, voice="", language="en")
    assert (made.rate_hz, made.pcm) == (16_000, sound)
    stereo = b"".join(sound[at : at + 2] * 2 for at in range(0, len(sound), 2))
    made = engine(FakeEngine(wav(stereo, 44_100, 2))).make("Hello.", speed=1.0, voice="", language="en")
    assert made.rate_hz == 44_100 and len(made.pcm) == len(sound)


@pytest.mark.parametrize("late", ["late", "in parts"])
def test_a_file_is_waited_for_until_it_is_whole(late: str) -> None:
    sound = noise(300, rate_hz=16_000)
    fake = FakeEngine(wav(sound))
    fake.delay_s, fake.parts = (0.3, 1) if late == "late" else (0.0, 6)
    assert engine(fake).make("Hello.", speed=1.0, voice="", language="en").pcm == sound


@pytest.mark.parametrize(
    "content",
    [b"", b"RIFF", b"garbage that is no sound at all", wav(noise(200))[:900]],
    ids=["empty", "header", "garbage", "cut"],
)
def test_an_empty_or_torn_file_is_no_sound(content: bytes) -> None:
    with pytest.raises(EngineFault, match=r"\.$"):
        engine(FakeEngine(content), 0.2).make("Hello.", speed=1.0, voice="", language="en")


def test_no_file_at_all_is_no_sound() -> None:
    with pytest.raises(EngineFault):
        engine(FakeEngine(wav(noise(200))), 0.2).make("nothing", speed=1.0, voice="", language="en")


def test_rate_and_voice_are_set_before_the_text() -> None:
    fake = FakeEngine(wav(noise(200)))
    one = engine(fake)
    one.make("Hello.", speed=2.0, voice="", language="en")
    assert fake.properties["rate"] == 340 and fake.properties["voice"] == "com.voice.daniel"
    one.make("Hallo.", speed=1.0, voice="", language="de")
    assert fake.properties["voice"] == "com.voice.anna"
    one.make("Salut.", speed=1.0, voice="old", language="en")
    assert fake.properties["voice"] == "com.voice.bytes"
    one.make("Hello.", speed=1.0, voice="com.voice.none", language="en")
    assert fake.properties["voice"] == "com.voice.none"
    for voice, language in (("nobody", "en"), ("", "pl")):
        with pytest.raises(EngineFault):
            one.make("Hello.", speed=1.0, voice=voice, language=language)
    assert [voice.language for voice in one.voices()] == ["en-gb", "de-de", "fr", ""]


def test_an_engine_that_does_not_start_is_a_sentence() -> None:
    def fail() -> Any:
        raise OSError("no speech service")

    with pytest.raises(EngineFault, match=r"^The .*\.$"):
        SystemEngine(fail)


def test_the_files_it_wrote_are_removed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    engine(FakeEngine(wav(noise(200)))).make("Hello.", speed=1.0, voice="", language="en")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="with the driver that Linux has")
def test_pyttsx3_itself_which_says_done_before_it_is() -> None:
    pytest.importorskip("espeakng_loader")
    # A process of its own: the library may be set up once in a process, and other tests set it up otherwise.
    program = (
        "import os, sys\n"
        f"sys.path.insert(0, {str(Path(__file__).resolve().parents[2])!r})\n"
        "from player.voice.espeak import _load_library\n"
        "_load_library()\n"
        "from player.voice.system import SystemEngine\n"
        "engine = SystemEngine()\n"
        "sizes = [len(engine.make(text, speed=1.0, voice='', language='en').pcm)\n"
        "         for text in ('Rook to e1.', 'The rook goes on. ' * 60, 'Check.')]\n"
        "sys.stderr.write(repr(sizes))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=60, check=False
    )
    assert done.returncode == 0, done.stderr
    first, long, last = json.loads(done.stderr)
    assert 20_000 < last < first < 100_000 < 2_000_000 < long
