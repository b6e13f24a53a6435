"""Which voice speaks on this machine."""

from __future__ import annotations

import importlib.util
import sys
from ctypes.util import find_library
from pathlib import Path

from player.voice.cache import CachedVoice, SoundCache
from player.voice.device import DeviceOutput
from player.voice.estimate import EstimatedVoice
from player.voice.neural import ENDING, USUAL
from player.voice.output import NullOutput, Output
from player.voice.process import WorkerProcess
from player.voice.recording import RecordedVoice
from player.voice.silent import SilentSpeaker
from player.voice.sound import NoSound
from player.voice.speaker import Speaker
from player.voice.speaking import SoundSpeaker
from player.voice.spoken import SpokenVoice
from player.voice.take import Recording
from player.voice.voice import Voice
from player.world.clock import Clock

ESPEAK = "player.voice.espeak:EspeakEngine"
SYSTEM = "player.voice.system:SystemEngine"
NEURAL = "player.voice.neural:PiperEngine"

SILENT = "silent"
"""The name of the voice that only takes the time."""

NEURAL_ANSWER_S = 15.0
"""A neural voice is loaded with the first text, which takes some seconds on a slow machine."""

_NO_ENGINE = "The package pyttsx3, which speaks, is not installed, so the lesson is told in text."
_NO_ESPEAK = (
    "No voice was found, so the lesson is told in text. "
    "Install the package espeakng-loader, or espeak-ng for the whole system, to hear it."
)
_NO_PLAYER = "The package miniaudio, which plays sound, is not installed."


def open_speaker(
    clock: Clock,
    cache: Path | None,
    *,
    mute: bool = False,
    voice: str | None = None,
    volume: float = 1.0,
    platform: str = sys.platform,
    recording: Recording | None = None,
) -> tuple[Speaker, str]:
    """A speaker for this machine, and one plain sentence that says which voice speaks and why.

    Starts nothing that is slow, unless `voice` names one: whether a worker and a device really work shows
    when they are used. `cache` is a folder for sounds, made when needed; None keeps none. A silent speaker
    where `mute` asks for it or nothing here can speak. A `recording` says what is in it, the voice the rest.
    """
    if mute or voice == SILENT:
        return SilentSpeaker(clock), "The voice is switched off; the lesson is told in text."
    spoken, sentence = _spoken(clock, voice, platform)
    speaks = None if spoken is None else _cached(spoken, cache)
    if recording is not None:
        speaks = RecordedVoice(recording.path, recording.lines, speaks)
        sentence = f"The coach speaks, from the recording {recording.path.name}."
    if speaks is None:
        return SilentSpeaker(clock), sentence
    speaker = SoundSpeaker(speaks, open_output(), clock)
    speaker.set_volume(volume)
    return speaker, sentence


def open_voice(
    clock: Clock, cache: Path | None, *, voice: str | None = None, platform: str = sys.platform
) -> tuple[Voice, str]:
    """A voice to measure or record with, as `open_speaker`; the estimating one where nothing here can
    speak.
    """
    if voice == SILENT:
        return EstimatedVoice(), "No voice speaks, as you asked; the times are estimates."
    spoken, sentence = _spoken(clock, voice, platform)
    return (EstimatedVoice(), sentence) if spoken is None else (_cached(spoken, cache), sentence)


def open_output() -> Output:
    """The machine's sound device, or an output that says why there is none."""
    if _is_installed("miniaudio"):
        return DeviceOutput()
    return NullOutput(_NO_PLAYER)


def engine_for(platform: str) -> tuple[str, str]:
    """The engine that speaks on a platform (a value of `sys.platform`), and its name for people."""
    if platform == "darwin":
        return SYSTEM, "The voice of macOS"
    if platform == "win32":
        return SYSTEM, "The voice of Windows"
    return ESPEAK, "eSpeak NG"


def _spoken(clock: Clock, voice: str | None, platform: str) -> tuple[SpokenVoice | None, str]:
    if not voice or not (voice == USUAL or voice.endswith(ENDING)):
        return _of_the_system(clock, voice, platform)
    path = voice if voice == USUAL else str(Path(voice).expanduser().absolute())
    named = SpokenVoice(WorkerProcess(NEURAL), clock, name=path, answer_s=NEURAL_ANSWER_S)
    try:
        named.make("ready", 1.0)
    except NoSound as fault:
        named.close()
        other, sentence = _of_the_system(clock, None, platform)
        return other, f"{fault} {sentence}"
    which = "that comes with it" if voice == USUAL else Path(voice).name
    return named, f"Piper speaks with the voice {which}, as you asked."


def _of_the_system(clock: Clock, voice: str | None, platform: str) -> tuple[SpokenVoice | None, str]:
    if not _is_installed("pyttsx3"):
        return None, _NO_ENGINE
    engine, name = engine_for(platform)
    if engine == ESPEAK and not _has_espeak():
        return None, _NO_ESPEAK
    if not voice:
        return _voice(engine, clock), f"{name} speaks, since no other voice was asked for."
    named = _voice(engine, clock, voice)
    try:
        named.make("ready", 1.0)
    except NoSound as fault:
        named.close()
        return _voice(engine, clock), f"{fault} Its usual voice speaks instead."
    return named, f"{name} speaks with the voice {voice}, as you asked."


def _voice(engine: str, clock: Clock, name: str = "") -> SpokenVoice:
    return SpokenVoice(WorkerProcess(engine), clock, name=name)


def _cached(voice: Voice, folder: Path | None) -> Voice:
    return voice if folder is None else CachedVoice(voice, SoundCache(folder))


def _has_espeak() -> bool:
    """Whether the library is there, as a package or on the system, without loading it."""
    return _is_installed("espeakng_loader") or any(map(find_library, ("espeak-ng", "espeak")))


def _is_installed(package: str) -> bool:
    return importlib.util.find_spec(package) is not None
