from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from player.stage.inputs import Finished, Heard
from player.voice.progress import Progress

lines = st.lists(st.integers(0, 5000), max_size=12).map(sorted)
times = st.lists(st.integers(-100, 6000), max_size=30)


@given(lines, times)
def test_every_word_is_reported_once_in_order_and_then_the_end(word_ms: list[int], looks: list[int]) -> None:
    progress = Progress(7, word_ms, 5001)
    events = [event for at in [*looks, 5001, 9000] for event in progress.reach(at)]
    assert [event.word for event in events if isinstance(event, Heard)] == list(range(1, len(word_ms) + 1))
    assert [event.ms for event in events if isinstance(event, Heard)] == word_ms
    assert events[-1] == Finished(7, 5001)
    assert progress.reach(99_999) == []


@given(lines, st.integers(0, 5001))
def test_nothing_is_reported_before_its_time(word_ms: list[int], at: int) -> None:
    progress = Progress(1, word_ms, 5001)
    events = progress.reach(at)
    assert all(event.ms <= at for event in events)
    assert progress.over == (at >= 5001)
    if not progress.over:
        assert progress.next_ms() > at


@given(lines, st.integers(0, 5001))
def test_going_on_where_it_stopped_neither_loses_nor_repeats_a_word(word_ms: list[int], stop: int) -> None:
    first = Progress(1, word_ms, 5001)
    before = [event.word for event in first.reach(stop) if isinstance(event, Heard)]
    if first.over:
        return
    heard = first.heard(stop)
    second = Progress.from_ms(2, word_ms, 5001, heard.ms)
    after = [event.word for event in second.reach(6000) if isinstance(event, Heard)]
    told = max(before, default=0)
    assert heard.word >= told
    assert after == list(range(heard.word + 1, len(word_ms) + 1))


@given(lines, st.integers(-3, 20))
def test_entered_at_a_word_that_word_is_the_first(word_ms: list[int], word: int) -> None:
    progress = Progress.from_word(1, word_ms, 5001, word)
    events = progress.reach(5001)
    assert [event.word for event in events if isinstance(event, Heard)] == list(
        range(max(0, word) + 1, len(word_ms) + 1)
    )
    assert events[-1] == Finished(1, 5001)


def test_stopped_before_anything_was_heard() -> None:
    assert Progress(3, (0, 400), 900).heard(0) == Heard(3, 0, 0)


def test_stopped_past_the_end_is_the_end() -> None:
    assert Progress(3, (0, 400), 900).heard(5000) == Heard(3, 900, 2)
