"""A session performs what the stage asks for."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from player.facts.place import Place
from player.session.learn import learn_or_own
from player.session.session import Told
from player.stage.happenings import Attempt, Board, Note, Over, Put, Quit, Say, Wake
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from player.wording.utterance import Utterance
from tests.session.sessions import Playing
from tests.stage.sheets import sheet_of

SILENT = Telling(voice=False)


def said(playing: Playing) -> list[str]:
    return [one.what.shown for one in playing.told if isinstance(one, Say)]


def test_it_tells_up_to_the_first_question_and_then_waits_for_the_learner() -> None:
    playing = Playing(SILENT).run()
    assert isinstance(playing.told[-1], Put)
    assert playing.session.due_ms() is None, "nothing runs while a question waits"


def test_moves_land_when_their_word_begins_and_not_before() -> None:
    playing = Playing(SILENT)
    playing.session.tick()
    assert "Good evening." in said(playing)
    assert not playing.seen(Board)
    playing.run(60_000)
    landed = [t for t, one in zip(playing.times, playing.told, strict=True) if isinstance(one, Board)]
    assert landed == sorted(landed) and len(set(landed[:3])) == 3


def test_a_pause_stops_every_timer_and_goes_on_in_mid_word() -> None:
    playing = Playing(SILENT).run(2_500)
    before = said(playing)
    playing.feed(Did("pause"))
    assert playing.session.due_ms() is None
    playing.clock.sleep(600_000)
    playing.session.tick()
    assert said(playing) == before
    playing.feed(Did("go on"))
    taken_up = playing.seen(Say)[-1]
    assert isinstance(taken_up, Say) and taken_up.from_ms is not None
    assert taken_up.what.shown == before[-1]
    assert playing.session.due_ms() is not None


def test_what_was_heard_is_known_before_the_learner_is_understood() -> None:
    playing = Playing(SILENT)
    playing.session.tick()
    playing.clock.sleep(900)
    playing.feed(Did("pause"))
    frame = playing.session.state.top
    assert frame.word > 0 and frame.ms is not None and 850 <= frame.ms <= 900


def test_a_wrong_move_is_answered_with_what_was_learnt() -> None:
    def learn(place: Place, move: str) -> tuple[str, str]:
        return f"{move} drops a pawn.", "board"

    playing = Playing(SILENT, learn=learn).run().feed(Typed("a3")).run()
    assert "a2a3 drops a pawn." in said(playing)
    assert [one.grade for one in playing.told if isinstance(one, Attempt)] == ["wrong"]


def test_a_failing_search_for_the_truth_says_that_nobody_knows() -> None:
    def learn(place: Place, move: str) -> tuple[str, str]:
        raise RuntimeError("lost")

    playing = Playing(SILENT, learn=learn).run().feed(Typed("a3")).run()
    assert any("a3" in one and "nobody has said" in one for one in said(playing))


@pytest.mark.parametrize("answer", [("", "board"), ("   ", "board"), ("So it is.", "the pope")])
def test_an_answer_that_is_none_counts_as_unknown(answer: tuple[str, str]) -> None:
    sentence, standing = learn_or_own(lambda place, move: answer, Place(), "e2e4")
    assert standing == "unknown" and "e4" in sentence


def test_questions_pass_after_their_silence_with_a_tone_before(monkeypatch: pytest.MonkeyPatch) -> None:
    playing = Playing(replace(SILENT, wait=False))
    tones: list[int] = []
    monkeypatch.setattr(playing.session._voices, "tone", lambda: tones.append(playing.clock.now_ms()))
    playing.run()
    assert isinstance(playing.told[-1], Over)
    wakes = [
        (at + one.after_ms - one.tone_ms)
        for at, one in zip(playing.times, playing.told, strict=True)
        if isinstance(one, Wake) and one.tone_ms is not None
    ]
    assert tones == wakes and len(tones) == 2


def test_at_once_takes_no_time() -> None:
    playing = Playing(replace(SILENT, wait=False, at_once=True)).run()
    assert isinstance(playing.told[-1], Over)
    assert playing.clock.now_ms() == 0


def test_the_voice_can_be_switched_in_mid_sentence_and_every_move_lands_once() -> None:
    playing = Playing(SILENT).run(3_000)
    playing.feed(Did("voice", "on")).run(1_000).feed(Did("voice", "off")).run()
    moves = [one.move for one in playing.told if isinstance(one, Board) and one.why == "told"]
    plain = [one.move for one in Playing(SILENT).run().told if isinstance(one, Board) and one.why == "told"]
    assert moves == plain


def test_quitting_is_told_and_silence_follows() -> None:
    playing = Playing(SILENT).run(1_000).feed(Did("quit"))
    assert isinstance(playing.told[-1], Quit)
    assert playing.session.due_ms() is None


def test_a_listener_may_feed() -> None:
    playing = Playing(SILENT)

    def answer(told: Told) -> None:
        if isinstance(told, Put):
            playing.session.feed(Did("tell me"))

    playing.session.listen(answer)
    playing.run()
    assert isinstance(playing.told[-1], Over)


def test_it_begins_where_it_is_asked_to() -> None:
    playing = Playing(SILENT, at="question 2").run()
    put = playing.told[-1]
    assert isinstance(put, Put) and put.ask.answer is not None and put.ask.answer.san == "d3"
    assert "Good evening." not in said(playing)


def test_two_starts_are_one() -> None:
    playing = Playing(SILENT).feed(Did("start"))
    playing.session.start()
    playing.run()
    assert said(playing).count("Good evening.") == 1


def test_a_note_answers_a_command_without_ending_the_sentence() -> None:
    playing = Playing(SILENT).run(1_500)
    playing.feed(Typed("where")).run()
    assert playing.seen(Note)
    assert isinstance(playing.told[-1], Put)


def test_the_sheet_of_the_tests_has_two_questions() -> None:
    from tests.stage.sheets import LESSON

    assert len(sheet_of(LESSON).questions) == 2


def test_what_a_skin_says_of_its_own_is_timed_and_leaves_no_trace(tmp_path: Path) -> None:
    said = Utterance("one word more", "one word more", ((0, 3), (4, 8), (9, 13)))
    playing = Playing(journal=tmp_path / "journal")
    session = playing.session
    session.speak(said)
    assert session.speaking_own and session.due_ms() is not None
    while session.speaking_own:
        playing.clock.sleep(session.due_ms() or 1)
        session.tick()
    assert playing.clock.now_ms() > 300 and playing.told == []
    session.start()
    session.feed(Did("pause"))
    told = len(playing.told)
    session.speak(said)
    assert session.speaking_own
    session.feed(Did("go on"))
    assert not session.speaking_own and session.speaking, "the lesson hushes it"
    assert len(playing.told) > told
    session.feed(Did("pause"))
    session.speak(said)
    session.quiet()
    assert not session.speaking
    session.close()
    # A skin's own sayings have numbers below nought.
    assert not re.search(r'"(heard|finished)",-', (tmp_path / "journal").read_text(encoding="utf-8"))
