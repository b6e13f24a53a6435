"""Saying it plainer, and choices that are kept."""

from __future__ import annotations

import chess
from hypothesis import given
from hypothesis import strategies as st

from player.facts.place import Place
from player.stage.advance import advance, begin
from player.stage.happenings import Note, Say, Tuned
from player.stage.inputs import Did, Heard
from player.stage.plainer import DEPTHS, in_plain_words
from player.stage.state import Telling
from player.wording.describe import describe
from player.wording.say import say
from tests.stage.playing import Playing
from tests.stage.sheets import LESSON, sheet_of


def notes(playing: Playing, text: str) -> list[str]:
    return [one.text for one in playing.type(text) if isinstance(one, Note)]


def test_each_time_at_the_same_place_it_goes_one_depth_further_and_begins_anew() -> None:
    playing = Playing(sheet_of(LESSON), Telling(by_beat=True)).start()
    place = playing.place
    said = [notes(playing, "plainer")[0] for _ in range(4)]
    assert said[:3] == [in_plain_words(place, depth) for depth in DEPTHS]
    assert said[3] == said[0] and said[2] == describe(place.board(), "pieces")
    assert notes(playing, "plainer gist") == [said[1]]
    assert notes(playing, "say it plainer") == [said[2]]


def test_where_it_begins_is_a_choice() -> None:
    playing = Playing(sheet_of(LESSON), Telling(by_beat=True, depth="pieces")).start()
    assert notes(playing, "plainer") == [describe(playing.place.board(), "pieces")]


def test_another_depth_is_told_of() -> None:
    playing = Playing(sheet_of(LESSON), Telling(by_beat=True)).start()
    assert notes(playing, "plainer deeper") == ["Say 'plainer' alone, or with move, gist or pieces."]


@given(st.lists(st.integers(0, 200), max_size=60))
def test_the_move_in_plain_words_is_the_move(choices: list[int]) -> None:
    board, place = chess.Board(), Place()
    for choice in choices:
        legal = list(board.legal_moves)
        if not legal:
            return
        move = legal[choice % len(legal)]
        text = in_plain_words(place.then(move.uci()), "move")
        assert text.startswith("White" if board.turn else "Black")
        assert chess.square_name(move.to_square) in text
        assert ("took" in text) == board.is_capture(move)
        assert ("check" in text.casefold()) == board.gives_check(move)
        if board.is_castling(move):
            assert "castled" in text and "castles" in say(board, move).spoken
        board.push(move)
        place = place.then(move.uci())


def test_only_listened_to_a_sentence_begins_again_after_a_pause() -> None:
    playing = Playing(sheet_of(LESSON), Telling(ear=True))
    state_before = playing.feed(Did("start")).state
    assert state_before.telling.ear
    state, out = advance(begin(sheet_of(LESSON), Telling(ear=True)), Did("start"))
    first = next(one for one in out if isinstance(one, Say))
    state, _ = advance(state, Heard(first.saying, 900, 3))
    state, _ = advance(state, Did("pause"))
    state, _ = advance(state, Heard(first.saying, 1_000, 4))
    state, out = advance(state, Did("go on"))
    again = next(one for one in out if isinstance(one, Say))
    assert (again.what, again.from_word, again.from_ms) == (first.what, 0, None)


def test_choices_are_handed_on_to_be_kept() -> None:
    playing = Playing(sheet_of(LESSON), Telling(by_beat=True)).start()
    playing.type("speed 1.25")
    playing.type("squares alphabet")
    out = playing.type("remember")
    assert out == [Tuned("remembered", "speed 1.25, silences 1, squares by alphabet, ear mode off")]
    assert playing.type("set volume 0.5") == [Tuned("set", "volume 0.5")]
    assert notes(playing, "set volume") == ["Say which setting and its value, such as: set volume 0.5"]


def test_what_is_said_of_a_tried_move_does_not_stand_in_the_way_of_the_next() -> None:
    state, _ = advance(begin(sheet_of(LESSON), Telling(ear=True)), Did("start"))
    for verb, words in (("what if", "e2e4"), ("say", "e7e5"), ("what if", "g1f3"), ("undo", "")):
        state, _ = advance(state, Did(verb, words))
    assert [frame.why for frame in state.frames].count("what-if") == 1
    assert state.place.moves[-2:] == ("e2e4", "e7e5")
