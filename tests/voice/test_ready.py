from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from player.voice.output import CaptureOutput, NullOutput, Output
from player.voice.process import WorkerProcess
from player.voice.ready import probe
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock

ROOT = Path(__file__).resolve().parents[2]


def rude(engine: str) -> SpokenVoice:
    return SpokenVoice(WorkerProcess(f"tests.voice.rude:{engine}", folders=[ROOT]), RealClock())


def test_what_works_is_said_without_a_remedy() -> None:
    voice, sound = probe(RealClock(), voice=rude("RudeEngine"), output=lambda: CaptureOutput(RealClock()))
    assert (voice.works, sound.works) == (True, True)
    assert voice.found.endswith(".") and sound.found.endswith(".")
    assert (voice.remedy, sound.remedy) == ("", "")


@pytest.mark.parametrize("platform", ["linux", "darwin", "win32"])
def test_what_is_missing_is_said_with_a_remedy(platform: str) -> None:
    voice, sound = probe(RealClock(), platform=platform, voice=rude("MissingEngine"), output=NullOutput)
    assert (voice.works, sound.works) == (False, False)
    assert "not installed" in voice.found and voice.remedy.endswith(".")
    assert sound.found == "There is no sound on this machine." and sound.remedy.endswith(".")


class Deaf(CaptureOutput):
    def heard(self) -> float | None:
        return None


def test_a_device_that_does_not_answer_is_no_device(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("player.voice.ready._PATIENCE_S", 0.1)
    closed: list[Any] = []

    class Closing(Deaf):
        def close(self) -> None:
            closed.append(self)

    def open_one() -> Output:
        return Closing(RealClock())

    _, sound = probe(RealClock(), voice=rude("RudeEngine"), output=open_one)
    assert not sound.works and "answer" in sound.found and len(closed) == 1
