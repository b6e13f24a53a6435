"""The measure of sync must itself tell a good landing from a bad one."""

from __future__ import annotations

import sys

import numpy as np
import pytest

from player.voice.choose import ESPEAK
from player.voice.process import WorkerProcess
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock
from tests.voice.acoustics import Landing, find, heard, heard_word, verdict
from tests.voice.standins import noise

SENTENCE = "White begins knight to f3, Black takes space with d5, and now castles and the rook takes e5."


def landings(*late_ms: float) -> list[Landing]:
    return [Landing("word", late) for late in late_ms]


def test_the_tolerances_are_those_of_the_published_figures() -> None:
    good = [0.0] * 99
    assert verdict(landings(*good, 41)) == "" == verdict(landings(*good, -61))
    assert verdict(landings(*good, 41, -61, 41)) != ""
    assert verdict(landings(*good, 91)) != "" != verdict(landings(*good, -186))


def test_a_piece_is_found_to_the_frame_even_in_noise() -> None:
    sound = heard(noise(800)) - 4_096
    piece = sound[5_000:8_000] * 0.5 + np.random.default_rng(1).normal(0, 300, 3_000)
    at, alike = find(sound, piece, 3_000, 9_000)
    assert at == 5_000 and alike > 0.9
    assert find(sound, heard(noise(100, seed=9)) - 4_096, 0, 9_000)[1] < 0.5


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="eSpeak NG is the voice of Linux here")
def test_a_word_is_found_wherever_the_engine_would_put_it() -> None:
    voice = SpokenVoice(WorkerProcess(ESPEAK), RealClock())
    sound = voice.make(SENTENCE, 1.0)
    words = SENTENCE.split()
    for word in (2, 5, 9, 12, 15):
        alone = heard(voice.make(" ".join(words[word:]), 1.0).frames())
        true = sound.word_ms[word]
        found = [heard_word(heard(sound.pcm), sound.rate_hz, true + off, alone) for off in (-180, 0, 180)]
        assert max(found) - min(found) <= 6, words[word]
        assert abs(found[1] - true) <= 45, words[word]
    voice.close()
