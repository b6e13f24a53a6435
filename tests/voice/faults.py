"""Everything that can go wrong between a text and the ear, each fault to be struck and mended at will."""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import signal
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from unittest import mock

from player.voice.cache import CachedVoice, SoundCache
from player.voice.device import DeviceOutput
from player.voice.output import CaptureOutput, Output
from player.voice.process import WorkerProcess
from player.voice.sound import NoSound, Sound
from player.voice.spoken import SpokenVoice
from player.voice.voice import Voice
from player.world.clock import Clock, RealClock, VirtualClock
from tests.voice.library import FakeLibrary
from tests.voice.standins import NoiseVoice, samples

ROOT = Path(__file__).resolve().parents[2]


@dataclass
class Rig:
    """What speaks, and the two hands that break and mend it; `silent` says that the learner must notice."""

    clock: Clock
    voice: Voice
    output: Output
    given: bytearray
    strike: Callable[[], object] = lambda: None
    mend: Callable[[], object] = lambda: None
    silent: bool = True
    bad_text: str = ""
    """A word that, said in a sentence, is the fault."""

    ends: list[Callable[[], object]] = field(default_factory=list)

    def loud_after(self, frame: int) -> bool:
        """Whether anything was heard from this frame of what was given to the device on."""
        return any(abs(sample) > 64 for sample in samples(self.given[2 * frame :]))

    def close(self) -> None:
        for end in self.ends:
            end()


class BreakingVoice(NoiseVoice):
    """Does whatever it is told to instead of speaking, while there is something."""

    instead: Callable[[Sound], Sound] | None = None

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        sound = super().make(spoken, speed, language)
        return sound if self.instead is None else self.instead(sound)


def _captured(voice: Voice, clock: Clock) -> Rig:
    output = CaptureOutput(clock)
    return Rig(clock, voice, output, output.captured)


# -- voices ------------------------------------------------------------------------------------------------


def _raises(fault: Exception) -> Callable[[Sound], Sound]:
    def fail(_: Sound) -> Sound:
        raise fault

    return fail


VOICE_FAULTS: dict[str, Callable[[Sound], Sound]] = {
    "says no": _raises(NoSound("The voice is broken.")),
    "fails unforeseen": _raises(ZeroDivisionError()),
    "runs out of memory": _raises(MemoryError()),
    "loses its pipe": _raises(BrokenPipeError()),
    "names a file that is gone": lambda one: Sound(
        Path("/nowhere/at/all.wav"), one.ms, one.word_ms, True, one.rate_hz
    ),
    "names a file that is no sound": lambda one: Sound(
        Path(__file__), one.ms, one.word_ms, True, one.rate_hz
    ),
}


def voice_rig(kind: str, _: Path) -> Rig:
    voice = BreakingVoice()

    def strike() -> None:
        voice.instead = VOICE_FAULTS[kind]

    def mend() -> None:
        voice.instead = None

    rig = _captured(voice, VirtualClock())
    rig.strike, rig.mend = strike, mend
    return rig


# -- devices -----------------------------------------------------------------------------------------------


class DeafOutput(CaptureOutput):
    """Takes sound, and plays none of it while it is stuck; says nothing of it."""

    stuck = False

    def heard(self) -> float | None:
        heard = super().heard()
        return None if self.stuck else heard


def unplugged_rig(_: str, __: Path) -> Rig:
    clock = VirtualClock()
    output = CaptureOutput(clock)

    def set_gone(why: str) -> None:
        output.catch_up()
        output.gone = why

    rig = Rig(clock, NoiseVoice(), output, output.captured)
    rig.strike = lambda: set_gone("The sound device went away.")
    rig.mend = lambda: set_gone("")
    return rig


def deaf_rig(_: str, __: Path) -> Rig:
    clock = VirtualClock()
    output = DeafOutput(clock)
    rig = Rig(clock, NoiseVoice(), output, output.captured)
    rig.strike = lambda: setattr(output, "stuck", True)
    rig.mend = lambda: setattr(output, "stuck", False)
    return rig


def _stop_asking(library: FakeLibrary) -> None:
    for device in library.devices:
        device.asking.clear()


def _gone(library: FakeLibrary) -> None:
    _stop_asking(library)
    library.open_fault = library.MiniaudioError("no device")


def _broken(library: FakeLibrary) -> None:
    _stop_asking(library)
    library.open_fault = OSError(errno.EIO, "broken")


def _unstartable(library: FakeLibrary) -> None:
    _stop_asking(library)
    library.start_fault = library.MiniaudioError("no start")


def _hanging(library: FakeLibrary) -> None:
    _stop_asking(library)
    library.hangs_on_close = True


DEVICE_FAULTS: dict[str, Callable[[FakeLibrary], None]] = {
    "stops asking": _stop_asking,
    "stops and is gone": _gone,
    "stops and cannot be opened again": _broken,
    "stops and cannot be started again": _unstartable,
    "stops and hangs when closed": _hanging,
}


def device_rig(kind: str, _: Path) -> Rig:
    library = FakeLibrary()
    given = bytearray()
    output = DeviceOutput(library=library, retry_s=0.1, tap=given.extend)
    rig = Rig(RealClock(), NoiseVoice(), output, given)
    rig.strike = lambda: DEVICE_FAULTS[kind](library)

    def mend() -> None:
        library.open_fault = library.start_fault = None
        library.hangs_on_close = False

    rig.mend = mend
    return rig


# -- kept sounds -------------------------------------------------------------------------------------------


def _refusing(name: str, number: int) -> mock._patch[Any]:
    return mock.patch(name, side_effect=OSError(number, os.strerror(number)))


def _each(folder: Path, change: Callable[[Path], object]) -> None:
    for path in list(folder.glob("*/*.wav")):
        with contextlib.suppress(FileNotFoundError):
            change(path)


def _cut(path: Path, size: int) -> None:
    path.write_bytes(path.read_bytes()[:size])


def _flip(path: Path, at: int) -> None:
    content = bytearray(path.read_bytes())
    content[at] ^= 0xFF
    path.write_bytes(content)


def _swap(folder: Path) -> None:
    paths = sorted(folder.glob("*/*.wav"))
    contents = [path.read_bytes() for path in paths]
    for path, content in zip(paths, contents[1:] + contents[:1], strict=True):
        path.write_bytes(content)


def _folder_instead(path: Path) -> None:
    path.unlink()
    path.mkdir()


def _link_to_nothing(path: Path) -> None:
    path.unlink()
    path.symlink_to(path.with_name("nothing"))


FILE_FAULTS: dict[str, Callable[[Path], object]] = {
    "kept sounds are removed": lambda folder: shutil.rmtree(folder, ignore_errors=True),
    "kept sounds are empty": lambda folder: _each(folder, lambda path: path.write_bytes(b"")),
    "kept sounds are cut off": lambda folder: _each(folder, lambda path: _cut(path, 2_000)),
    "kept sounds lose their last byte": lambda folder: _each(folder, lambda path: _cut(path, -1)),
    "kept sounds have a wrong length": lambda folder: _each(folder, lambda path: _flip(path, 4)),
    "kept sounds have a flipped bit": lambda folder: _each(folder, lambda path: _flip(path, 1_000)),
    "kept sounds are folders": lambda folder: _each(folder, _folder_instead),
    "kept sounds are links to nothing": lambda folder: _each(folder, _link_to_nothing),
    "kept sounds are each other's": _swap,
}

REFUSALS: dict[str, tuple[str, int]] = {
    "the disk is full": ("os.replace", errno.ENOSPC),
    "the disk is full at once": ("tempfile.mkstemp", errno.ENOSPC),
    "the disk is read-only": ("tempfile.mkstemp", errno.EROFS),
    "the disk is broken": ("os.replace", errno.EIO),
    "the quota is used up": ("os.replace", errno.EDQUOT),
}


def cache_rig(kind: str, folder: Path) -> Rig:
    """None of these may be noticed: the sound is made anew, or stays in memory."""
    rig = _captured(CachedVoice(NoiseVoice(), SoundCache(folder / "sounds")), VirtualClock())
    rig.silent = False
    if kind in FILE_FAULTS:
        rig.strike = lambda: FILE_FAULTS[kind](folder / "sounds")
        return rig
    patch = _refusing(*REFUSALS[kind])
    rig.strike, rig.mend = patch.start, patch.stop
    return rig


# -- workers -----------------------------------------------------------------------------------------------


WORKER_WORDS = ("crash", "die", "hang", "refuse", "unforeseen", "empty", "silent", "short", "mad")


def worker_rig(kind: str, _: Path) -> Rig:
    """A real process, whose engine does what the word says; or one that is killed or frozen from outside."""
    engine = {"missing": "MissingEngine", "broken": "BrokenEngine"}.get(kind, "RudeEngine")
    process = WorkerProcess(f"tests.voice.rude:{engine}", folders=[ROOT])
    voice = SpokenVoice(process, RealClock(), answer_s=1.0)
    rig = _captured(voice, RealClock())
    if kind in WORKER_WORDS:
        rig.bad_text = kind

    def send(number: int) -> None:
        if process.pid is not None:
            os.kill(process.pid, number)

    if kind == "killed":
        rig.strike, rig.silent = (lambda: send(signal.SIGKILL)), False
    elif kind == "frozen":
        rig.strike, rig.silent = (lambda: send(signal.SIGSTOP)), False
    elif kind == "no process can be started":
        patch = _refusing("subprocess.Popen", errno.EAGAIN)

        def strike() -> None:
            patch.start()
            send(signal.SIGKILL)

        rig.strike, rig.mend = strike, patch.stop
    return rig


Build = Callable[[str, Path], Rig]


def quick() -> Iterator[tuple[str, Build, str]]:
    """Faults on a virtual clock."""
    for kind in VOICE_FAULTS:
        yield f"voice {kind}", voice_rig, kind
    yield "device is unplugged", unplugged_rig, ""
    yield "device takes no sound", deaf_rig, ""
    for kind in (*FILE_FAULTS, *REFUSALS):
        yield kind, cache_rig, kind


def real() -> Iterator[tuple[str, Build, str]]:
    """Faults in real time."""
    for kind in DEVICE_FAULTS:
        yield f"device {kind}", device_rig, kind
    for kind in (*WORKER_WORDS, "killed", "frozen", "no process can be started"):
        yield f"engine {kind}", worker_rig, kind
