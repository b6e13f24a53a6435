"""Whole lessons told, sought, resumed and returned from, over drawn lessons with everything nested."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet
from player.script.follow import follow
from player.script.read import read
from player.stage.advance import advance, begin
from player.stage.happenings import Board, Note, Over, Put, Say, Scoped
from player.stage.inputs import Did
from player.stage.state import Telling
from tests.script.lessons import Drawn, lessons
from tests.stage.playing import Playing
from tests.stage.sheets import LESSON, sheet_of

SLOW = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))


def sheet_drawn(drawn: Drawn) -> Sheet:
    lesson, _ = read(drawn.script)
    told, _ = follow(lesson)
    return compile_lesson(told)


def check_told(sheet: Sheet, telling: Telling) -> None:
    """Nobody answers: the lesson tells itself to its end, and after each return the place is the one left."""
    playing = Playing(sheet, telling, think=True).start()
    assert isinstance(playing.seen[-1], Over)
    place = sheet.steps[0].before
    left: list[int] = []
    for happening in playing.seen:
        if isinstance(happening, Scoped) and happening.opened:
            left.append(happening.scope)
        elif isinstance(happening, Board):
            place = happening.place
        elif isinstance(happening, Scoped):
            assert left.pop() == happening.scope
    assert not left
    assert place == sheet.steps[-1].after


@SLOW
@given(lessons(), st.booleans())
def test_a_drawn_lesson_tells_itself_to_its_end(drawn: Drawn, ear: bool) -> None:
    sheet = sheet_drawn(drawn)
    if sheet.steps:
        check_told(sheet, Telling(wait=False, ear=ear))


@SLOW
@given(lessons())
def test_every_return_is_to_the_place_left(drawn: Drawn) -> None:
    sheet = sheet_drawn(drawn)
    for scope in sheet.scopes:
        back = sheet.steps[scope.last]
        assert back.kind == "return"
        assert back.before == back.after == scope.outer
        state, _ = advance(begin(sheet, Telling(ear=True)), Did("go to", f"step {back.key}"))
        assert state.place == scope.outer


@SLOW
@given(lessons(), st.data())
def test_every_step_can_be_entered_cold(drawn: Drawn, data: st.DataObject) -> None:
    sheet = sheet_drawn(drawn)
    if not sheet.steps:
        return
    index = data.draw(st.integers(0, len(sheet.steps) - 1))
    step = sheet.steps[index]
    state = begin(sheet, Telling(ear=True))
    state, _ = advance(state, Did("go to", f"step {step.key}"))
    if step.say is not None and step.say.spoken:
        assert state.lesson.at == index
        assert state.place == (step.after if step.kind == "board" else step.before)
        assert state.scopes == step.scopes


@SLOW
@given(lessons(), st.data())
def test_home_comes_home_from_any_what_if(drawn: Drawn, data: st.DataObject) -> None:
    sheet = sheet_drawn(drawn)
    if not sheet.steps:
        return
    index = data.draw(st.integers(0, len(sheet.steps) - 1))
    playing = Playing(sheet, Telling(by_beat=True)).start()
    playing.feed(Did("go to", f"step {sheet.steps[index].key}"))
    place = playing.place
    if not place.playable:
        return
    for _ in range(3):
        moves = sorted(move.uci() for move in playing.place.board().legal_moves)
        if not moves:
            break
        playing.type(f"what if {data.draw(st.sampled_from(moves))}")
    playing.type("home")
    assert playing.place == place
    assert len(playing.state.frames) == 1


def test_seeking_to_a_part_a_time_and_a_question() -> None:
    sheet = sheet_of(LESSON)
    playing = Playing(sheet, Telling(by_beat=True)).start()
    playing.type("go to part 2")
    assert playing.state.lesson.at >= sheet.parts[1].first
    playing.type("go to question 2")
    assert isinstance(playing.seen[-1], Put)
    playing.type("go to 0:00")
    assert playing.state.lesson.at < sheet.parts[1].first
    playing.type("part the middle")
    assert playing.state.lesson.at >= sheet.parts[1].first
    playing.type("go to question 9")
    assert "no 'question 9'" in playing.notes()[-1]


def test_skipping_an_aside_still_hears_its_return() -> None:
    sheet = sheet_of(LESSON)
    playing = Playing(sheet, Telling(by_beat=True)).start()
    playing.feed(Did("go to", f"step {sheet.steps[sheet.scopes[0].first + 1].key}"))
    assert playing.state.scopes == (0,)
    playing.type("skip")
    assert playing.said()[-1] == "Back we go."
    assert playing.place == sheet.scopes[0].outer


def test_an_aside_is_walked_by_name_and_comes_back() -> None:
    playing = Playing(sheet_of(LESSON), Telling()).start()
    assert playing.state.asked is not None
    asked = playing.state.asked
    place = playing.place
    playing.type("If Black hurries")
    assert "Back we go." in playing.said()
    assert playing.place == place
    assert playing.state.asked == asked


def test_questions_only_leaves_the_narration_out() -> None:
    playing = Playing(sheet_of(LESSON), Telling(questions_only=True)).start()
    assert playing.said() == ["White to move. Where does the bishop live?"]
    playing.type("Bg2")
    assert playing.said()[-1] == "White to move. Which quiet move backs e4?"
    playing.type("tell me")
    assert playing.said()[-2:] == ["The answer is d3.", "And there we stop."]
    assert isinstance(playing.seen[-1], Over)


def test_who_comes_back_to_a_question_is_asked_it_again() -> None:
    playing = Playing(sheet_of(LESSON), Telling()).start()
    asked = playing.state.asked
    assert asked is not None
    playing.seen.clear()
    playing.feed(Did("resume"))
    notes = [one.text for one in playing.seen if isinstance(one, Note)]
    assert notes == ["Back at the question: White to move. Where does the bishop live?"]
    assert isinstance(playing.seen[-1], Put) and playing.state.asked == asked


def test_by_beat_waits_after_every_beat() -> None:
    playing = Playing(sheet_of(LESSON), Telling(by_beat=True)).start()
    assert playing.said() == ["Good evening.", "White begins Nf3, Black takes d5, and now g3."]
    playing.type("")
    assert playing.said()[-1].startswith("A bishop on g2")


def test_ear_mode_announces_what_the_eye_would_see() -> None:
    playing = Playing(sheet_of(LESSON), Telling(ear=True, wait=False), think=True).start()
    said = " ".join(playing.said())
    for wanted in ("question", "Part", "Imagined", "White: king"):
        assert wanted.casefold() in said.casefold()


@pytest.mark.parametrize("word", ["slower", "faster", "speed 2"])
def test_a_new_speed_goes_on_at_the_same_word(word: str) -> None:
    state = begin(sheet_of(LESSON), Telling())
    state, out = advance(state, Did("start"))
    playing = Playing(sheet_of(LESSON), Telling())
    playing.state = state
    before = state.telling.speed
    playing.state, out = advance(state, Did(*word.split(" ", 1)) if " " in word else Did(word))
    assert playing.state.telling.speed != before
    assert len(out) >= 2


@pytest.mark.parametrize(("name", "word"), [("names", "Gustav"), ("alphabet", "golf")])
def test_squares_are_named_another_way_from_now_on(name: str, word: str) -> None:
    playing = Playing(sheet_of(LESSON), Telling(by_beat=True)).start()
    playing.type(f"squares {name}")
    playing.feed(Did("go to", "start"))
    spoken = " ".join(h.what.spoken for h in playing.seen if isinstance(h, Say))
    assert word.casefold() in spoken.casefold()
    moves = [h.move for h in playing.seen if isinstance(h, Board) and h.why == "told"]
    assert moves == ["g1f3", "d7d5", "g2g3"] * 2


def test_an_aside_walked_from_within_an_aside_comes_back_into_it() -> None:
    sheet = sheet_of(LESSON)
    playing = Playing(sheet, Telling(by_beat=True)).start()
    playing.feed(Did("go to", f"step {sheet.steps[sheet.scopes[0].first + 1].key}"))
    assert playing.state.scopes == (0,)
    place = playing.place
    mark = len(playing.seen)
    playing.type("aside 2")
    while len(playing.state.frames) > 1:
        playing.type("")
    assert playing.place == place
    assert playing.state.scopes == (0,)
    changes = [(h.scope, h.opened) for h in playing.seen[mark:] if isinstance(h, Scoped)]
    assert changes == [(0, True), (1, True), (1, False), (0, False)]


def test_enter_leaves_only_the_moves_tried() -> None:
    sheet = sheet_of(LESSON)
    playing = Playing(sheet, Telling(by_beat=True)).start()
    playing.type("aside 1")
    assert [frame.why for frame in playing.state.frames] == ["lesson", "aside"]
    playing.type("what if a3")
    playing.type("")
    assert [frame.why for frame in playing.state.frames] == ["lesson", "aside"]
    playing.type("home")
    assert [frame.why for frame in playing.state.frames] == ["lesson"]
