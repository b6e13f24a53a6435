from __future__ import annotations

import time

import pytest

from player.voice.output import RATE_HZ
from player.voice.preparing import AHEAD, Failed, Preparer, Ready, Wanted, at_rate
from player.voice.sound import Sound
from tests.voice.standins import FailingVoice, GatedVoice, NoiseVoice, noise


def want(text: str) -> Wanted:
    return Wanted(text, 1.0)


def wait_for(preparer: Preparer, text: str) -> Ready | Failed:
    until = time.monotonic() + 5
    while time.monotonic() < until:
        made = preparer.get(want(text))
        if made is not None:
            return made
        time.sleep(0.002)
    raise AssertionError("it was never made")


def test_what_is_wanted_now_is_made_before_what_comes() -> None:
    voice = GatedVoice()
    preparer = Preparer(voice, RATE_HZ)
    try:
        preparer.ahead([want("b"), want("c")])
        time.sleep(0.05)
        preparer.want(want("a"))
        voice.gate.set()
        wait_for(preparer, "c")
        assert voice.asked == ["b", "a", "c"]
    finally:
        preparer.close()


def test_the_latest_list_replaces_the_earlier_ones() -> None:
    voice = GatedVoice()
    preparer = Preparer(voice, RATE_HZ)
    try:
        preparer.ahead([want("a"), want("b"), want("c")])
        time.sleep(0.05)
        preparer.ahead([want("d")])
        voice.gate.set()
        wait_for(preparer, "d")
        assert voice.asked == ["a", "d"]
    finally:
        preparer.close()


def test_a_long_lesson_holds_only_a_few_sounds() -> None:
    voice = NoiseVoice()
    preparer = Preparer(voice, RATE_HZ)
    try:
        for number in range(300):
            preparer.ahead([want(f"text {number + more}") for more in range(1, 30)])
            preparer.want(want(f"text {number}"))
            wait_for(preparer, f"text {number}")
            assert len(preparer._made) <= AHEAD + 6
        assert len(voice.asked) <= 300 + AHEAD
    finally:
        preparer.close()


def test_a_failure_is_tried_again_when_it_is_wanted_again() -> None:
    voice = FailingVoice()
    preparer = Preparer(voice, RATE_HZ)
    try:
        preparer.ahead([want("a")])
        assert wait_for(preparer, "a") == Failed("The voice is broken.")
        voice.why = None
        preparer.want(want("a"))
        assert isinstance(wait_for(preparer, "a"), Ready)
    finally:
        preparer.close()


class Unforeseen(NoiseVoice):
    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        if spoken == "a":
            raise ZeroDivisionError
        return super().make(spoken, speed, language)


@pytest.mark.parametrize("threaded", [True, False])
def test_a_fault_nobody_thought_of_ends_in_a_sentence_and_the_thread_lives(threaded: bool) -> None:
    preparer = Preparer(Unforeseen(), RATE_HZ, threaded=threaded)
    try:
        preparer.want(want("a"))
        made = wait_for(preparer, "a")
        assert isinstance(made, Failed) and made.why.endswith(".")
        preparer.want(want("b"))
        assert isinstance(wait_for(preparer, "b"), Ready)
    finally:
        preparer.close()


def test_another_rate_keeps_the_length() -> None:
    sound = noise(1000, rate_hz=16_000)
    assert abs(len(at_rate(sound, 16_000, RATE_HZ)) - RATE_HZ * 2) <= 8
    assert at_rate(sound, 16_000, 16_000) is sound
    assert at_rate(b"", 0, RATE_HZ) == b""
