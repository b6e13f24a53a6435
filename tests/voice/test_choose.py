from __future__ import annotations

import importlib.util
from importlib.machinery import ModuleSpec
from pathlib import Path

import pytest

from player.stage.inputs import Finished
from player.voice import choose
from player.voice.choose import open_output, open_speaker, open_voice
from player.voice.estimate import EstimatedVoice
from player.voice.output import NullOutput
from player.voice.silent import SilentSpeaker
from player.voice.speaking import SoundSpeaker
from player.world.clock import VirtualClock
from tests.voice.standins import listen, utter


def hide(monkeypatch: pytest.MonkeyPatch, *packages: str) -> None:
    """Make packages look as if they were not installed."""
    real = importlib.util.find_spec

    def find(name: str, package: str | None = None) -> ModuleSpec | None:
        return None if name in packages else real(name, package)

    monkeypatch.setattr(importlib.util, "find_spec", find)


def is_plain(text: str) -> bool:
    """One or two sentences, as a learner may read them."""
    return text.endswith(".") and text.count(". ") < 2 and (text[0].isupper() or text.startswith("eSpeak"))


def test_mute_is_silent_and_starts_nothing() -> None:
    speaker, sentence = open_speaker(VirtualClock(), None, mute=True, voice="anyone")
    assert isinstance(speaker, SilentSpeaker)
    assert "switched off" in sentence


@pytest.mark.parametrize(
    ("hidden", "named"), [(["pyttsx3"], "pyttsx3"), (["espeakng_loader"], "espeakng-loader")]
)
def test_where_nothing_can_speak_the_lesson_is_told_in_text(
    monkeypatch: pytest.MonkeyPatch, hidden: list[str], named: str
) -> None:
    hide(monkeypatch, *hidden)
    monkeypatch.setattr(choose, "find_library", lambda name: None)
    speaker, sentence = open_speaker(VirtualClock(), None, platform="linux")
    assert isinstance(speaker, SilentSpeaker)
    assert named in sentence and is_plain(sentence)
    voice, sentence = open_voice(VirtualClock(), None, platform="linux")
    assert isinstance(voice, EstimatedVoice) and named in sentence


def test_an_espeak_of_the_system_is_as_good(monkeypatch: pytest.MonkeyPatch) -> None:
    hide(monkeypatch, "espeakng_loader")
    monkeypatch.setattr(choose, "find_library", {"espeak-ng": "libespeak-ng.so.1"}.get)
    speaker, sentence = open_speaker(VirtualClock(), None, platform="linux")
    speaker.close()
    assert isinstance(speaker, SoundSpeaker) and "eSpeak NG" in sentence


@pytest.mark.parametrize(
    ("platform", "name"),
    [("linux", "eSpeak NG"), ("darwin", "The voice of macOS"), ("win32", "The voice of Windows")],
)
def test_each_system_has_its_voice(platform: str, name: str, tmp_path: Path) -> None:
    speaker, sentence = open_speaker(VirtualClock(), tmp_path, platform=platform)
    speaker.close()
    assert isinstance(speaker, SoundSpeaker)
    assert sentence.startswith(name) and is_plain(sentence)


def test_without_the_package_that_plays_there_is_one_notice_and_the_telling(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    hide(monkeypatch, "miniaudio")
    output = open_output()
    assert isinstance(output, NullOutput) and "miniaudio" in (output.trouble() or "")


def test_a_voice_by_name_is_tried_before_it_is_promised() -> None:
    pytest.importorskip("espeakng_loader")
    speaker, sentence = open_speaker(VirtualClock(), None, voice="en-us", platform="linux")
    speaker.close()
    assert "en-us" in sentence and "asked" in sentence
    speaker, sentence = open_speaker(VirtualClock(), None, voice="nobody at all", platform="linux")
    speaker.close()
    assert "nobody at all" in sentence and "instead" in sentence and is_plain(sentence)


def test_the_system_voice_missing_here_still_tells_the_lesson() -> None:
    # macOS's engine cannot start on this machine, nor need it: text goes on, with one notice.
    clock = VirtualClock()
    speaker, _ = open_speaker(clock, None, platform="darwin")
    try:
        speaker.say(1, utter("Rook to e1."), speed=1.0)
        assert isinstance(listen(speaker, clock)[-1][1], Finished)
    finally:
        speaker.close()


def test_silent_is_the_name_of_a_voice_that_only_takes_the_time() -> None:
    speaker, sentence = open_speaker(VirtualClock(), None, voice="silent")
    assert isinstance(speaker, SilentSpeaker)
    assert "switched off" in sentence
    voice, sentence = open_voice(VirtualClock(), None, voice="silent")
    assert isinstance(voice, EstimatedVoice)
    assert "as you asked" in sentence
