from __future__ import annotations

import errno
import os
import threading
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.cache import CachedVoice, SoundCache
from player.voice.sound import NoSound, Sound
from player.voice.wav import wav_bytes
from tests.voice.standins import NoiseVoice, noise

SENTENCE = "Rook to e1, check."


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "not" / "there" / "yet"


def kept(folder: Path) -> list[Path]:
    return sorted(folder.glob("*/*"))


def test_a_text_is_made_once_and_comes_back_the_same(folder: Path) -> None:
    inner = NoiseVoice()
    voice = CachedVoice(inner, SoundCache(folder))
    first = voice.make(SENTENCE, 1.0)
    again = CachedVoice(inner, SoundCache(folder)).make(SENTENCE, 1.0)
    assert inner.asked == [SENTENCE]
    assert again == first and again.file == kept(folder)[0]
    assert again.frames() == first.frames() and len(again.frames()) > 10_000
    assert (again.word_ms, again.ms, again.measured) == (first.word_ms, first.ms, True)


def test_whatever_shapes_the_sound_is_in_its_name(folder: Path) -> None:
    cache = SoundCache(folder)
    paths = {
        cache.path(*about)
        for about in [
            (SENTENCE, 1.0, "en", "a 1"),
            (SENTENCE + " ", 1.0, "en", "a 1"),
            (SENTENCE, 1.1, "en", "a 1"),
            (SENTENCE, 1.0, "de", "a 1"),
            (SENTENCE, 1.0, "en", "a 2"),
            ("../../" + SENTENCE, 1.0, "en", "a 1"),
        ]
    }
    assert len(paths) == 6
    assert all(path.parent.parent == folder for path in paths)


@given(st.integers(0, 10_000), st.binary(min_size=1, max_size=40))
def test_a_damaged_file_is_made_anew(tmp_path_factory: pytest.TempPathFactory, at: int, junk: bytes) -> None:
    folder = tmp_path_factory.mktemp("cache")
    inner = NoiseVoice()
    voice = CachedVoice(inner, SoundCache(folder))
    whole = voice.make(SENTENCE, 1.0)
    path = kept(folder)[0]
    content = path.read_bytes()
    at = at % len(content)
    damaged = content[:at] + junk + content[at + len(junk) :]
    path.write_bytes(damaged)
    again = voice.make(SENTENCE, 1.0)
    assert again == whole and again.frames() == whole.frames()
    # A byte of a field that nobody reads may differ; one of the sound may not.
    if damaged != content and at >= len(content) - len(whole.frames()):
        assert len(inner.asked) == 2 and path.read_bytes() == content


@pytest.mark.parametrize("share", [0.0, 0.001, 0.5, 0.999])
def test_a_cut_or_empty_file_is_made_anew(folder: Path, share: float) -> None:
    inner = NoiseVoice()
    voice = CachedVoice(inner, SoundCache(folder))
    whole = voice.make(SENTENCE, 1.0)
    path = kept(folder)[0]
    content = path.read_bytes()
    path.write_bytes(content[: int(len(content) * share)])
    assert voice.make(SENTENCE, 1.0).frames() == whole.frames()
    assert len(inner.asked) == 2 and path.read_bytes() == content


def test_a_file_with_other_words_is_not_believed(folder: Path) -> None:
    inner = NoiseVoice()
    cache = SoundCache(folder)
    voice = CachedVoice(inner, cache)
    voice.make("One word more than that.", 1.0)
    strange = kept(folder)[0]
    path = cache.path(SENTENCE, 1.0, "en", inner.identity)
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(strange.read_bytes())
    assert len(voice.make(SENTENCE, 1.0).word_ms) == 4
    assert inner.asked[-1] == SENTENCE


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EIO])
def test_a_full_or_broken_disk_costs_nothing_but_the_keeping(
    folder: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    def refuse(*_: Any, **__: Any) -> None:
        raise OSError(number, os.strerror(number))

    inner = NoiseVoice()
    voice = CachedVoice(inner, SoundCache(folder))
    voice.make("Before it was full.", 1.0)
    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", refuse)
        sound = voice.make(SENTENCE, 1.0)
    assert sound.file is None and sound.audible and len(sound.frames()) > 10_000
    assert len(kept(folder)) == 1, "a half-written file was left"
    assert voice.make(SENTENCE, 1.0).file is not None


def test_a_folder_that_cannot_be_made_costs_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    sound = CachedVoice(NoiseVoice(), SoundCache(tmp_path / "file" / "cache")).make(SENTENCE, 1.0)
    assert sound.file is None and sound.audible


def test_the_longest_unused_sounds_go_when_there_are_too_many(folder: Path) -> None:
    one = len(wav_bytes_of(NoiseVoice().make("Text number 10.", 1.0)))
    voice = CachedVoice(NoiseVoice(), SoundCache(folder, limit_bytes=one * 11))
    for number in range(10, 20):
        file = voice.make(f"Text number {number}.", 1.0).file
        assert file is not None
        os.utime(file, (number, number))
    assert len(kept(folder)) == 10
    voice.make("Text number 10.", 1.0)
    for number in range(20, 24):
        voice.make(f"Text number {number}.", 1.0)
    assert sum(path.stat().st_size for path in kept(folder)) <= one * 11
    inner = NoiseVoice()
    CachedVoice(inner, SoundCache(folder)).make("Text number 10.", 1.0)
    assert inner.asked == [], "what was used last was thrown away"


def wav_bytes_of(sound: Sound) -> bytes:
    from player.voice.wav import Wave

    return wav_bytes(Wave(sound.rate_hz, sound.pcm, sound.word_ms, sound.measured))


def test_two_programs_may_keep_the_same_sound_at_once(folder: Path) -> None:
    made: list[Sound] = []

    def work() -> None:
        voice = CachedVoice(NoiseVoice(), SoundCache(folder))
        made.extend(voice.make(f"Text {number % 5}.", 1.0) for number in range(25))

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(made) == 100 and all(sound.audible for sound in made)
    assert len(kept(folder)) == 5


def test_a_sound_whose_file_has_gone_says_so(folder: Path) -> None:
    file = CachedVoice(NoiseVoice(), SoundCache(folder)).make(SENTENCE, 1.0).file
    assert file is not None
    sound = Sound(file, 100, (0,), True, 22_050)
    assert sound.frames()
    file.write_bytes(noise(10))
    with pytest.raises(NoSound):
        sound.frames()
    file.unlink()
    with pytest.raises(NoSound):
        sound.frames()
