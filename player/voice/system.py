"""The voice of macOS or Windows, through pyttsx3's engine. Lives in a worker only.

The engine is trusted with nothing but writing one file at a time: the file is read until it is whole, and the
beginnings of the words are left to be fitted, since neither system tells them for a file.
"""

from __future__ import annotations

import contextlib
import importlib
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from player.voice.aiff import parse_aiff
from player.voice.engine import EngineFault, Made, VoiceName
from player.voice.wav import FRAME_BYTES, DamagedSound, Wave

PACE_WPM = 170
WHOLE_S = 3.0
"""How long a file may take to be whole after the engine has said that it is done."""

_LOOK_S = 0.02
_COMMON_RATE_HZ = 22_050


def _pyttsx3() -> Any:
    return importlib.import_module("pyttsx3").init()


class SystemEngine:
    """One pyttsx3 engine, kept for the life of the process: a second one silences the first."""

    def __init__(self, start: Callable[[], Any] = _pyttsx3, *, whole_s: float = WHOLE_S) -> None:
        try:
            self._engine = start()
            known = self._engine.getProperty("voices")
        except Exception as fault:
            raise EngineFault("The system's own voice could not be started.") from fault
        self.version = f"system {self._engine}"
        self._usual = str(self._engine.getProperty("voice") or "")
        self._known = {str(voice.id): VoiceName(str(voice.name), _language(voice)) for voice in known}
        self._whole_s = whole_s
        self._chosen = ""

    def voices(self) -> Sequence[VoiceName]:
        return list(self._known.values())

    def make(self, text: str, *, speed: float, voice: str, language: str) -> Made:
        chosen = self._find(voice, language)
        if chosen and chosen != self._chosen:
            self._engine.setProperty("voice", chosen)
            self._chosen = chosen
        self._engine.setProperty("rate", round(PACE_WPM * speed))
        with tempfile.TemporaryDirectory(prefix="voice-") as folder:
            file = Path(folder) / "said.aiff"
            try:
                self._engine.save_to_file(text, str(file))
                self._engine.runAndWait()
            except Exception as fault:
                raise EngineFault("The system's own voice did not take the text.") from fault
            wave = self._whole(file)
        return Made(wave.pcm, wave.rate_hz, None)

    def _find(self, voice: str, language: str) -> str:
        """The identifier of a voice by name, identifier or language; of the usual one where that will do."""
        wanted = voice.casefold()
        for identifier, known in self._known.items():
            if wanted and wanted in (identifier.casefold(), known.name.casefold(), known.language.casefold()):
                return identifier
        if voice:
            raise EngineFault(f"This system has no voice called {voice}.")
        usual = self._known.get(self._usual)
        if usual is None or not usual.language or _same(usual.language, language):
            return self._usual
        for identifier, known in self._known.items():
            if _same(known.language, language):
                return identifier
        raise EngineFault(f"This system has no voice for the language {language}.")

    def _whole(self, file: Path) -> Wave:
        """The file's sound once two looks in a row find it whole and the same."""
        last: Wave | None = None
        until = time.monotonic() + self._whole_s
        while True:
            wave = None
            with contextlib.suppress(OSError, DamagedSound):
                wave = _decode(file.read_bytes())
            if wave is not None and wave == last:
                return wave
            last = wave
            if time.monotonic() > until:
                raise EngineFault("The system's own voice wrote no whole sound.")
            time.sleep(_LOOK_S)


def _decode(content: bytes) -> Wave:
    """Whatever the system wrote, as one channel of 16-bit sound. DamagedSound where it is nothing whole."""
    if content[:4] == b"FORM":
        return parse_aiff(content)
    if int.from_bytes(content[4:8], "little") > len(content) - 8:
        raise DamagedSound("the file is still growing")
    miniaudio: Any = importlib.import_module("miniaudio")
    try:
        rate = miniaudio.wav_get_info(content).sample_rate
        decoded = miniaudio.decode(content, miniaudio.SampleFormat.SIGNED16, 1, rate)
    except miniaudio.MiniaudioError as fault:
        raise DamagedSound("not a sound file") from fault
    pcm = decoded.samples.tobytes()
    if len(pcm) < FRAME_BYTES:
        raise DamagedSound("no sound in the file")
    return Wave(rate or _COMMON_RATE_HZ, pcm)


def _language(voice: Any) -> str:
    """The code of a voice's language ("en-gb"); systems give a list of text or bytes, or nothing."""
    for language in getattr(voice, "languages", None) or []:
        text = language.decode("ascii", "ignore") if isinstance(language, bytes) else str(language)
        return text.strip("\x05").replace("_", "-").casefold()
    return ""


def _same(one: str, other: str) -> bool:
    return one.partition("-")[0].casefold() == other.partition("-")[0].casefold()
