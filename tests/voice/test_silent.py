from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from player.stage.inputs import Finished, Heard
from player.voice.silent import InstantSpeaker, SilentSpeaker
from player.wording.pace import word_times
from player.world.clock import VirtualClock
from tests.voice.standins import listen, utter, words

SENTENCE = "The knight returns to f3, and the bishop breathes again."
vocabulary = st.sampled_from(["rook", "takes", "d5,", "at", "once.", "—", "e4"])
texts = st.lists(vocabulary, max_size=9).map(" ".join)


@given(texts, st.floats(0.5, 3.0))
def test_every_word_comes_at_its_estimated_time(spoken: str, speed: float) -> None:
    clock = VirtualClock(500)
    speaker = SilentSpeaker(clock)
    speaker.say(4, utter(spoken), speed=speed)
    heard = listen(speaker, clock)
    onsets, ms = word_times(spoken, speed)
    assert [event for _, event in heard] == [
        *(Heard(4, onset, word) for word, onset in enumerate(onsets, start=1)),
        Finished(4, ms),
    ]
    # A poll is due to the millisecond; at most one late, and never early.
    assert all(0 <= at - 500 - event.ms <= 1 for at, event in heard if isinstance(event, Heard | Finished))
    assert speaker.due_ms() is None
    assert list(speaker.poll()) == []


def test_goes_on_from_where_it_was_hushed() -> None:
    clock = VirtualClock()
    speaker = SilentSpeaker(clock)
    speaker.say(1, utter(SENTENCE), speed=1.0)
    before = listen(speaker, clock, until=lambda event: isinstance(event, Heard) and event.word == 4)
    clock.sleep(35)
    stopped = speaker.hush()
    assert stopped is not None and stopped.word == 4
    assert speaker.due_ms() is None
    clock.sleep(10_000)
    begun = clock.now_ms()
    speaker.say(2, utter(SENTENCE), speed=1.0, from_ms=stopped.ms)
    after = listen(speaker, clock)
    assert words(before) + words(after) == list(range(1, 11))
    assert clock.now_ms() - begun == word_times(SENTENCE)[1] - stopped.ms


def test_begins_at_a_word() -> None:
    clock = VirtualClock()
    speaker = SilentSpeaker(clock)
    speaker.say(1, utter(SENTENCE), speed=2.0, from_word=5)
    heard = listen(speaker, clock)
    assert heard[0] == (0, Heard(1, word_times(SENTENCE, 2.0)[0][5], 6))


def test_a_new_saying_hushes_the_old_one() -> None:
    clock = VirtualClock()
    speaker = SilentSpeaker(clock)
    speaker.say(1, utter(SENTENCE), speed=1.0)
    speaker.say(2, utter("Check."), speed=1.0)
    assert {event.saying for _, event in listen(speaker, clock) if isinstance(event, Heard)} == {2}


def test_hush_when_nothing_is_said() -> None:
    assert SilentSpeaker(VirtualClock()).hush() is None
    assert InstantSpeaker().hush() is None


def test_instant_speaker_has_all_heard_at_the_next_poll() -> None:
    speaker = InstantSpeaker()
    assert speaker.due_ms() is None
    speaker.ahead([utter(SENTENCE)], speed=1.0)
    speaker.tone()
    speaker.say(9, utter("Rook to e1."), speed=1.0)
    assert speaker.due_ms() == 0
    onsets, ms = word_times("Rook to e1.")
    assert list(speaker.poll()) == [
        *(Heard(9, onset, word) for word, onset in enumerate(onsets, start=1)),
        Finished(9, ms),
    ]
    assert list(speaker.poll()) == []
    assert speaker.due_ms() is None


def test_instant_speaker_enters_at_a_word_or_a_time() -> None:
    speaker = InstantSpeaker()
    speaker.say(9, utter("Rook to e1."), speed=1.0, from_word=2)
    assert [event.word for event in speaker.poll() if isinstance(event, Heard)] == [3]
    speaker.say(9, utter("Rook to e1."), speed=1.0, from_ms=word_times("Rook to e1.")[0][1])
    assert [event.word for event in speaker.poll() if isinstance(event, Heard)] == [2, 3]
    speaker.say(9, utter("Rook to e1."), speed=1.0)
    assert speaker.hush() == Heard(9, 0, 0)
    assert list(speaker.poll()) == []


def test_nothing_to_say_is_finished_at_once() -> None:
    speaker = SilentSpeaker(VirtualClock())
    speaker.say(5, utter(""), speed=1.0)
    assert speaker.due_ms() == 0
    assert list(speaker.poll()) == [Finished(5, 0)]
    speaker.close()
