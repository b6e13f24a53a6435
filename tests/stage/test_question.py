"""A question's life, through the stage's one door."""

from __future__ import annotations

import pytest

from player.stage.advance import advance, begin
from player.stage.happenings import Attempt, Board, Over, Put, Say
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from tests.stage.playing import Playing
from tests.stage.sheets import LESSON, sheet_of


def asked() -> Playing:
    """A lesson that has just put its first question."""
    playing = Playing(sheet_of(LESSON)).start()
    assert isinstance(playing.seen[-1], Put)
    return playing


def grades(playing: Playing) -> list[str]:
    return [h.grade for h in playing.seen if isinstance(h, Attempt)]


def test_the_answer_is_played_praised_and_the_telling_goes_on() -> None:
    playing = asked()
    playing.type("the bishop goes to g2")
    assert grades(playing) == ["right"]
    said = playing.said()
    yes = next(i for i, text in enumerate(said) if text.startswith("Yes: Bg2"))
    assert said[yes + 1] == "The diagonal is open."
    assert "Home at last." in said[yes + 2 :]


def test_after_the_answer_the_board_never_falls_back() -> None:
    playing = asked()
    mark = len(playing.seen)
    playing.type("Bg2")
    boards = [h for h in playing.seen[mark:] if isinstance(h, Board)]
    assert boards[0].why == "answer"
    assert boards[0].move == "f1g2"
    assert all("f1g2" in h.place.moves or h.place.root != boards[0].place.root for h in boards)


def test_an_also_move_has_its_words_and_the_lesson_goes_on_with_the_told_move() -> None:
    playing = asked()
    playing.type("Bh3")
    assert grades(playing) == ["also"]
    said = playing.said()
    at = said.index("Sound too.")
    assert said[at + 1] == "Here we go on with Bg2."
    assert "Home at last." in said[at:]


def test_a_wrong_move_gets_the_coachs_reply_and_the_question_stands() -> None:
    playing = asked()
    place = playing.place
    playing.type("Nc3")
    assert grades(playing) == ["wrong"]
    assert "That hides the knight behind a pawn." in playing.said()
    assert playing.place == place
    assert playing.state.asked is not None
    playing.type("Nc3")
    assert "nudge" in playing.said()[-1]


def test_a_wrong_move_nobody_spoke_of_is_looked_into() -> None:
    playing = asked()
    playing.type("h3")
    assert grades(playing) == ["wrong"]
    assert "Nobody has said why not h2h3." in playing.said()
    assert playing.state.asked is not None


def test_the_coachs_word_for_all_other_moves_is_said_too() -> None:
    playing = asked()
    playing.type("Bg2")
    assert playing.state.asked is not None
    playing.type("b4")
    assert "Something calmer." in playing.said()


def test_later_tries_do_not_worsen_the_first() -> None:
    playing = asked()
    playing.type("Nc3")
    playing.type("Bg2")
    tries = [(h.grade, h.number) for h in playing.seen if isinstance(h, Attempt)]
    assert tries == [("wrong", 1), ("right", 2)]


@pytest.mark.parametrize("text", ["Bh4", "O-O-O", "e9", "knight", "Nd2 or Nc3", "asdf", "look", "where"])
def test_what_is_illegal_double_or_unclear_is_never_a_try(text: str) -> None:
    playing = asked()
    playing.type(text)
    assert grades(playing) == []
    assert playing.notes()
    assert playing.state.asked is not None


def test_which_is_settled_by_one_word() -> None:
    source = LESSON.replace("{Nf6} comes next.", "{Nf6} comes next.\n\n{d3} {h6}.").replace(
        "{d3}. And there", "{b3}. And there"
    )
    playing = Playing(sheet_of(source)).start()
    playing.type("knight to d2")
    assert playing.state.which is not None
    playing.type("b")
    assert [h.meant for h in playing.seen if isinstance(h, Attempt)] == ["b1d2"]


def test_tell_me_gives_the_answer_and_why() -> None:
    playing = asked()
    playing.type("tell me")
    assert grades(playing) == ["told"]
    said = playing.said()
    at = said.index("The answer is Bg2.")
    assert said[at + 1] == "The diagonal is open."
    assert "Home at last." in said


def test_a_silence_that_passes_is_never_wrong() -> None:
    playing = Playing(sheet_of(LESSON), Telling(wait=False), think=True).start()
    assert grades(playing) == ["passed", "passed"]
    assert isinstance(playing.seen[-1], Over)


def test_an_answer_looked_up_is_seen_not_known() -> None:
    playing = asked()
    playing.type("tell me")
    playing.feed(Did("go to", "question 1"))
    playing.type("Bg2")
    assert grades(playing)[-1] == "seen"


def test_a_what_if_before_the_answer_returns_to_the_question() -> None:
    playing = asked()
    place = playing.place
    playing.type("what if e4 dxe4")
    assert playing.place != place
    playing.type("undo")
    playing.type("home")
    assert playing.place == place
    playing.type("Bg2")
    assert grades(playing) == ["right"]


def test_nudges_come_rung_by_rung_and_are_counted() -> None:
    playing = asked()
    playing.type("nudge")
    assert playing.said()[-1] == "Think of the long diagonal."
    for rung in ("It is a move of a bishop.", "Look at the kingside."):
        playing.type("nudge")
        assert playing.said()[-1] == rung
    playing.type("nudge")
    assert playing.said()[-1].startswith("Bishop to g2, because it ")
    playing.type("nudge")
    assert "tell me" in playing.notes()[-1]
    playing.type("Bg2")
    assert [h.nudges for h in playing.seen if isinstance(h, Attempt)] == [4]


def test_a_question_without_the_coachs_nudges_has_some_read_off_its_answer() -> None:
    playing = asked()
    playing.type("Bg2")
    playing.type("nudge")
    assert playing.said()[-1] == "One of your men needs more room."
    playing.type("nudge")
    assert playing.said()[-1] == "It is a pawn's move."


def test_the_question_and_its_answer_are_said_once_each() -> None:
    playing = asked()
    playing.type("Bg2")
    questions = [h for h in playing.seen if isinstance(h, Say) and h.role == "question"]
    assert len(questions) == 2


def test_an_answer_given_while_the_question_is_being_asked_is_an_answer() -> None:
    sheet = sheet_of(LESSON)
    state = begin(sheet, Telling())
    state, _ = advance(state, Did("go to", "question 1"))
    assert state.asked is None
    state, out = advance(state, Typed("Bg2"))
    assert [h.grade for h in out if isinstance(h, Attempt)] == ["right"]
