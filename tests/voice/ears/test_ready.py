"""What `ready` says of microphone and recogniser."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from player.voice.ears.microphone import Microphone
from player.voice.ears.ready import probe
from player.voice.ears.waves import FRAME_BYTES


class Device:
    """A microphone made up: gives `frames` frames of sound as soon as it is started."""

    frames = 3

    def __init__(self, **_: Any) -> None:
        pass

    def start(self, taking: Any) -> None:
        for _ in range(self.frames):
            taking.send(b"\1" * FRAME_BYTES)

    def close(self) -> None:
        pass


class Silent(Device):
    frames = 0


class Refused(Device):
    def start(self, taking: Any) -> None:
        raise RuntimeError("not allowed")


def library(device: type[Device]) -> Any:
    return SimpleNamespace(CaptureDevice=device, SampleFormat=SimpleNamespace(SIGNED16=1))


@pytest.mark.parametrize(
    ("device", "works", "told"),
    [(Device, True, "can be heard"), (Silent, False, "No sound comes"), (Refused, False, "not allowed")],
)
def test_the_microphone_is_tried(device: type[Device], works: bool, told: str) -> None:
    found, _ = probe(lambda: Microphone(library=library(device)))
    assert found[:2] == ("microphone", works) and told in found[2]
    assert bool(found[3]) is not works


def test_the_recogniser_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("pocketsphinx")
    assert probe(lambda: Microphone(library=library(Device)))[1][:2] == ("ears", True)
    from player.voice.ears.recogniser import NoEars

    def none() -> None:
        raise NoEars("It is not installed.")

    monkeypatch.setattr("player.voice.ears.ready.open_ears", none)
    _, ears = probe(lambda: Microphone(library=library(Device)))
    assert ears[1] is False and ears[3]
