"""The speaker on a virtual clock, its sound captured: what was heard, when, and what was reported."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.stage.inputs import Finished, Heard
from player.voice.mixer import FADE_MS
from player.voice.output import RATE_HZ
from player.voice.speaker import SpeakerEvent
from tests.voice.stage import COUNT, FADE, PERIOD, PERIOD_MS, SENTENCE, Stage, word_number
from tests.voice.standins import (
    last_loud_ms,
    notices,
    utter,
    where,
    words,
)


@pytest.mark.parametrize("speed", [0.5, 0.8, 1.0, 1.25, 2.0, 3.0])
def test_each_word_is_reported_as_it_is_heard(speed: float) -> None:
    stage = Stage()
    sound = stage.voice.make(SENTENCE, speed)
    events = stage.tell(1, speed=speed)
    assert words(events) == list(range(1, COUNT + 1))
    assert events[-1][1] == Finished(1, sound.ms)
    for at, event in events[:-1]:
        assert isinstance(event, Heard) and event.ms == sound.word_ms[event.word - 1]
        # No more than 60 ms before and 40 ms after the voice says it (EBU R 37 as the project's figures
        # have it).
        assert -60 <= at - stage.heard_at_ms(sound.pcm, sound.word_ms[event.word - 1] * RATE_HZ // 1000) <= 40
    assert stage.output.captured.find(sound.pcm) >= 0, "the sound was not heard whole"
    assert notices(events) == []


@given(st.integers(0, 6500), st.integers(0, 5000))
def test_a_pause_neither_loses_nor_repeats_a_sample(stop_ms: int, silence_ms: int) -> None:
    stage = Stage()
    sound = stage.voice.make(SENTENCE, 1.0)
    stage.speaker.say(1, utter(SENTENCE), speed=1.0)
    before: list[tuple[int, SpeakerEvent]] = []
    while stage.clock.now_ms() < stop_ms and stage.speaker.due_ms() is not None:
        stage.clock.sleep(max(1, min(stage.speaker.due_ms() or 0, stop_ms - stage.clock.now_ms())))
        before += [(stage.clock.now_ms(), event) for event in stage.speaker.poll()]
    stopped = stage.speaker.hush()
    if stopped is None:
        assert isinstance(before[-1][1], Finished)
        return
    stage.clock.sleep(silence_ms + 40)
    stage.output.catch_up()
    assert last_loud_ms(stage.output) <= stop_ms + PERIOD_MS + FADE_MS + 1
    resumed = len(stage.output.captured) // 2
    after = stage.tell(2, from_ms=stopped.ms)
    stage.output.catch_up()
    # Every word once, in order, over both sayings (a word may begin between the last look and the hush).
    assert words(before) == list(range(1, len(words(before)) + 1))
    assert len(words(before)) <= stopped.word
    assert words(after) == list(range(stopped.word + 1, COUNT + 1))
    assert after[-1][1] == Finished(2, sound.ms)
    # And on the samples: the sound up to a frame, and the sound from that very frame, but for the soft cut.
    captured = bytes(stage.output.captured)
    begun = max(0, where(sound.pcm[:120], captured[: 2 * resumed]))
    cut = round(stopped.ms * RATE_HZ / 1000) // PERIOD * PERIOD
    cut = min(cut + PERIOD * (stopped.ms * RATE_HZ / 1000 - cut > PERIOD / 2), len(sound.pcm) // 2)
    assert abs(cut * 1000 / RATE_HZ - stopped.ms) <= 1
    assert captured[2 * begun : 2 * (begun + cut)] == sound.pcm[: 2 * cut]
    rest = sound.pcm[2 * (cut + FADE) :]
    assert captured.find(rest, 2 * resumed) >= 0
    assert not any(captured[2 * (begun + cut + FADE) : 2 * resumed]), "something was heard in the pause"


def test_a_repeat_says_the_sentence_again_from_its_start() -> None:
    stage = Stage()
    sound = stage.voice.make(SENTENCE, 1.0)
    stage.tell(1, until=word_number(6))
    stage.speaker.hush()
    again = stage.tell(2)
    assert words(again) == list(range(1, COUNT + 1))
    assert bytes(stage.output.captured).find(sound.pcm[2 * FADE :], 2 * RATE_HZ) >= 0


@pytest.mark.parametrize("word", [1, 4, COUNT - 1, COUNT, COUNT + 5])
def test_begins_with_the_word_asked_for(word: int) -> None:
    stage = Stage()
    sound = stage.voice.make(SENTENCE, 1.0)
    events = stage.tell(1, from_word=word)
    assert words(events) == list(range(word + 1, COUNT + 1))
    stage.output.catch_up()
    first = (sound.word_ms[word] if word < COUNT else sound.ms) * RATE_HZ / 1000
    rest = sound.pcm[2 * (round(first) + FADE) :]
    assert bytes(stage.output.captured).endswith(bytes(2)) or rest
    assert not rest or where(rest, stage.output.captured) >= 0
    earlier = sound.pcm[2 * (round(first) - 400) : 2 * (round(first) - 100)]
    assert where(earlier, stage.output.captured) == -1, "the word before was heard too"


@given(st.integers(0, 4000))
def test_hush_is_silence_within_150_ms(stop_ms: int) -> None:
    stage = Stage()
    stage.speaker.say(1, utter(SENTENCE), speed=1.0)
    while stage.clock.now_ms() < stop_ms:
        stage.clock.sleep(5)
        stage.speaker.poll()
    stage.speaker.hush()
    stage.clock.sleep(2000)
    stage.output.catch_up()
    assert last_loud_ms(stage.output) - stop_ms <= 150
    assert stage.speaker.due_ms() is None and list(stage.speaker.poll()) == []
    assert stage.speaker.hush() is None


def test_a_new_saying_takes_over_at_once() -> None:
    stage = Stage()
    stage.tell(1, until=word_number(3))
    at = stage.clock.now_ms()
    events = stage.tell(2, "Check and mate.")
    other = stage.voice.make("Check and mate.", 1.0)
    assert {event.saying for _, event in events if isinstance(event, Heard)} == {2}
    assert stage.heard_at_ms(other.pcm, FADE) - at <= 40


def test_going_on_at_another_place_than_the_pause_is_taken_by_its_time() -> None:
    stage = Stage()
    sound = stage.voice.make(SENTENCE, 1.0)
    events = stage.tell(1, from_ms=sound.word_ms[5] - 30)
    assert words(events) == list(range(6, COUNT + 1))
    assert where(sound.pcm[2 * ((sound.word_ms[5] - 20) * RATE_HZ // 1000) :], stage.output.captured) >= 0


def test_an_aside_in_a_pause_does_not_move_the_place_to_go_on_from() -> None:
    stage = Stage()
    before = stage.tell(1, until=word_number(5))
    stopped = stage.speaker.hush()
    assert stopped is not None
    stage.tell(2, "What was that?", until=word_number(2))
    stage.speaker.hush()
    after = stage.tell(3, from_ms=stopped.ms)
    assert words(before) + words(after) == list(range(1, COUNT + 1))
