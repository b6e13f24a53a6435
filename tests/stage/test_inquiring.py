"""Questions to the board while a lesson is told, asked, tried and imagined."""

from __future__ import annotations

from player.stage.happenings import Attempt, Board, Need, Note, Say
from player.stage.state import Telling
from tests.stage.playing import Playing
from tests.stage.sheets import sheet_of

LESSON = """script: 1
title: Asking
coach: Ines Calder

Hello. {e4} {e5} {Qh5}.

{Nc6} {Bc4} {Nf6}.

question: White mates. How?
  reply Qxe5: Only a pawn.

{Qxf7#}. That is mate.

board: start

question: Which squares can the knight on g1 go to?
  ask: square
  answer: f3, h3

Good.
"""


def at_question() -> Playing:
    playing = Playing(sheet_of(LESSON), Telling()).start()
    assert playing.state.asked is not None
    return playing


def note(playing: Playing, words: str) -> Note:
    out = playing.type(words)
    assert not [h for h in out if isinstance(h, Attempt | Board)], words
    return next(h for h in out if isinstance(h, Note))


def test_the_board_answers_at_a_question_and_no_try_is_counted() -> None:
    playing = at_question()
    assert "knight on f6" in note(playing, "what attacks h5?").text
    assert note(playing, "who is better").standing == "unknown"
    assert playing.state.asked is not None and not playing.state.asked.tries
    out = playing.type("Qxf7")
    assert [h.grade for h in out if isinstance(h, Attempt)] == ["right"]


def test_a_question_for_the_answer_is_tell_me() -> None:
    playing = at_question()
    assert "tell me" in note(playing, "what is the best move").text
    assert "answer" in note(playing, "why not Qxe5").text


def test_an_answer_that_gives_the_move_away_counts_as_seen() -> None:
    playing = at_question()
    note(playing, "is there a mate in one?")
    out = playing.type("Qxf7")
    assert [h.grade for h in out if isinstance(h, Attempt)] == ["seen"]


def test_the_question_itself_is_not_answered() -> None:
    playing = at_question()
    playing.type("Qxf7")
    assert playing.state.asked is not None and playing.state.asked.ask.kind == "square"
    assert "stands" in note(playing, "which squares can the knight on g1 go to?").text


def test_why_not_is_learnt_after_the_question() -> None:
    playing = Playing(sheet_of(LESSON.partition("board: start")[0]), Telling()).start()
    playing.type("Qxf7")
    here = playing.state.place
    assert here.last is not None
    out = playing.type("why not Qxe5")
    assert "Only a pawn." in next(h for h in out if isinstance(h, Note)).text
    out = playing.type("why not Qg4")
    assert [h.move for h in out if isinstance(h, Need)] == ["h5g4"]
    assert [h.text for h in out if isinstance(h, Note)] == ["Nobody has said why not h5g4."]


def test_a_what_if_is_asked_about_as_it_stands() -> None:
    playing = at_question()
    playing.type("what if Qxf7")
    assert note(playing, "is it mate?").text.startswith("Yes")


def test_an_unknown_question_says_what_can_be_asked() -> None:
    playing = at_question()
    assert "You can ask" in note(playing, "why is the sky so blue?").text
    assert "where can the rook go" in note(playing, "why is the sky so blue over the rook?").text


PINS = """script: 1
title: Pins
coach: Ines Calder

{e4} {e5} {Nf3} {Nc6} {Bb5} {d6}.

question: What is pinned?
  ask: square

Good.
"""


def test_a_wrong_square_is_told_what_is_true_of_it() -> None:
    playing = Playing(sheet_of(PINS), Telling()).start()
    out = playing.type("the knight on f3")
    assert [h.grade for h in out if isinstance(h, Attempt)] == ["wrong"]
    said = next(h for h in out if isinstance(h, Say))
    assert said.what.shown == "Not f3. The white knight on f3 is not pinned."
    assert said.standing == "board"
    out = playing.type("the black knight on c6")
    assert [h.grade for h in out if isinstance(h, Attempt)] == ["right"]


def test_a_man_that_stands_alone_of_its_kind_is_an_answer_by_name() -> None:
    playing = Playing(sheet_of(PINS), Telling()).start()
    out = playing.type("the white queen")
    assert [(h.meant, h.grade) for h in out if isinstance(h, Attempt)] == [("d1", "wrong")]


def test_help_for_one_word_is_one_line() -> None:
    playing = at_question()
    assert note(playing, "help nudge").text == "nudge: A little help with the question."
    assert note(playing, "how do I quit?").text.startswith("quit: ")
    assert "nudge: " in note(playing, "help").text and "quit: " in note(playing, "help").text


WALK = """script: 1
title: A walk
coach: Ines Calder
{side}

Look. {moves}.

Now think about it.

And the end.
"""


def told(moves: str, *, side: str = "") -> Playing:
    lead = f"side: {side}\n" if side else ""
    text = WALK.replace("{side}\n", lead)
    return Playing(sheet_of(text.replace("{moves}", f"{{{moves}}}")), Telling()).start()


def test_my_is_also_asked_for_the_side_to_move_where_the_lesson_may_have_no_side() -> None:
    moves = "e4 d5 exd5 Qxd5 Nc3"
    said = note(told(moves), "is my queen under attack?").text
    assert (
        "white queen" in said and "For Black, who is to move: Yes. The black queen on d5 is attacked" in said
    )
    assert note(told(moves, side="both"), "is my queen under attack?").text.startswith("Yes. The black")
    assert note(told(moves, side="black"), "is my queen under attack?").text.startswith("Yes. The black")
    assert "black pawn on f7" in note(told(moves), "is my pawn on f7 attacked").text


def test_why_not_a_move_of_the_same_name_is_the_one_still_to_make() -> None:
    playing = told("d4 d5 c4 e6 Nc3 Nf6 Bg5 Nbd7 cxd5 exd5 Nxd5", side="black")
    said = note(playing, "why not Nxd5").text
    assert "was made" not in said and "knight takes on d5" in said


def test_where_no_question_stands_no_move_is_meant() -> None:
    playing = told("e4 e5")
    said = note(playing, "why not Nf3")
    assert "meant" not in said.text and "lesson" not in said.text and said.standing == "unknown"


def test_a_nearby_question_is_offered() -> None:
    playing = told("e4 e5")
    said = note(playing, "ask how pinned can the knight on g8 become").text
    assert "is the knight on g8 pinned" in said and len(said.split()) < 30
