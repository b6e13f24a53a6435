"""Sounds kept on disk between lessons, one file each, named after everything that shapes the sound."""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
from pathlib import Path

from player.voice.sound import Sound
from player.voice.voice import Voice
from player.voice.wav import FRAME_BYTES, DamagedSound, Wave, read_wav, wav_bytes
from player.world.files import make_folder

LIMIT_BYTES = 256 * 1024 * 1024
_PRUNED_SHARE = 0.75
_LAYOUT = 2


class SoundCache:
    """A folder of sounds. Trouble with the disk is no trouble for the lesson: a sound then stays in memory.

    Files are written beside their place and moved there whole; a damaged one is as good as none. The oldest
    are removed when all together pass `limit_bytes`.
    """

    def __init__(self, folder: Path, limit_bytes: int = LIMIT_BYTES) -> None:
        self._folder = folder
        self._limit = limit_bytes
        self._size: int | None = None

    def path(self, spoken: str, speed: float, language: str, identity: str) -> Path:
        """Where the sound of this text would be kept."""
        key = json.dumps([_LAYOUT, spoken, round(speed, 3), language, identity])
        name = hashlib.sha256(key.encode()).hexdigest()
        return self._folder / name[:2] / f"{name}.wav"

    def get(self, path: Path, words: int) -> Sound | None:
        """The sound kept there, if it is whole and has this many words."""
        try:
            wave = read_wav(path)
        except (OSError, DamagedSound):
            return None
        cues = list(wave.cues)
        if not wave.frames or len(cues) != words:
            return None
        if cues != sorted(cues) or max(cues, default=0) > wave.frames:
            return None
        with contextlib.suppress(OSError):
            os.utime(path)
        onsets = tuple(round(cue * 1000 / wave.rate_hz) for cue in wave.cues)
        ms = round(wave.frames * 1000 / wave.rate_hz)
        return Sound(path, ms, onsets, wave.measured, wave.rate_hz, wave.pcm)

    def put(self, path: Path, sound: Sound) -> Sound:
        """Keep a sound there, and the sound with its file; the very same sound where the disk would not
        take it.
        """
        frames = len(sound.pcm) // FRAME_BYTES
        cues = tuple(min(frames, round(ms * sound.rate_hz / 1000)) for ms in sound.word_ms)
        content = wav_bytes(Wave(sound.rate_hz, sound.pcm, cues, sound.measured))
        try:
            self._prune(len(content))
            _replace(path, content)
        except OSError:
            return sound
        self._size = (self._size or 0) + len(content)
        return Sound(path, sound.ms, sound.word_ms, sound.measured, sound.rate_hz, sound.pcm)

    def _prune(self, coming: int) -> None:
        """Make room by removing the sounds longest unused."""
        if self._size is not None and self._size + coming <= self._limit:
            return
        kept = []
        for path in self._folder.glob("*/*"):
            with contextlib.suppress(OSError):
                about = path.stat()
                kept.append((about.st_mtime, about.st_size, path))
        size = sum(entry[1] for entry in kept)
        if size + coming > self._limit:
            for _, bytes_, path in sorted(kept):
                if size + coming <= self._limit * _PRUNED_SHARE:
                    break
                with contextlib.suppress(OSError):
                    path.unlink()
                    size -= bytes_
        self._size = size


class CachedVoice:
    """A voice that looks among the kept sounds first."""

    def __init__(self, voice: Voice, cache: SoundCache) -> None:
        self._voice = voice
        self._cache = cache

    @property
    def identity(self) -> str:
        return self._voice.identity

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        path = self._cache.path(spoken, speed, language, self._voice.identity)
        kept = self._cache.get(path, len(spoken.split()))
        if kept is not None:
            return kept
        sound = self._voice.make(spoken, speed, language)
        return self._cache.put(path, sound) if sound.pcm else sound

    def close(self) -> None:
        self._voice.close()


def _replace(path: Path, content: bytes) -> None:
    """Put a file in its place whole. Nothing waits for the disk: a sound lost in a power cut is remade."""
    make_folder(path.parent)
    handle, name = tempfile.mkstemp(prefix=".new-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.replace(name, path)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(name)
        raise
