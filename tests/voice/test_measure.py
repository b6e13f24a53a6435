from __future__ import annotations

from player.voice.estimate import EstimatedVoice
from player.voice.measure import measure
from player.wording.pace import word_times
from tests.voice.standins import FailingVoice, NoiseVoice, utter

TEXTS = ["White begins knight to f3.", "And now d5.", "", "—", "Check."]


def test_true_lengths_and_word_times() -> None:
    voice = NoiseVoice()
    found = list(measure(map(utter, TEXTS), voice, speed=1.5))
    for text, one in zip(TEXTS, found, strict=True):
        if any(c.isalpha() for c in text):
            sound = voice.make(text, 1.5)
            assert (one.ms, one.word_ms, one.sounded, one.measured, one.why) == (
                sound.ms,
                sound.word_ms,
                True,
                True,
                "",
            )
        else:
            assert (one.word_ms, one.ms) == word_times(text, 1.5) and not one.sounded and not one.why


def test_a_voice_that_fails_for_a_while_costs_only_those_sentences() -> None:
    voice = FailingVoice("The disk is on fire.")
    found = []
    for number, one in enumerate(measure(map(utter, TEXTS), voice)):
        found.append(one)
        if number == 0:
            voice.why = None
    assert [one.sounded for one in found] == [False, True, False, False, True]
    assert found[0].why == "The disk is on fire."
    assert (found[0].word_ms, found[0].ms) == word_times(TEXTS[0])


def test_it_is_asked_for_one_at_a_time() -> None:
    voice = NoiseVoice()
    going = measure(map(utter, TEXTS), voice)
    next(going)
    assert voice.asked == TEXTS[:1]


def test_an_estimating_voice_measures_nothing() -> None:
    found = list(measure(map(utter, TEXTS), EstimatedVoice()))
    assert not any(one.sounded or one.measured for one in found)
    assert [one.ms for one in found] == [word_times(text)[1] for text in TEXTS]
