"""The ear as a state machine, fed with made frames: no microphone, no clock, no recogniser."""

from __future__ import annotations

from collections.abc import Iterable

from hypothesis import given
from hypothesis import strategies as st

from player.voice.ears.ear import LONGEST_MS, ONSET_FRAMES, PAUSE_MS, Clip, Decision, Ear, Healed, Onset
from player.voice.ears.waves import FRAME_MS

SPEECH, QUIET = b"s", b"."
REACTION_MS = 150
SOFT_BEGINNING_MS = 400


def new(headphones: bool = False) -> Ear:
    return Ear(lambda frame: frame == SPEECH, headphones=headphones)


def fed(ear: Ear, frames: Iterable[bytes]) -> list[Decision]:
    return [decision for frame in frames for decision in ear.feed(frame)]


SENTENCE = [QUIET] * 20 + [SPEECH] * 30 + [QUIET] * (PAUSE_MS // FRAME_MS + 1)


def test_an_open_ear_gives_a_clip_that_begins_before_the_speech() -> None:
    ear = new()
    ear.open()
    (clip,) = fed(ear, SENTENCE)
    assert isinstance(clip, Clip)
    quiet_before = clip.pcm.index(SPEECH)
    assert quiet_before * FRAME_MS >= SOFT_BEGINNING_MS
    assert clip.pcm.count(SPEECH) == 30


def test_without_headphones_the_ear_is_shut_until_a_question_opens_it() -> None:
    assert fed(new(), SENTENCE) == []


def test_our_own_voice_is_not_heard_without_headphones() -> None:
    ear = new()
    ear.open()
    fed(ear, [SPEECH] * 10)
    ear.narrates(True)
    assert fed(ear, SENTENCE) == []
    ear.narrates(False)
    assert len(fed(ear, SENTENCE)) == 1


def test_with_headphones_speech_over_the_telling_hushes_it_in_150_ms() -> None:
    ear = new(headphones=True)
    ear.narrates(True)
    fed(ear, [QUIET] * 50)
    needed = next(count for count in range(1, 99) if ear.feed(SPEECH) == (Onset(),))
    assert needed * FRAME_MS <= REACTION_MS
    assert needed < ONSET_FRAMES + 1


def test_a_cough_heals_itself_and_words_do_not() -> None:
    for for_us in (False, True):
        ear = new(headphones=True)
        ear.narrates(True)
        assert Onset() in fed(ear, SENTENCE)
        assert ear.judged(for_us) == (() if for_us else (Healed(),))
        assert ear.judged(False) == ()


def test_a_click_is_no_speech() -> None:
    ear = new(headphones=True)
    ear.narrates(True)
    assert fed(ear, ([SPEECH] * 2 + [QUIET] * 6) * 20) == []


def test_a_fan_is_cut_off_and_judged() -> None:
    ear = new()
    ear.open()
    decisions = fed(ear, [SPEECH] * (3 * LONGEST_MS // FRAME_MS))
    assert len(decisions) >= 2
    assert all(isinstance(one, Clip) for one in decisions)


def test_hold_survives_a_noisy_room_and_only_go_on_ends_it() -> None:
    ear = new()
    ear.open()
    ear.hold()
    for _ in range(200):
        fed(ear, SENTENCE)
        assert ear.judged(False) == ()
    assert ear.mode == "held"
    assert [ear.acts_on(one) for one in ("go on", "quit", "e2e4", "nudge")] == [True, False, False, False]
    ear.go_on()
    assert ear.acts_on("quit")


@given(st.lists(st.sampled_from([SPEECH, QUIET]), max_size=600), st.booleans())
def test_every_clip_has_speech_in_it_and_none_is_too_long(frames: list[bytes], headphones: bool) -> None:
    ear = new(headphones)
    ear.open()
    for decision in fed(ear, frames):
        assert isinstance(decision, Clip)
        assert decision.pcm.count(SPEECH) >= ONSET_FRAMES - 1
        assert len(decision.pcm) * FRAME_MS <= LONGEST_MS
