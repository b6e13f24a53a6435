"""Whole lessons drawn at random are told as drawn, and every return leads to the place that was left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import chess
from hypothesis import given

from player.facts.place import Place
from player.script.follow import follow
from player.script.model import Block, Element, QuestionBlock
from player.script.read import read
from player.script.told import (
    Text,
    Told,
    ToldBeat,
    ToldBlock,
    ToldBoard,
    ToldFine,
    ToldQuestion,
    Turn,
)
from tests.script.corpora import moves_told, outcome_of, questions, turns
from tests.script.lessons import Drawn, lessons


@given(lessons())
def test_a_drawn_lesson_is_told_as_it_was_drawn(drawn: Drawn) -> None:
    said = outcome_of(drawn.script)
    assert said.faults == ()
    assert [(scope, san) for scope, san in moves_told(said.told.body)] == list(drawn.told)


@given(lessons())
def test_after_each_return_the_place_is_the_one_that_was_left(drawn: Drawn) -> None:
    body = outcome_of(drawn.script).told.body
    _walk(body, Place())


def _walk(body: Sequence[Told], place: Place) -> Place:
    """Goes through a body as a listener would; returns where it ends."""
    for told in body:
        if isinstance(told, ToldBeat):
            assert told.before == place
            place = _play(told.text, place)
            assert told.after == place
        elif isinstance(told, ToldBlock):
            assert told.outer == place
            if told.kind == "aside":
                assert told.inner == place
            elif told.kind == "instead":
                assert told.inner == Place(place.root, place.moves[:-1])
            _walk(told.body, told.inner)
        elif isinstance(told, ToldBoard):
            assert told.before == place
            place = told.after
        elif not isinstance(told, ToldFine):
            assert told.place == place
    return place


def _play(text: Text, place: Place) -> Place:
    """The place after the moves of a text; each is legal, leads on from the last, and is named right."""
    at = 0
    for deed in text.deeds:
        assert at <= deed.at <= len(text.shown)
        at = deed.at
        if isinstance(deed.do, Turn):
            board = place.board()
            assert deed.do.before == place
            assert board.parse_san(deed.do.san) == chess.Move.from_uci(deed.do.uci)
            place = place.then(deed.do.uci)
            assert deed.do.after == place
    return place


@given(lessons())
def test_a_move_question_is_answered_by_the_next_move_at_its_depth(drawn: Drawn) -> None:
    def look(body: Sequence[Told]) -> None:
        for number, told in enumerate(body):
            if isinstance(told, ToldBlock):
                look(told.body)
            if isinstance(told, ToldQuestion) and told.kind == "move":
                later = [
                    turn for beat in body[number:] if isinstance(beat, ToldBeat) for turn in turns(beat.text)
                ]
                assert told.answer == later[0]
                assert told.answers == (later[0].uci,)
                assert told.because is None or turns(told.because) == []

    look(outcome_of(drawn.script).told.body)


@given(lessons())
def test_the_questions_side_tracks_begin_where_the_learner_would_stand(drawn: Drawn) -> None:
    for question in questions(outcome_of(drawn.script).told.body):
        for reply in (*question.also, *question.replies):
            assert len(reply.places) == len(reply.answers)
            if question.kind == "move":
                board = question.place.board()
                for uci, place in zip(reply.answers, reply.places, strict=True):
                    assert chess.Move.from_uci(uci) in board.legal_moves
                    assert place == question.place.then(uci)
                _play(reply.text, reply.places[0])


@given(lessons())
def test_taking_the_questions_out_leaves_the_game_as_it_is(drawn: Drawn) -> None:
    lesson, _ = read(drawn.script)
    without = replace(lesson, body=_without_questions(lesson.body))
    assert list(moves_told(follow(without)[0].body)) == list(moves_told(follow(lesson)[0].body))


def _without_questions(body: Sequence[Element]) -> tuple[Element, ...]:
    kept = [element for element in body if not isinstance(element, QuestionBlock)]
    return tuple(
        replace(element, body=_without_questions(element.body)) if isinstance(element, Block) else element
        for element in kept
    )


@given(lessons())
def test_reading_and_following_give_the_same_every_time(drawn: Drawn) -> None:
    first, second = read(drawn.script), read(drawn.script)
    assert first == second
    assert follow(first[0]) == follow(second[0])
