"""What of speaking works on this machine, found out by trying it."""

from __future__ import annotations

import importlib.util
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass

from player.voice.choose import engine_for, open_output
from player.voice.device import SLOW_DEVICE
from player.voice.output import Output
from player.voice.process import WorkerProcess
from player.voice.sound import NoSound
from player.voice.spoken import SpokenVoice
from player.world.clock import Clock

_PATIENCE_S = 3.0
_LOOK_S = 0.02
_SYSTEMS = {"darwin": "macOS", "win32": "Windows"}
_SOUND_REMEDY = (
    "Plug in or switch on a loudspeaker or headphones, see that other programs can be heard, and try again; "
    "until then the lesson is told in text."
)


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that works or does not: what it is, what was found, and what to do where it does not work."""

    subject: str
    works: bool
    found: str
    remedy: str = ""


def probe(
    clock: Clock,
    *,
    platform: str = sys.platform,
    voice: SpokenVoice | None = None,
    output: Callable[[], Output] = open_output,
) -> tuple[Fact, Fact]:
    """The voice and the sound device, each tried for real, silently; a few seconds at most."""
    voice = voice or SpokenVoice(WorkerProcess(engine_for(platform)[0]), clock)
    return _try_voice(voice, platform), _try_output(output)


def _try_voice(voice: SpokenVoice, platform: str) -> Fact:
    name = engine_for(platform)[1]
    try:
        sound = voice.make("Ready to speak.", 1.0)
        count = len(voice.voices())
    except NoSound as fault:
        return Fact("voice", False, str(fault), _voice_remedy(platform))
    finally:
        voice.close()
    times = "measures its words" if sound.measured else "has its words estimated"
    why = _why(platform)
    return Fact("voice", True, f"{name} speaks, with {count} voices, and {times}. {why}")


def _why(platform: str) -> str:
    """Why this voice is the one, and how to have another."""
    if importlib.util.find_spec("piper") is None:
        return f"It is the usual one on {_SYSTEMS.get(platform, 'Linux')}."
    return "It is the usual one; the neural voice is installed too, and --voice neural asks for it."


def _try_output(open_one: Callable[[], Output]) -> Fact:
    output = open_one()
    try:
        output.play(bytes(output.rate_hz))
        until = time.monotonic() + _PATIENCE_S
        while output.heard() is None and output.trouble() is None and time.monotonic() < until:
            time.sleep(_LOOK_S)
        trouble = output.trouble() or (SLOW_DEVICE if output.heard() is None else None)
    finally:
        output.close()
    if trouble is None:
        return Fact("sound", True, "A sound device plays.")
    return Fact("sound", False, trouble, _SOUND_REMEDY)


def _voice_remedy(platform: str) -> str:
    if platform == "darwin":
        return "Choose a spoken voice in System Settings under Accessibility, Spoken Content, and try again."
    if platform == "win32":
        return "Install a voice in Settings under Time and language, Speech, and try again."
    return "Install the package espeakng-loader, or espeak-ng for the whole system, and try again."
