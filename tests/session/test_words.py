"""What every skin says in the same words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from player.session.words import Words, ended, farewell
from player.stage.advance import advance, begin
from player.stage.happenings import Noted, Over, Quit, Tuned
from player.stage.inputs import Did
from player.stage.state import State, Telling
from player.voice.speaker import Notice
from tests.stage.sheets import LESSON, sheet_of

SHEET = sheet_of(LESSON)
WORDS = Words(SHEET)
BEGUN = begin(SHEET, Telling())


def over(state: State) -> State:
    return replace(state, frames=(replace(state.lesson, doing="over"),))


def test_whose_word_it_is() -> None:
    names = [WORDS.who(one) for one in ("coach", "board", "engine", "program", "unknown")]
    assert names == ["Ines", "Board", "Engine", "Lesson", "Lesson"]


def test_questions_and_parts_go_by_number() -> None:
    asks = [step.ask.key for step in SHEET.steps if step.ask is not None]
    assert [WORDS.question(key) for key in (*asks, "none")] == ["Question 1 of 2", "Question 2 of 2", ""]
    named = [WORDS.part(SHEET.steps[part.first].key) for part in SHEET.parts]
    assert named == [(1, "Opening remarks"), (2, "The middle")]
    assert WORDS.part("none") is None and WORDS.step("none") is None
    assert WORDS.part(asks[0]) is None


def test_a_question_from_earlier_has_no_number() -> None:
    source = "title: A\n\nHello.\n\nquestion: Which square?\n  ask: square\n  answer: e4\n  key: yes\n\n"
    source += "So.\n\n"
    sheet = sheet_of(source + "Here are some more words of a lesson that goes on for a while.\n\n" * 40)
    assert WORDS.question("none~1") == ""
    asks = [step.ask for step in sheet.steps if step.ask is not None]
    assert len(asks) > 1 and [ask.once_more for ask in asks] == [False] + [True] * (len(asks) - 1)
    said = [Words(sheet).question(ask.key) for ask in asks]
    assert said == ["Question 1 of 1"] + ["Once more"] * (len(asks) - 1)


def test_an_answer_is_said_as_it_was_understood() -> None:
    key = next(step.ask.key for step in SHEET.steps if step.ask is not None)
    assert WORDS.understood(key, "f1g2") == "Bg2, bishop to g2"
    assert WORDS.understood(key, "a1a8") == "a1a8"  # no move of a man's
    assert WORDS.understood("none", "42") == "42"


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (Noted("the wedge", "A pawn on e5."), "In your notebook: the wedge."),
        (Tuned("speed", "1.25"), "Speed: 1.25."),
        (Notice("No voice was found."), "No voice was found."),
        (Quit(), "Goodbye. The lesson keeps your place."),
        (Quit("there.lesson"), ""),
        (Over(), "The lesson is told. Type quit to leave, or go to start to hear it again."),
    ],
)
def test_the_program_s_own_sentences(told: Noted | Tuned | Notice | Quit | Over, said: str) -> None:
    assert WORDS.own(told, BEGUN) == said


def test_the_last_words_depend_on_what_comes_after() -> None:
    assert farewell(over(BEGUN)) == "Goodbye."
    assert WORDS.own(Over(), begin(SHEET, Telling(at_once=True))) == "The lesson is told."
    more = replace(SHEET, following=("2.lesson", "Four Doors."))
    said = Words(more).own(Over(), over(begin(more, Telling())))
    assert said.startswith("The lesson is told. Enter goes on with the next one, Four Doors. ")


def test_going_on_after_the_end_leads_to_the_lesson_that_follows() -> None:
    state, happened = advance(over(BEGUN), Did("go on"))
    assert not state.quit and not any(isinstance(one, Quit) for one in happened)
    more = replace(SHEET, following=("2.lesson", "Four Doors"))
    state, happened = advance(over(begin(more, Telling())), Did("go on"))
    assert state.quit and happened[-1] == Quit("2.lesson")


def test_a_sentence_ends_once() -> None:
    assert [ended(text) for text in (" So", "So.", "So?", "So!")] == ["So.", "So.", "So?", "So!"]
