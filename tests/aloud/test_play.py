"""A hands-free lesson as a listener has it: nothing touched, one key tapped, rudely or politely."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from player.aloud import opening
from player.aloud.taps import WINDOW_MS
from player.cues.starts import THINK_MS
from player.session.opening import open_session
from player.session.session import Session
from player.stage.happenings import Attempt, Hush, Over, Put, Quit, Say, Tuned, Wake
from player.stage.inputs import Did
from player.stage.state import Telling
from player.world.clock import VirtualClock
from tests.aloud.playing import ALOUD, Played, play
from tests.golden import Golden
from tests.stage.sheets import LESSON, sheet_of


def begun(played: Played) -> int:
    """When the telling itself began."""
    return next(ms for ms, one in played.told if isinstance(one, Say))


UNTOUCHED = play()
START = begun(UNTOUCHED)


def told(played: Played, kind: type[object]) -> list[object]:
    return [one for _, one in played.told if isinstance(one, kind)]


def test_untouched_it_is_told_to_its_end_and_leaves_by_itself() -> None:
    assert UNTOUCHED.code == 0 and len(told(UNTOUCHED, Over)) == 1
    assert [one.to for one in told(UNTOUCHED, Quit)] == [""]  # type: ignore[attr-defined]
    lines = [line for _, line in UNTOUCHED.log.lines]
    assert lines[:2] == [f"Lesson: {opening.CAUTIONS}", f"Lesson: {opening.TAPS}"]
    assert "has 2 questions" in lines[2]
    assert lines[-2:] == [f"Lesson: {opening.TOLD}", "Lesson: Goodbye."]


def test_untouched_it_reads_as_it_did(golden: Golden) -> None:
    golden("untouched.txt", f"{UNTOUCHED.log.text}\n")


def test_every_question_leaves_its_silence_with_a_tone_before_the_answer() -> None:
    puts = [(ms, one) for ms, one in UNTOUCHED.told if isinstance(one, Put)]
    assert len(puts) == 2
    for ms, put in puts:
        passed = next(at for at, one in UNTOUCHED.told if isinstance(one, Attempt) and at >= ms)
        assert passed - ms == put.think_ms == THINK_MS["move"]
        wake = next(one for at, one in UNTOUCHED.told if isinstance(one, Wake) and at >= ms)
        assert wake.tone_ms == 2_000
    assert [one.grade for one in told(UNTOUCHED, Attempt)] == ["passed"] * 2  # type: ignore[attr-defined]


@pytest.mark.parametrize("scale", [0.3, 2.0, 10.0])
def test_silences_scale_as_one_likes(scale: float) -> None:
    played = play(telling=replace(ALOUD, silence=scale))
    ms = [one.think_ms for one in told(played, Put)]  # type: ignore[attr-defined]
    assert ms == [round(THINK_MS["move"] * scale)] * 2


def test_with_wait_for_me_a_question_waits_and_a_lesson_without_anybody_is_left() -> None:
    played = play(telling=replace(ALOUD, wait=True))
    assert not told(played, Over) and len(told(played, Put)) == 1
    assert played.log.text.endswith("Lesson: Goodbye. The lesson keeps your place.")


def test_a_tap_during_the_cautions_goes_on_to_the_lesson() -> None:
    played = play([2_000])
    assert begun(played) < 2_100 and opening.TAPS not in played.log.text and told(played, Over)


def test_the_first_tap_hushes_at_once_and_a_second_goes_on_from_the_sentence_s_start() -> None:
    at = START + 5_000
    played = play([at, at + 60_000])
    hush = next(ms for ms, one in played.told if isinstance(one, Hush))
    assert hush == at
    before = [one for ms, one in played.told if isinstance(one, Say) and ms < at][-1]
    again = next(one for ms, one in played.told if isinstance(one, Say) and ms > at)
    assert (again.step, again.from_word, again.from_ms) == (before.step, 0, None)
    assert not [one for ms, one in played.told if at + 1 < ms < at + 60_000]


def test_two_taps_repeat_and_three_tell_where_we_are() -> None:
    at = START + 20_000
    twice = play([at, at + 200])
    says = [one.step for ms, one in twice.told if isinstance(one, Say)]
    assert len(says) == len(told(UNTOUCHED, Say)) + 1
    thrice = play([at, at + 200, at + 400])
    assert "Lesson: Part 1 of 2" in thrice.log.text and told(thrice, Over)
    assert len(thrice.log.lines) == len(UNTOUCHED.log.lines) + 2, "it is told, and the sentence begins again"


def _put(played: Played, number: int = 0) -> int:
    return [ms for ms, one in played.told if isinstance(one, Put)][number]


def test_a_question_is_answered_with_taps_alone() -> None:
    """Menu, "Answer", then one tap as soon as what is meant has been offered."""
    taps = [_put(UNTOUCHED) + 1_000 + 150 * n for n in range(4)]
    for words in ("Answer?", "The bishop on f1, ", "To g2?"):
        played = play(taps)
        heard = played.log.at(words) if words in played.log.text else None
        assert heard is not None, played.log.text
        taps.append(heard + 800)
    played = play(taps)
    grades = [one.grade for one in told(played, Attempt)]  # type: ignore[attr-defined]
    assert grades == ["right", "passed"] and "You: Bg2, bishop to g2." in played.log.text


def test_a_change_made_by_taps_is_said() -> None:
    taps = [START + 3_000 + 150 * n for n in range(4)]
    for words in ("How it is told?", "Slower?"):
        taps.append(play(taps).log.at(words) + 800)
    played = play(taps)
    assert told(played, Tuned) == [Tuned("speed", "0.9")]
    assert "Lesson: Speed: 0.9." in played.log.text and told(played, Over)


def test_the_next_lesson_is_offered_and_a_tap_goes_there(tmp_path: Path) -> None:
    sheet = replace(sheet_of(LESSON), following=("/next.lesson", "Another walk"))
    alone = play(sheet=sheet)
    assert [one.to for one in told(alone, Quit)] == [""]  # type: ignore[attr-defined]
    end = alone.log.at("One tap goes on with the next one, Another walk.")
    assert alone.clock.now_ms() - end > opening.NEXT_MS
    tapped = play([end + 7_000], sheet=sheet)
    assert [one.to for one in told(tapped, Quit)] == ["/next.lesson"]  # type: ignore[attr-defined]


def test_told_at_once_it_takes_no_time_and_no_taps() -> None:
    played = play([0, 1], telling=replace(ALOUD, at_once=True))
    assert played.clock.now_ms() == 0 and told(played, Over)
    assert played.log.lines[-1][1] == "Lesson: Goodbye."


def test_where_it_stopped_it_goes_on_from_the_sentence_s_start(tmp_path: Path) -> None:
    journal = tmp_path / "journal"
    clock = VirtualClock()
    session: Session = open_session(sheet_of(LESSON), LESSON, ALOUD, clock, journal_file=journal)
    session.start()
    session.feed(Did("go to", "part 2"))
    session.close()
    played = play(journal=journal)
    assert opening.RESUMED in played.log.text and "has 2 questions" in played.log.text
    assert "Ines: Good evening." not in played.log.text and told(played, Over)


@pytest.mark.parametrize("told_", [Telling(ear=True, wait=False, questions_only=True)])
def test_questions_alone_are_told_of_first_too(told_: Telling) -> None:
    played = play(telling=told_)
    assert "has 2 questions" in played.log.lines[2][1] and len(told(played, Put)) == 2


@settings(max_examples=25)
@given(
    st.lists(
        st.integers(0, 4_000) | st.integers(0, WINDOW_MS) | st.integers(60, 200), min_size=1, max_size=60
    )
)
def test_a_rude_tapper_breaks_nothing_and_the_lesson_can_still_be_heard_out(gaps: list[int]) -> None:
    taps: list[int] = []
    at = START
    for gap in gaps:
        at += gap
        taps.append(at)
    played = play(taps)
    assert played.code == 0
    assert played.session.state.quit
    assert not [line for _, line in played.log.lines if "Traceback" in line]


def test_the_cautions_are_said_once_in_a_run_of_lessons() -> None:
    again = play(warned=True)
    assert opening.CAUTIONS not in again.log.text and "has 2 questions" in again.log.lines[0][1]
