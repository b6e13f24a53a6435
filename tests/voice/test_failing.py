"""The speaker when its voice or its device fails, is late, or comes back; on a virtual clock, its sound
captured.
"""

from __future__ import annotations

import threading
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.stage.inputs import Finished, Heard
from player.voice.output import RATE_HZ, CaptureOutput, NullOutput
from player.voice.speaker import Notice
from player.voice.speaking import PATIENCE_MS, SoundSpeaker
from player.wording.pace import word_times
from player.world.clock import VirtualClock
from tests.voice.stage import COUNT, FADE, SENTENCE, Stage, word_number
from tests.voice.standins import (
    FailingVoice,
    GatedVoice,
    NoiseVoice,
    last_loud_ms,
    listen,
    noise,
    notices,
    samples,
    utter,
    where,
    words,
)


def test_a_voice_that_fails_costs_one_notice_and_the_pace_stays() -> None:
    voice = FailingVoice()
    stage = Stage(voice)
    first = stage.tell(1)
    assert notices(first) == [
        "The voice is broken. The lesson goes on in text, and the sound comes back when it can."
    ]
    assert [(at, event) for at, event in first if not isinstance(event, Notice)] == [
        *((onset, Heard(1, onset, word)) for word, onset in enumerate(word_times(SENTENCE)[0], start=1)),
        (word_times(SENTENCE)[1], Finished(1, word_times(SENTENCE)[1])),
    ]
    for saying in range(2, 6):
        assert notices(stage.tell(saying)) == []
    voice.why = None
    for saying in range(6, 10):
        assert notices(stage.tell(saying)) == []
    stage.output.catch_up()
    assert where(voice.make(SENTENCE, 1.0).pcm, stage.output.captured) >= 0, "the sound did not come back"
    voice.why = "The voice is broken again."
    assert notices(stage.tell(10)) == [], "what was made before is there still"
    assert len(notices(stage.tell(11, "Another sentence."))) == 1, "a new failure was not told"


def test_flapping_is_told_once() -> None:
    voice = FailingVoice()
    stage = Stage(voice)
    told = []
    for saying in range(20):
        voice.why = "The voice is broken." if saying % 2 else None
        told += notices(stage.tell(saying, f"Sentence number {saying}."))
    assert len(told) == 1


def test_a_late_sound_is_waited_for_one_and_a_half_seconds() -> None:
    voice = GatedVoice()
    stage = Stage(voice, threaded=True)
    try:
        events = stage.tell(1)
        assert len(notices(events)) == 1 and "late" in notices(events)[0]
        assert PATIENCE_MS <= events[0][0] <= PATIENCE_MS + 50
        assert words(events) == list(range(1, COUNT + 1))
        voice.gate.set()
        until = time.monotonic() + 5
        while "Rook to e1." not in voice.asked and time.monotonic() < until:
            stage.speaker.ahead([utter("Rook to e1.")], speed=1.0)
            time.sleep(0.01)
        time.sleep(0.05)
        events = stage.tell(2, "Rook to e1.")
        assert notices(events) == [] and words(events) == [1, 2, 3]
        stage.output.catch_up()
        assert where(voice.make("Rook to e1.", 1.0).pcm, stage.output.captured) >= 0
    finally:
        stage.speaker.close()


def test_a_device_that_goes_in_mid_word_leaves_no_gap_in_the_telling() -> None:
    stage = Stage()
    sound = stage.voice.make(SENTENCE, 1.0)
    before = stage.tell(1, until=word_number(5))
    stage.clock.sleep(60)
    stage.output.gone = "The sound device went away."
    after = listen(stage.speaker, stage.clock)
    assert notices(after) == [
        "The sound device went away. The lesson goes on in text, and the sound comes back when it can."
    ]
    assert words(before) + words(after) == list(range(1, COUNT + 1))
    times = {event.word: at for at, event in [*before, *after] if isinstance(event, Heard)}
    # The words keep to the measured times, as if it still sounded.
    for word in range(2, COUNT + 1):
        assert abs((times[word] - times[1]) - sound.word_ms[word - 1]) <= 100
    stage.output.gone = ""
    events = stage.tell(2)
    assert notices(events) == []
    stage.output.catch_up()
    assert where(sound.pcm[2 * FADE :], stage.output.captured) >= 0


class Stuck(CaptureOutput):
    """A device that takes nothing and says nothing."""

    stuck = False

    def heard(self) -> float | None:
        return None if self.stuck else super().heard()


def test_a_device_that_takes_no_sound_is_not_waited_for_long() -> None:
    clock = VirtualClock()
    output = Stuck(clock)
    output.stuck = True
    speaker = SoundSpeaker(NoiseVoice(), output, clock, threaded=False)
    speaker.say(1, utter(SENTENCE), speed=1.0, from_word=2)
    events = listen(speaker, clock)
    assert len(notices(events)) == 1
    assert words(events) == list(range(3, COUNT + 1))
    first = next(at for at, event in events if isinstance(event, Heard))
    assert PATIENCE_MS <= first <= PATIENCE_MS + 100


def test_a_program_held_up_for_a_minute_is_no_failure() -> None:
    stage = Stage()
    stage.tell(1, until=word_number(2))
    stage.clock.sleep(60_000)
    assert notices(listen(stage.speaker, stage.clock)) == []


def test_no_device_from_the_beginning() -> None:
    clock = VirtualClock()
    speaker = SoundSpeaker(NoiseVoice(), NullOutput(), clock, threaded=False)
    speaker.say(1, utter(SENTENCE), speed=1.0)
    events = listen(speaker, clock)
    assert len(notices(events)) == 1 and events[0][0] == 0
    sound = NoiseVoice().make(SENTENCE, 1.0)
    assert [event.ms for _, event in events if isinstance(event, Heard)] == list(sound.word_ms)
    speaker.say(2, utter(SENTENCE), speed=1.0)
    stopped = listen(speaker, clock, until=word_number(3))
    heard = speaker.hush()
    assert heard is not None and heard.word == 3
    speaker.say(3, utter(SENTENCE), speed=1.0, from_ms=heard.ms)
    assert words(stopped) + words(listen(speaker, clock)) == list(range(1, COUNT + 1))


def test_a_pause_made_in_silence_goes_on_in_sound_with_the_word_being_said() -> None:
    voice = FailingVoice()
    stage = Stage(voice)
    before = stage.tell(1, until=word_number(6))
    stopped = stage.speaker.hush()
    assert stopped is not None
    voice.why = None
    after = stage.tell(2, from_ms=stopped.ms)
    assert words(before) + words(after) == list(range(1, COUNT + 1))
    sound = voice.make(SENTENCE, 1.0)
    stage.output.catch_up()
    assert where(sound.pcm[2 * (sound.word_ms[5] * RATE_HZ // 1000 + FADE + 1) :], stage.output.captured) >= 0


@pytest.mark.parametrize(("from_word", "from_ms", "word"), [(0, None, 0), (4, None, 4), (0, 2000, 6)])
def test_hushed_before_there_was_any_sound_it_goes_on_where_it_was_to_begin(
    from_word: int, from_ms: int | None, word: int
) -> None:
    voice = GatedVoice()
    stage = Stage(voice, threaded=True)
    try:
        stage.speaker.say(1, utter(SENTENCE), speed=1.0, from_word=from_word, from_ms=from_ms)
        stage.clock.sleep(300)
        assert list(stage.speaker.poll()) == []
        stopped = stage.speaker.hush()
        assert stopped is not None and stopped.word == word
        stage.speaker.say(2, utter(SENTENCE), speed=1.0, from_ms=stopped.ms)
        stopped = stage.speaker.hush()
        assert stopped is not None and stopped.word == word
        voice.gate.set()
        stage.speaker.say(3, utter(SENTENCE), speed=1.0, from_ms=stopped.ms)
        until = time.monotonic() + 5
        while stage.speaker.due_ms() in (5, 25) and time.monotonic() < until:
            time.sleep(0.005)
            stage.speaker.poll()
        events = listen(stage.speaker, stage.clock)
        assert words(events) == list(range(word + 1, COUNT + 1))
        assert notices(events) == []
    finally:
        stage.speaker.close()


@pytest.mark.parametrize("spoken", ["", "—", "… !"])
def test_nothing_to_say_is_no_failure(spoken: str) -> None:
    stage = Stage(FailingVoice())
    events = stage.tell(1, spoken)
    assert notices(events) == []
    assert isinstance(events[-1][1], Finished) and len(words(events)) == len(spoken.split())


def test_the_tone_sounds_over_silence() -> None:
    stage = Stage()
    stage.speaker.tone()
    stage.clock.sleep(1000)
    stage.output.catch_up()
    assert 300 < last_loud_ms(stage.output) < 500
    assert max(samples(stage.output.captured)) < 8000


def test_volume_reaches_the_sound() -> None:
    stage = Stage()
    stage.speaker.set_volume(0.5)
    stage.tell(1)
    assert max(samples(stage.output.captured)) <= 4096


def test_what_comes_is_made_ahead_and_a_sound_at_another_rate_is_fitted() -> None:
    voice = NoiseVoice(rate_hz=16_000)
    stage = Stage(voice, threaded=True)
    try:
        stage.speaker.ahead([utter("Rook to e1."), utter("…"), utter("Check.")], speed=1.0)
        until = time.monotonic() + 5
        while len(voice.asked) < 2 and time.monotonic() < until:
            time.sleep(0.005)
        time.sleep(0.05)
        assert voice.asked == ["Rook to e1.", "Check."]
        events = stage.tell(1, "Rook to e1.")
        assert events[0][0] <= 40, "it was not ready"
        ms = voice.make("Rook to e1.", 1.0).ms
        assert events[-1][1] == Finished(1, ms) and abs(events[-1][0] - ms) <= 40
    finally:
        stage.speaker.close()


def test_close_in_the_middle_of_everything_is_prompt_and_final() -> None:
    voice = GatedVoice()
    before = threading.active_count()
    stage = Stage(voice, threaded=True)
    stage.speaker.say(1, utter(SENTENCE), speed=1.0)
    stage.speaker.ahead([utter("Rook to e1.")], speed=1.0)
    begun = time.monotonic()
    stage.speaker.close()
    assert time.monotonic() - begun < 0.5
    assert voice.closed and threading.active_count() == before
    stage.speaker.close()


rude_acts = st.lists(
    st.one_of(
        st.tuples(st.just("say"), st.integers(0, 3), st.integers(0, 16)),
        st.tuples(st.just("hush"), st.just(0), st.just(0)),
        st.tuples(st.just("resume"), st.just(0), st.just(0)),
        st.tuples(st.just("wait"), st.integers(0, 3000), st.just(0)),
        st.tuples(st.just("break"), st.integers(0, 2), st.just(0)),
        st.tuples(st.just("tone"), st.just(0), st.just(0)),
    ),
    max_size=25,
)


@given(rude_acts)
def test_whatever_happens_words_come_once_in_order_and_the_telling_ends(
    acts: list[tuple[str, int, int]],
) -> None:
    voice = FailingVoice()
    voice.why = None
    stage = Stage(voice)
    number, told, stopped = 0, 0, None
    for act, first, second in acts:
        if act == "say":
            number, stopped, told = number + 1, None, min(second, COUNT)
            stage.speaker.say(number, utter(SENTENCE), speed=(0.5, 1.0, 1.5, 3.0)[first], from_word=second)
            speed = (0.5, 1.0, 1.5, 3.0)[first]
        elif act == "hush":
            heard = stage.speaker.hush()
            if heard is not None:
                assert heard.saying == number and told <= heard.word <= COUNT
                told, stopped = heard.word, heard
        elif act == "resume" and stopped is not None:
            number += 1
            stage.speaker.say(number, utter(SENTENCE), speed=speed, from_ms=stopped.ms)
            stopped = None
        elif act == "wait":
            stage.clock.sleep(first)
        elif act == "break":
            voice.why = "Broken." if first == 1 else None
            stage.output.gone = "Gone." if first == 2 else ""
        else:
            stage.speaker.tone()
        for event in stage.speaker.poll():
            if isinstance(event, Heard):
                assert (event.saying, event.word) == (number, told + 1)
                told += 1
            elif isinstance(event, Finished):
                assert told == COUNT
    assert all(word > told for word in words(listen(stage.speaker, stage.clock)))


def test_the_same_noise_is_never_taken_for_another() -> None:
    # What the tests above stand on.
    assert where(noise(50, seed=1)[:120], noise(5000, seed=2)) == -1
