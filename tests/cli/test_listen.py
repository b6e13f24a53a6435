"""`moveteller listen`, on clips that the program's own voice makes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from player.voice.choose import ESPEAK
from player.voice.ears.waves import at_our_rate
from player.voice.process import WorkerProcess
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock
from scripts.hearing.clips import write_wave
from tests.cli.running import moveteller

pytest.importorskip("pocketsphinx")


@pytest.fixture(scope="module")
def wav(tmp_path_factory: pytest.TempPathFactory) -> Path:
    voice = SpokenVoice(WorkerProcess(ESPEAK), RealClock(), name="en-us")
    sound = voice.make("knight to Felix three", 1.0)
    voice.close()
    path = tmp_path_factory.mktemp("clips") / "answer.wav"
    write_wave(path, at_our_rate(sound.frames(), sound.rate_hz))
    return path


def test_a_clip_is_told_as_data(tmp_path: Path, wav: Path) -> None:
    ran = moveteller(tmp_path, "listen", "--wav", str(wav), "--json")
    found = json.loads(ran.out)
    assert ran.code == 0
    assert (found["san"], found["uci"], found["command"]) == ("Nf3", "g1f3", None)
    assert found["verdict"] in ("move", "doubt")
    assert found["heard"] == "knight to felix three"
    assert 0 < found["sure"] <= 1


def test_many_clips_and_json_lines_are_answered_in_order(tmp_path: Path, wav: Path) -> None:
    silent = tmp_path / "silent.wav"
    write_wave(silent, bytes(32_000))
    ran = moveteller(tmp_path, "listen", "--wav", str(silent), "--wav", str(silent))
    assert (ran.code, ran.out) == (0, "Nothing was said.\n" * 2)
    typed = "\n".join(json.dumps({"wav": str(path), "naming": "fide"}) for path in (silent, wav, tmp_path))
    ran = moveteller(tmp_path, "listen", "-", typed=typed)
    lines = [json.loads(line) for line in ran.out.splitlines()]
    assert ran.code == 2
    assert lines[0]["verdict"] == "silence"
    assert lines[1]["uci"] == "g1f3"
    assert lines[2]["kind"] == "error"


@pytest.mark.parametrize(
    "arguments",
    [
        ["--wav", "none.wav"],
        ["--wav", "damaged.wav"],
        ["--wav", "damaged.wav", "--fen", "rubbish"],
        ["--wav", "damaged.wav", "--naming", "colours"],
        ["--wav", "damaged.wav", "--verbs", "sing"],
        [],
        ["damaged.wav"],
    ],
)
def test_bad_input_gets_a_sentence(tmp_path: Path, arguments: list[str]) -> None:
    (tmp_path / "damaged.wav").write_bytes(b"RIFF\x10\0\0\0WAVEjunk")
    ran = moveteller(tmp_path, "listen", *arguments)
    assert ran.code == 2
    assert ran.out == ""
    assert ran.err.startswith("moveteller: ")
    assert ran.err.count("\n") == 1
