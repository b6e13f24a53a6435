"""Whole lessons drawn at random, compiled: steps that can be entered cold, and returns that return."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from hypothesis import given

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet, Step
from player.script.follow import follow
from player.script.model import Beat, Lesson, Words
from player.script.told import ToldLesson
from tests.cues.compiled import tracks_of, turns
from tests.script.corpora import moves_told
from tests.script.lessons import HERE, Drawn, lessons


def told_of(lesson: Lesson) -> ToldLesson:
    told, faults = follow(lesson)
    assert not [fault for fault in faults if fault.severity == "fault"]
    return told


def sheet_of(drawn: Drawn) -> Sheet:
    return compile_lesson(told_of(drawn.lesson))


def every_step(sheet: Sheet) -> Iterable[Step]:
    """The steps of the lesson and of all its side tracks."""
    yield from sheet.steps
    for index in sheet.questions:
        for track in tracks_of(sheet.steps[index]):
            yield from track


@given(lessons())
def test_every_step_can_be_entered_cold(drawn: Drawn) -> None:
    for step in every_step(sheet_of(drawn)):
        place = step.before
        for turn in turns(step):
            assert turn.before == place
            assert turn.uci in {move.uci() for move in place.board().legal_moves}
            place = place.then(turn.uci)
        assert place == step.after


@given(lessons())
def test_the_board_changes_by_moves_or_where_a_step_sets_it(drawn: Drawn) -> None:
    steps = sheet_of(drawn).steps
    for step, following in pairwise(steps):
        if following.kind not in ("enter", "return", "board"):
            assert step.after == following.before
            assert step.scopes == following.scopes


@given(lessons())
def test_all_moves_are_told_in_order(drawn: Drawn) -> None:
    sheet = sheet_of(drawn)
    made = [
        ("/".join(sheet.scopes[scope].kind for scope in step.scopes) or "main", turn.san)
        for step in sheet.steps
        for turn in turns(step)
    ]
    assert made == list(drawn.told)
    assert [list(move) for move in made] == list(moves_told(told_of(drawn.lesson).body))


@given(lessons())
def test_a_block_is_a_range_that_ends_with_its_return(drawn: Drawn) -> None:
    sheet = sheet_of(drawn)
    for number, scope in enumerate(sheet.scopes):
        enter, back = sheet.steps[scope.first], sheet.steps[scope.last]
        assert (enter.kind, back.kind) == ("enter", "return")
        assert enter.before == enter.after == scope.inner
        assert back.before == back.after == scope.outer == sheet.steps[scope.first - 1].after
        assert back.scopes == enter.scopes[:-1] == sheet.steps[scope.first - 1].scopes
        assert [i for i, step in enumerate(sheet.steps) if number in step.scopes] == list(
            range(scope.first, scope.last)
        )
    assert sum(step.kind == "return" for step in sheet.steps) == len(sheet.scopes)


@given(lessons())
def test_cues_come_in_order_within_the_words(drawn: Drawn) -> None:
    for step in every_step(sheet_of(drawn)):
        limit = len(step.say.spoken.split()) if step.say is not None else 0
        at = [cue.word for cue in step.cues]
        assert at == sorted(at)
        assert all(0 <= word <= limit for word in at)
        if step.say is not None:
            assert len(step.say.words) == limit


@given(lessons())
def test_keys_are_the_steps_own(drawn: Drawn) -> None:
    sheet = sheet_of(drawn)
    keys = [step.key for step in sheet.steps]
    assert len(set(keys)) == len(keys)
    assert all(sheet.index(key) == index for index, key in enumerate(keys))
    aside = [step.key for step in every_step(sheet)][len(keys) :]
    assert not set(aside) & set(keys)


@given(lessons())
def test_keys_outlive_new_words_and_stamps_elsewhere(drawn: Drawn) -> None:
    before = [step.key for step in sheet_of(drawn).steps]
    more = Beat((Words("Something entirely new was said. It is quite short.", HERE),), None, HERE)
    body = tuple(
        replace(element, stamp_ms=None) if isinstance(element, Beat) else element
        for element in drawn.lesson.body
    )
    sheet = compile_lesson(told_of(Lesson(drawn.lesson.header, (more, *body))))
    assert [step.key for step in sheet.steps if step.key in set(before)] == before
    assert len(sheet.steps) == len(before) + 2


@given(lessons())
def test_a_question_knows_the_step_that_answers_it(drawn: Drawn) -> None:
    sheet = sheet_of(drawn)
    for index in sheet.questions:
        step = sheet.steps[index]
        ask = step.ask
        assert ask is not None
        position = sheet.steps[index - 1]
        assert position.ear_only and position.before == ask.place == step.before == step.after
        if ask.kind != "move":
            assert ask.told is None
            continue
        assert ask.answer is not None and ask.told is not None and ask.told > index
        telling = sheet.steps[ask.told]
        assert ask.answer == turns(telling)[0]
        assert telling.scopes == step.scopes
        assert not any(turns(between) for between in sheet.steps[index : ask.told])
        for reply in (*ask.also, *ask.replies):
            (answer,) = reply.answers
            assert all(
                step.before.moves[: len(ask.place.moves) + 1] == (*ask.place.moves, answer)
                for step in reply.track
            )


@given(lessons())
def test_time_never_runs_back_and_stamps_hold(drawn: Drawn) -> None:
    sheet = sheet_of(drawn)
    assert len(sheet.starts) == len(sheet.steps) + 1
    assert list(sheet.starts) == sorted(sheet.starts)
    for step, start in zip(sheet.steps, sheet.starts, strict=False):
        if step.stamp_ms is not None:
            assert start == step.stamp_ms


@given(lessons(stamps=True))
def test_all_stamps_of_the_script_are_kept(drawn: Drawn) -> None:
    kept = [step.stamp_ms for step in sheet_of(drawn).steps if step.stamp_ms is not None]
    assert kept == sorted(kept)
    beats = [element.stamp_ms for element in drawn.lesson.body if isinstance(element, Beat)]
    assert {stamp for stamp in beats if stamp is not None} <= set(kept)


@given(lessons())
def test_silences_are_longest_around_parts_and_blocks(drawn: Drawn) -> None:
    steps = sheet_of(drawn).steps
    for step, following in pairwise(steps):
        if following.kind == "part" or (following.kind in ("enter", "return") and step.kind != "enter"):
            assert step.rest_ms >= 700 or step.kind == "rest"
        if step.beat == following.beat and step.kind == "tell" and not step.ear_only:
            assert step.rest_ms <= following.rest_ms
