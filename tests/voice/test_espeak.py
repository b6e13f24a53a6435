"""The real eSpeak NG, in this process; only its acoustic facts are tested here, its life in a worker
elsewhere.
"""

from __future__ import annotations

import array
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.engine import EngineFault
from player.voice.espeak import EspeakEngine, word_frames
from player.voice.fitting import loud_spans
from player.wording.pace import word_times

pytest.importorskip("espeakng_loader")
if not sys.platform.startswith("linux"):
    pytest.skip("the library is used on Linux", allow_module_level=True)

SENTENCES = [
    "White begins knight to f3, Black takes space with d5, and now a pawn moves.",
    "The king walks to g2, to f3, to e4, and the pawn on d5 falls.",
    "That is why the rook is so strong on the open file.",
    "After thirty-two moves the players agreed to a draw, and both went home unhappy.",
    "There are two answers: one is quiet, the other is not.",
]


@pytest.fixture(scope="module")
def engine() -> EspeakEngine:
    return EspeakEngine()


def say(engine: EspeakEngine, text: str, speed: float = 1.0) -> tuple[bytes, int, tuple[int, ...]]:
    made = engine.make(text, speed=speed, voice="", language="en")
    assert made.word_frames is not None
    return made.pcm, made.rate_hz, made.word_frames


@pytest.mark.parametrize("text", SENTENCES)
@pytest.mark.parametrize("speed", [0.5, 1.0, 1.7, 3.0])
def test_one_ordered_onset_for_every_word(engine: EspeakEngine, text: str, speed: float) -> None:
    pcm, rate, onsets = say(engine, text, speed)
    assert len(onsets) == len(text.split())
    assert list(onsets) == sorted(onsets)
    # Above 450 words a minute the library shortens finished sound, and two small words may share a mark.
    assert len(set(onsets)) >= len(onsets) - (1 if speed > 2.6 else 0)
    assert onsets[0] < 0.08 * rate and onsets[-1] < len(pcm) // 2


@pytest.mark.parametrize("text", SENTENCES)
def test_the_estimate_is_near_the_real_pace(engine: EspeakEngine, text: str) -> None:
    pcm, rate, onsets = say(engine, text)
    guess, ms = word_times(text)
    assert ms == pytest.approx(len(pcm) / 2 / rate * 1000, rel=0.15)
    off = [abs(onset * 1000 / rate - at) for onset, at in zip(onsets, guess, strict=True)]
    assert sum(off) / len(off) < 250


@pytest.mark.parametrize("speed", [0.5, 0.8, 1.25, 2.0, 3.0])
def test_speed_is_what_it_says(engine: EspeakEngine, speed: float) -> None:
    text = " ".join(SENTENCES)
    usual, faster = len(say(engine, text)[0]), len(say(engine, text, speed)[0])
    assert usual / faster == pytest.approx(speed, rel=0.2)


def test_a_word_after_a_pause_begins_where_the_sound_begins_again(engine: EspeakEngine) -> None:
    # Truth from the sound itself: the loud stretch after the comma starts within 50 ms of the mark.
    text = "Queen takes h7, mate."
    pcm, rate, onsets = say(engine, text)
    spans = loud_spans(pcm, rate)
    assert len(spans) == 2
    assert 0 <= spans[1][0] - onsets[3] * 1000 / rate <= 50


def test_a_square_said_as_one_word_has_one_onset(engine: EspeakEngine) -> None:
    # The library marks "f" and "3" apart.
    assert len(say(engine, "knight to f3")[2]) == 3


def test_the_same_words_come_out_alike(engine: EspeakEngine) -> None:
    first, again = say(engine, SENTENCES[2])[0], say(engine, SENTENCES[2])[0]
    assert abs(len(first) - len(again)) < 1000
    assert max(array.array("h", first)) > 3000


def test_voices_by_name_and_by_language(engine: EspeakEngine) -> None:
    known = engine.voices()
    assert any(voice.language == "en-us" for voice in known)
    american = engine.make("rather better", speed=1.0, voice="en-us", language="en")
    other = engine.make("rather better", speed=1.0, voice="", language="en")
    assert american.pcm != other.pcm
    for name, language in (("nobody", "en"), ("../../etc/passwd", "en"), ("en+../x", "en"), ("", "zz")):
        with pytest.raises(EngineFault):
            engine.make("rather better", speed=1.0, voice=name, language=language)
    assert engine.make("besser", speed=1.0, voice="", language="de").pcm


def test_any_text_is_survived(engine: EspeakEngine) -> None:
    strange = ["<b>bold</b> & co", "[[h@]]", "\U0001f600 smile", "…", "-", "ñ ü 北京", "x" * 900]
    for text in strange:
        made = engine.make(text, speed=1.0, voice="", language="en")
        assert made.word_frames is not None and len(made.word_frames) == len(text.split())


@given(
    st.lists(st.sampled_from(["of", "the", "rook", "e4,", "well-known"]), min_size=1, max_size=10),
    st.lists(st.tuples(st.integers(0, 90), st.integers(0, 50_000)), max_size=20),
    st.integers(50_000, 60_000),
)
def test_missing_and_doubled_marks_still_give_ordered_onsets(
    chosen: list[str], marks: list[tuple[int, int]], frames: int
) -> None:
    onsets = word_frames(" ".join(chosen), sorted(marks, key=lambda mark: mark[1]), frames)
    assert len(onsets) == len(chosen)
    assert list(onsets) == sorted(onsets)
    assert all(0 <= onset <= frames for onset in onsets)


def test_a_word_run_together_with_its_neighbour_is_put_between() -> None:
    # "most of the men" with no mark for "the".
    onsets = word_frames("most of the men", [(0, 0), (5, 6000), (12, 9000)], 20_000)
    assert onsets[:2] == (0, 6000) and onsets[3] == 9000
    assert 6000 < onsets[2] < 9000
