"""Answers by voice: nothing counts before it was said back; a made-up ear says what was heard."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from player.aloud import hearing, opening, talk
from player.aloud.ears import SERVES
from player.aloud.outs import After, Feed, Outs, Quiet, Tell
from player.aloud.play import LOOK_MS, PATIENCE_MS, TONE_MS
from player.aloud.talk import AGAIN, CANCEL_MS, DOUBT_MS, SAY_NO, SPEAKING_MS, Talk
from player.cues.starts import THINK_MS
from player.stage.act import TONE_MS as TONE_BEFORE_MS
from player.stage.advance import advance
from player.stage.happenings import Attempt, Hush, Over, Put, Say
from player.stage.inputs import Did, Typed
from player.stage.registry import ACTIONS
from player.stage.state import State
from player.voice.ears.ear import Clip, Healed, Onset
from player.voice.ears.heard import OFFER, Doubt, Heard, Nothing, Silence, Verdict
from player.voice.ears.worker import Report
from player.world.clock import VirtualClock
from tests.aloud.playing import ALOUD, FakeEars, Played, play
from tests.aloud.test_hand import at_question, telling
from tests.stage.playing import Playing
from tests.stage.sheets import LESSON, sheet_of

BG2 = Heard("bishop g two", ("f1g2",), 0.9)
YES = Heard("yes", ("yes",), 0.9)
NO = Heard("no", ("no",), 0.9)
HOLD = Heard("hold", ("hold",), 0.9)
GO_ON = Heard("go on", ("go on",), 0.9)
NUDGE = Heard("nudge", ("nudge",), 0.9)
TWO = Doubt("bishop g two", "f1g2", "f1h3", 0.4)
ONE = Doubt("bishop g two", "f1g2", "", 0.4)


class Speaking:
    """A conversation with a stage; every sentence of ours takes a second."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.talk = Talk()
        self.now = 0
        self.until = 0
        self.said: list[str] = []
        self.fed: list[Did | Typed] = []
        self.grades: list[str] = []
        self.after: list[Did | Typed] = []

    def feed(self, what: Did | Typed) -> None:
        self.fed.append(what)
        self.state, out = advance(self.state, what)
        self.grades += [one.grade for one in out if isinstance(one, Attempt)]

    def take(self, step: tuple[Talk, Outs]) -> Speaking:
        self.talk, outs = step
        for out in outs:
            if isinstance(out, Feed):
                self.feed(out.what)
            elif isinstance(out, After):
                self.after.append(out.what)
            elif isinstance(out, Tell):
                self.said.append(out.text)
                self.until = self.now + 1_000
            elif isinstance(out, Quiet):
                self.until = self.now
        return self

    def hear(self, verdict: Verdict) -> Speaking:
        return self.take(talk.heard(self.talk, self.state, verdict, help_="You can say anything."))

    def wait(self, ms: int, *, in_speech: bool = False) -> Speaking:
        for _ in range(ms // 50):
            self.now += 50
            speaking = self.now < self.until
            self.take(talk.passed(self.talk, self.now, speaking=speaking, in_speech=in_speech))
            if self.after and not speaking:
                self.feed(self.after.pop(0))
        return self

    @property
    def doing(self) -> str:
        return self.state.top.doing


def test_a_move_is_said_back_and_counts_only_after_its_moment() -> None:
    one = Speaking(at_question()).hear(BG2)
    assert one.said == [f"Bishop to g2. {SAY_NO}"] and one.doing == "held"
    one.wait(1_000 + CANCEL_MS - 100)
    assert one.grades == []
    one.wait(200)
    assert one.grades == ["right"] and one.fed[-1] == Typed("f1g2")


def test_no_takes_it_back_and_the_question_stands() -> None:
    one = Speaking(at_question()).hear(BG2).wait(1_500).hear(NO)
    assert one.said[-1] == AGAIN and one.grades == []
    one.wait(10_000)
    assert one.grades == [] and one.doing == "asked" and one.state.wake


def test_yes_spares_the_moment() -> None:
    assert Speaking(at_question()).hear(BG2).wait(1_200).hear(YES).grades == ["right"]


def test_whoever_is_just_speaking_is_heard_out() -> None:
    one = Speaking(at_question()).hear(BG2).wait(1_000 + CANCEL_MS + 1_000, in_speech=True)
    assert one.grades == []
    assert one.hear(NO).grades == []
    one = Speaking(at_question()).hear(BG2).wait(1_000 + CANCEL_MS + SPEAKING_MS + 200, in_speech=True)
    assert one.grades == ["right"], "a radio does not keep it for ever"


def test_two_near_moves_are_asked_about_and_the_one_meant_is_said_back() -> None:
    one = Speaking(at_question()).hear(TWO)
    assert one.said == ["Did you mean bishop Gustav two or bishop Hector three?"]
    one.wait(1_200).hear(BG2)
    assert one.said[-1] == f"Bishop to g2. {SAY_NO}"
    assert one.wait(5_000).grades == ["right"]


def test_in_doubt_about_one_yes_is_enough() -> None:
    one = Speaking(at_question()).hear(ONE)
    assert one.said == ["Did you mean bishop Gustav two?"]
    assert one.wait(1_200).hear(YES).grades == ["right"]


def test_a_question_back_that_nobody_answers_is_let_go() -> None:
    one = Speaking(at_question()).hear(TWO).wait(1_000 + DOUBT_MS + 200)
    assert one.grades == [] and one.doing == "asked" and not one.talk.busy


def test_after_two_misheard_letters_the_names_are_offered_once() -> None:
    one = Speaking(at_question()).hear(TWO).wait(1_200).hear(NO)
    assert OFFER in one.said[-1]
    one.wait(3_000).hear(TWO).wait(1_200).hear(NO)
    assert sum(OFFER in text for text in one.said) == 1


@pytest.mark.parametrize("verdict", [Nothing("rook a one", 0.05), Silence()])
def test_speech_that_is_not_for_us_changes_nothing(verdict: Verdict) -> None:
    for state in (at_question(), telling()):
        one = Speaking(state).hear(verdict)
        assert (one.fed, one.said, one.state) == ([], [], state)


def test_a_yes_or_no_that_comes_too_late_is_no_move() -> None:
    for verdict in (YES, NO):
        one = Speaking(at_question()).hear(verdict).wait(10_000)
        assert (one.fed, one.said) == ([], [])


def test_hold_waits_without_end_and_only_go_on_ends_it() -> None:
    one = Speaking(at_question()).hear(HOLD)
    one.wait(60_000)
    for verdict in (BG2, NUDGE, YES, NO, TWO, Nothing("x", 0.1)):
        one.hear(verdict)
    assert one.fed == [Did("hold")] and one.grades == []
    one.hear(GO_ON)
    assert one.fed[-1] == Did("go on") and not one.talk.held


def test_what_can_i_say_is_answered_and_the_question_goes_on() -> None:
    one = Speaking(at_question()).hear(Heard("help", ("help",), 0.9))
    assert one.said == ["You can say anything."]
    assert one.wait(2_000).doing == "asked"


@pytest.mark.parametrize("verb", ["quit", "tell me", "skip"])
def test_what_cannot_be_taken_back_is_said_back_too(verb: str) -> None:
    one = Speaking(at_question()).hear(Heard(verb, (verb,), 0.9))
    assert one.said == [f"{verb.capitalize()}. {SAY_NO}"] and not one.state.quit and one.grades == []
    assert one.wait(4_000).fed[-1] == Did(verb)


def test_over_the_narration_speech_hushes_and_without_words_it_begins_again() -> None:
    one = Speaking(telling())
    one.take(talk.onset(one.talk, one.state))
    assert one.fed == [Did("pause")] and one.doing == "held"
    one.hear(Nothing("go on", 0.01)).take(talk.healed(one.talk))
    assert one.fed == [Did("pause"), Did("go on")] and one.doing == "saying"


def test_over_the_narration_a_word_of_ours_is_obeyed() -> None:
    one = Speaking(telling())
    one.take(talk.onset(one.talk, one.state)).hear(Heard("pause", ("pause",), 0.9))
    assert one.fed == [Did("pause")] and one.doing == "held"
    one = Speaking(telling())
    one.take(talk.onset(one.talk, one.state)).hear(Heard("slower", ("slower",), 0.9))
    assert one.fed == [Did("pause"), Did("go on"), Did("slower")] and one.doing == "saying"


VERDICTS = st.sampled_from(
    [BG2, YES, NO, HOLD, GO_ON, NUDGE, TWO, ONE, Nothing("x", 0.1), Silence()]
    + [Heard(one.name, (one.name,), 0.9) for one in ACTIONS if one.name != "quit"]
    + [Heard("knight", ("b1a3", "b1c3"), 0.9), Heard("pawn", ("e2e4", "d2d4", "a2a3"), 0.9)]
)


@settings(max_examples=40)
@given(st.lists(st.tuples(VERDICTS, st.integers(0, 4_000), st.booleans()), max_size=20))
def test_whatever_is_heard_no_move_counts_unsaid_and_it_comes_to_rest(
    heard: list[tuple[Verdict, int, bool]],
) -> None:
    one = Speaking(at_question())
    for verdict, ms, over in heard:
        if over:
            one.take(talk.onset(one.talk, one.state))
        one.hear(verdict)
        if over:
            one.take(talk.healed(one.talk))
        one.wait(ms)
        typed = [what for what in one.fed if isinstance(what, Typed) and what.text in ("f1g2", "b1a3")]
        assert len(typed) <= len([text for text in one.said if SAY_NO in text or "Did you mean" in text])
    one.wait(30_000)
    assert not one.talk.busy


# -- what is listened for, and when ------------------------------------------------------------------------


def test_at_a_question_its_moves_are_listened_for_and_while_it_is_asked_too() -> None:
    asked = at_question()
    assert hearing.wanted(Talk(), asked).meanings("bishop g two") == ("f1g2",)
    playing = Playing(sheet_of(LESSON), ALOUD).start()
    state, _ = advance(playing.state, Did("repeat"))
    assert state.top.doing == "saying"
    assert hearing.wanted(Talk(), state).meanings("bishop g two") == ("f1g2",)
    assert not hearing.wanted(Talk(), telling()).meanings("bishop g two")


def test_said_back_only_yes_no_and_hold_are_listened_for() -> None:
    phrases = hearing.wanted(Talk("back", "f1g2"), at_question()).phrases
    assert {phrase.meaning for phrase in phrases} == {"yes", "no", "hold"}
    held = hearing.wanted(Talk(held=True), at_question()).phrases
    assert {phrase.meaning for phrase in held} == {"go on"}


CHOICE = "ask: choice\n  choice: the knight\n  choice: the rook\n  answer: the rook"


@pytest.mark.parametrize(
    ("block", "words", "meaning"),
    [
        ("ask: square\n  answer: e4", "echo four", "e4"),
        ("ask: count\n  answer: 12", "twelve", "12"),
        (CHOICE, "the second one", "the rook"),
        (CHOICE, "the rook", "the rook"),
    ],
)
def test_other_answers_are_listened_for_by_their_words(block: str, words: str, meaning: str) -> None:
    sheet = sheet_of(f"White begins {{Nf3 d5}}.\n\nquestion: Which?\n  {block}\n\nThen {{g3}}.\n")
    state = Playing(sheet, ALOUD).start().state
    assert state.top.doing == "asked"
    assert hearing.wanted(Talk(), state).meanings(words) == (meaning,)
    one = Speaking(state).hear(Heard(words, (meaning,), 0.9))
    assert one.wait(5_000).grades == ["right"]


def test_what_can_be_said_names_moves_and_verbs() -> None:
    text = hearing.can_be_said(Talk(), at_question())
    assert "A move, such as" in text and "tell me" in text


# -- a whole lesson with an ear ----------------------------------------------------------------------------


def with_ears(
    *reports: tuple[int, object], headphones: bool = False, why: str | None = None
) -> tuple[Played, FakeEars]:
    clock = VirtualClock()
    ears = FakeEars(clock, list(reports), why=why)  # type: ignore[arg-type]
    return play(ears=ears, clock=clock, headphones=headphones), ears


UNTOUCHED, OPEN = with_ears()
ASKED = [ms for ms, one in UNTOUCHED.told if isinstance(one, Put)]


def test_without_headphones_the_ear_opens_at_questions_after_the_tone() -> None:
    opened = [ms for ms, mode in OPEN.modes if mode == "open" and ms < UNTOUCHED.log.at(opening.TOLD)]
    assert [ms - asked for ms, asked in zip(opened, ASKED, strict=True)] == pytest.approx(
        [TONE_MS] * 2, abs=LOOK_MS
    )
    assert OPEN.closed and [one for _, one in UNTOUCHED.told if isinstance(one, Over)]


def test_a_whole_answer_by_voice() -> None:
    played, _ = with_ears((ASKED[0] + 5_000, BG2))
    assert f"Lesson: Bishop to g2. {SAY_NO}" in played.log.text
    grades = [one.grade for _, one in played.told if isinstance(one, Attempt)]
    assert grades == ["right", "passed"]


def test_with_headphones_speech_hushes_within_150_ms_and_the_sentence_starts_again() -> None:
    says = [(ms, one) for ms, one in UNTOUCHED.told if isinstance(one, Say)]
    at, said = next((ms, one) for ms, one in says if "long diagonal" in one.what.shown)
    # The onset itself is reported 120 ms after speech began (the ear's own rule).
    played, ears = with_ears(
        (at + 1_500, Onset()), (at + 2_500, Nothing("", 0.0)), (at + 2_500, Healed()), headphones=True
    )
    hush = next(ms for ms, one in played.told if isinstance(one, Hush) and ms > at)
    assert 0 <= hush - (at + 1_500) <= 30
    again = next(one for ms, one in played.told if isinstance(one, Say) and ms > hush)
    assert (again.step, again.from_word, again.from_ms) == (said.step, 0, None)
    assert {mode for _, mode in ears.modes} == {"open", "voice", "silence"}


def test_without_a_microphone_one_notice_is_given_and_the_lesson_goes_on() -> None:
    played, ears = with_ears(why=f"No microphone was found. {SERVES}")
    assert played.log.text.count("No microphone was found.") == 1
    assert ears.closed and [one for _, one in played.told if isinstance(one, Over)]


def test_a_clip_alone_changes_nothing() -> None:
    played, _ = with_ears((ASKED[0] + 1_000, Clip(b"")))
    assert played.log.text == UNTOUCHED.log.text


def test_a_question_does_not_pass_while_somebody_is_answering_but_not_for_ever() -> None:
    clock = VirtualClock()
    played = play(ears=FakeEars(clock, in_speech=True), clock=clock)
    asked = next(ms for ms, one in played.told if isinstance(one, Put))
    passed_ = next(ms for ms, one in played.told if isinstance(one, Attempt))
    tone = THINK_MS["move"] - TONE_BEFORE_MS
    assert passed_ - asked == pytest.approx(tone + PATIENCE_MS, abs=2 * LOOK_MS)
    assert [one for _, one in played.told if isinstance(one, Over)]


SOUNDS = st.sampled_from([BG2, YES, NO, HOLD, GO_ON, NUDGE, TWO, ONE, Silence(), Onset(), Healed()])


@settings(max_examples=10)
@given(
    st.lists(st.tuples(st.integers(0, 5_000), SOUNDS), max_size=15),
    st.lists(st.integers(0, 4_000) | st.integers(60, 300), max_size=15),
    st.booleans(),
)
def test_taps_and_talk_at_once_break_nothing(
    sounds: list[tuple[int, Report]], gaps: list[int], headphones: bool
) -> None:
    clock = VirtualClock()
    at, reports, taps = 20_000, [], []
    for gap, sound in sounds:
        at += gap
        reports.append((at, sound))
    at = 20_000
    for gap in gaps:
        at += gap
        taps.append(at)
    taps += [at + 250_000, at + 251_000]  # whatever is held goes on at last
    reports.append((at + 240_000, GO_ON))
    played = play(taps, ears=FakeEars(clock, reports), clock=clock, headphones=headphones)
    assert played.code == 0 and played.session.state.quit
