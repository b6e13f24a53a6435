"""eSpeak NG, for Linux: the library that a package carries, called so that it returns only when the sound
is made.

The binding is pyttsx3's own. Its usual way of working gives back control before the sound is there; the
synchronous way does not, and tells the exact frame at which each word begins. Lives in a worker only.
"""

from __future__ import annotations

import ctypes
import importlib
import os
import re
from bisect import bisect_right
from collections.abc import Sequence
from typing import Any

from player.voice.engine import EngineFault, Made, VoiceName
from player.voice.onsets import heard_onsets
from player.wording.pace import word_times

PACE_WPM = 170
"""eSpeak's rate that this project calls speed 1; the estimates of `player.wording.pace` were fitted to it."""

_MISSING = (
    "The eSpeak NG library was not found; install the package espeakng-loader or the system's espeak-ng."
)


class EspeakEngine:
    """One per process: the library keeps its state in the process."""

    def __init__(self) -> None:
        data = _load_library()
        try:
            _espeak: Any = importlib.import_module("pyttsx3.drivers._espeak")
        except Exception as fault:
            raise EngineFault(_MISSING) from fault
        self._library = _espeak
        self._rate = _espeak.Initialize(_espeak.AUDIO_OUTPUT_SYNCHRONOUS, 0, data, 0)
        if self._rate <= 0:
            raise EngineFault("The eSpeak NG library is there, but its data is not.")
        self.version = "espeak " + _espeak.Info().decode("ascii", "replace").split()[0]
        self._pcm = bytearray()
        self._marks: list[tuple[int, int]] = []
        self._voice: tuple[str, str] | None = None
        _espeak.SetSynthCallback(self._take)

    def voices(self) -> Sequence[VoiceName]:
        return [
            VoiceName(_text(voice.name), code)
            for voice in self._library.ListVoices()
            for code in [_first_language(voice.languages)]
        ]

    def make(self, text: str, *, speed: float, voice: str, language: str) -> Made:
        self._choose(voice, language)
        self._library.SetParameter(self._library.RATE, round(PACE_WPM * speed), 0)
        self._pcm.clear()
        self._marks.clear()
        encoded = text.encode("utf-8", "replace")
        flags = self._library.CHARS_UTF8 | self._library.ENDPAUSE
        done = self._library.cSynth(
            encoded, len(encoded) + 1, 0, self._library.POS_CHARACTER, 0, flags, None, None
        )
        if done != self._library.EE_OK:
            raise EngineFault("eSpeak NG did not take the text.")
        pcm = bytes(self._pcm)
        marked = word_frames(text, self._marks, len(pcm) // 2)
        return Made(pcm, self._rate, heard_onsets(pcm, self._rate, marked))

    def _choose(self, voice: str, language: str) -> None:
        if self._voice == (voice, language):
            return
        if not (self._by_name(voice) if voice else self._by_language(language)):
            wanted = f"a voice called {voice}" if voice else f"a voice for the language {language}"
            raise EngineFault(f"eSpeak NG has not {wanted}.")
        self._voice = (voice, language)

    def _by_name(self, voice: str) -> bool:
        """By the name of a voice or the code of its language; "+f2" and the like after it vary the voice."""
        base, plus, variant = voice.partition("+")
        wanted = base.strip().casefold()
        known = [
            one.name for one in self.voices() if wanted in (one.name.casefold(), one.language.casefold())
        ]
        if not known or not re.fullmatch(r"[\w -]*", variant):
            return False
        done = self._library.SetVoiceByName((known[0] + plus + variant).encode("utf-8", "replace"))
        return bool(done == self._library.EE_OK)

    def _by_language(self, language: str) -> bool:
        spec = self._library.VOICE(None, language.encode("ascii", "replace"), None, 0, 0, 0, 0, 0, None)
        done = self._library.SetVoiceByProperties(ctypes.byref(spec))
        return bool(done == self._library.EE_OK)

    def _take(self, sound: Any, frames: int, events: Any) -> int:
        """Called by the library with each stretch of sound and the marks in it."""
        if sound and frames > 0:
            self._pcm += ctypes.string_at(sound, frames * 2)
        at = 0
        while events[at].type != self._library.EVENT_LIST_TERMINATED:
            if events[at].type == self._library.EVENT_WORD:
                self._marks.append((events[at].text_position - 1, events[at].sample))
            at += 1
        return 0


def word_frames(text: str, marks: Sequence[tuple[int, int]], frames: int) -> tuple[int, ...]:
    """The frame at which each word of `text.split()` begins, from (character, frame) marks in order of sound.

    A word may have several marks ("f3" has two): the first counts. Small words that are run together with a
    neighbour have none ("of the"): they are put between the marks around them, as far along as they would
    be by the estimate.
    """
    starts = [match.start() for match in re.finditer(r"\S+", text)]
    found: list[int | None] = [None] * len(starts)
    for character, frame in marks:
        word = bisect_right(starts, character) - 1
        if word >= 0 and found[word] is None:
            found[word] = frame
    if found and found[0] is None:
        found[0] = 0
    guess, guess_end = word_times(text) if None in found else ((), 0)
    return fill(found, guess, guess_end, frames)


def fill(found: Sequence[int | None], guess: Sequence[int], guess_end: int, frames: int) -> tuple[int, ...]:
    """Every word placed: the unknown ones between their known neighbours; never backwards, never past the
    end.
    """
    known = [index for index, frame in enumerate(found) if frame is not None]
    placed: list[int] = []
    latest = 0
    for index, exact in enumerate(found):
        if exact is None:
            before = known[bisect_right(known, index) - 1]
            after = known[bisect_right(known, index)] if index < known[-1] else None
            left, right = guess[before], guess_end if after is None else guess[after]
            begin = found[before] or 0
            end = frames if after is None else max(begin, found[after] or 0)
            exact = begin + round((end - begin) * (guess[index] - left) / (right - left))
        latest = max(latest, min(exact, frames))
        placed.append(latest)
    return tuple(placed)


def _load_library() -> bytes | None:
    """Load the library that espeakng-loader carries, where it is installed, and give the folder of its data.

    Plain loading, not for the whole process: other speech libraries in one process with a shared eSpeak
    crash.
    """
    try:
        loader: Any = importlib.import_module("espeakng_loader")
        ctypes.CDLL(loader.get_library_path())
        data = loader.get_data_path()
    except (ImportError, OSError, RuntimeError):
        return None
    os.environ["ESPEAK_DATA_PATH"] = data
    return os.fsencode(data)


def _text(value: bytes | None) -> str:
    return (value or b"").decode("utf-8", "replace")


def _first_language(value: bytes | None) -> str:
    """eSpeak gives languages as a byte of priority and a code; only the first is read here."""
    return _text(value[1:]) if value else ""
