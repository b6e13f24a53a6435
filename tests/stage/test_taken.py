"""Answers that are no moves, as people give them: what is taken, what is asked back, what is right."""

from __future__ import annotations

from functools import lru_cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.cues.sheet import Ask
from player.stage.advance import advance
from player.stage.bare import DENIED, what_is_wanted
from player.stage.given import is_right
from player.stage.happenings import Attempt, Note, Put
from player.stage.inputs import Typed
from player.stage.taken import taken
from tests.stage.playing import Playing
from tests.stage.sheets import sheet_of

SCRIPT = """\
script: 1
title: Questions
coach: Ines Calder

{e4} {e6} {d4} {d5} {Nf3}.

question: How many white men look at e5?
  ask: count
  answer: 2

question: Which black pawn has to be guarded by pieces?
  ask: square
  answer: e6

question: Who stands better?
  ask: choice
  choice: White
  choice: Black
  choice: nobody
  answer: Black

question: May he trade?
  ask: choice
  choice: yes, he wins
  choice: no, it is a draw
  answer: yes, he wins

question: Which bishop?
  ask: choice
  choice: the one on light squares
  choice: the one on dark squares
  answer: the one on light squares

question: What is gained?
  ask: choice
  choice: the bishop pair
  choice: an extra pawn
  choice: an open file for the rook
  answer: the bishop pair

question: And here, may he trade the rooks?
  ask: words
  answer: no, keep the rooks, do not trade, draw, it is a draw
  reply yes, trade, take: Then the king takes back.
  otherwise: Count again.

{c6}. And {c4}. We stop here, and nobody trades anything.
"""


@lru_cache(maxsize=1)
def asks() -> tuple[Ask, ...]:
    sheet = sheet_of(SCRIPT)
    return tuple(ask for at in sheet.questions if (ask := sheet.steps[at].ask) is not None)


COUNT, SQUARE, WHO, MAY, WHICH, WHAT, WORDS = range(7)

TAKEN = [
    (COUNT, "2", "2"), (COUNT, "two", "2"), (COUNT, "I think there are two", "2"),
    (COUNT, "Two, I think.", "2"),
    (COUNT, "it's 2!", "2"), (COUNT, "two men", "2"), (COUNT, "2 of them", "2"), (COUNT, "both", "2"),
    (COUNT, "2, please", "2"), (COUNT, "two, thanks", "2"), (COUNT, "two, right?", "2"),
    (COUNT, "two, that's all", "2"), (COUNT, "2, no?", "2"),
    (COUNT, "3, no 4", "4"), (COUNT, "three, I mean two", "2"), (COUNT, "none", "0"), (COUNT, "nobody", "0"),
    (COUNT, "two, because the knight and the pawn on d4 look there", "2"), (COUNT, "only one", "1"),
    (COUNT, "one and one, so two", "2"), (WHAT, "both bishops", "the bishop pair"),
    (WHICH, "the one on the white squares", "the one on light squares"),
    (SQUARE, "e six, now only the king guards it", "e6"),
    (COUNT, "the 2 men", "2"), (COUNT, "zero", "0"), (COUNT, "two: d4 and f3", "2"),
    (SQUARE, "e6", "e6"), (SQUARE, "E6", "e6"), (SQUARE, "e 6", "e6"), (SQUARE, "eva six", "e6"),
    (SQUARE, "the pawn on e6", "e6"), (SQUARE, "it's e6", "e6"), (SQUARE, "I think e6.", "e6"),
    (SQUARE, "the square in front of the pawn on d4", "d5"), (SQUARE, "d5, no, e6", "e6"),
    (SQUARE, "e6, because nobody else can", "e6"),
    (SQUARE, "the black queen", "d8"), (SQUARE, "maybe e6 please", "e6"), (SQUARE, "is it e6?", "e6"),
    (WHO, "Black", "Black"), (WHO, "black!", "Black"), (WHO, "2", "Black"), (WHO, "option 2", "Black"),
    (WHO, "number two", "Black"), (WHO, "the second one", "Black"), (WHO, "I think Black does", "Black"),
    (WHO, "not white, black", "Black"), (WHO, "the one who need not move, black", "Black"),
    (WHO, "neither", "nobody"), (WHO, "no one", "nobody"), (WHO, "neither side", "nobody"),
    (WHO, "the last one", "nobody"), (WHO, "Black's side", "Black"), (WHO, "Black has it, I think", "Black"),
    (MAY, "yes", "yes, he wins"), (MAY, "Yes!", "yes, he wins"), (MAY, "yep", "yes, he wins"),
    (MAY, "sure", "yes, he wins"), (MAY, "he can", "yes, he wins"), (MAY, "no", "no, it is a draw"),
    (MAY, "nope", "no, it is a draw"), (MAY, "no he does not win", "no, it is a draw"),
    (MAY, "no, a draw", "no, it is a draw"), (MAY, "it is a draw", "no, it is a draw"),
    (MAY, "1", "yes, he wins"),
    (MAY, "he wins", "yes, he wins"), (MAY, "no, it is a draw", "no, it is a draw"),
    (WHICH, "light", "the one on light squares"), (WHICH, "the light one", "the one on light squares"),
    (WHICH, "dark squares", "the one on dark squares"),
    (WHAT, "the bishops", "the bishop pair"), (WHAT, "bishop pair", "the bishop pair"),
    (WHAT, "a pawn", "an extra pawn"), (WHAT, "the pair of bishops", "the bishop pair"),
    (WHAT, "an open file", "an open file for the rook"), (WHAT, "the bishp pair", "the bishop pair"),
]  # fmt: skip


@pytest.mark.parametrize(("which", "said", "meant"), TAKEN)
def test_what_is_taken(which: int, said: str, meant: str) -> None:
    found = taken(asks()[which], said)
    assert (found.meant, found.note) == (tuple(meant.split()) if which == SQUARE else (meant,), "")


BACK = [
    (COUNT, "3, 2", "Which: 3 or 2?"), (WHO, "white, black", ""),
    (SQUARE, "e nine", "e nine is off the board: the files go from a to h, the ranks from 1 to 8."),
    (SQUARE, "eva zero", "eva zero is off the board: the files go from a to h, the ranks from 1 to 8."),
    (COUNT, "not 2", DENIED), (COUNT, "it isn't two", DENIED), (COUNT, "2 or 3", "Which: 2 or 3?"),
    (COUNT, "1 and 2", "Which: 1 or 2?"), (COUNT, "more than 2", "Say the number itself."),
    (COUNT, "d3 and d2", ""), (COUNT, "e4", ""), (COUNT, "h3", ""), (COUNT, "question 3", ""),
    (COUNT, "I think knight f3 is best", ""), (COUNT, "the one on e4", ""), (COUNT, "thanks", ""),
    (SQUARE, "d5 and e6", "Which: d5 or e6?"), (COUNT, "2 on one side and 1 there", "Which: 2 or 1?"),
    (SQUARE, "not e6", DENIED), (SQUARE, "e6 is not it", DENIED), (SQUARE, "pawn takes e6", ""),
    (SQUARE, "d5 or e6", "Which: d5 or e6?"), (SQUARE, "thanks", ""), (SQUARE, "the pawn", ""),
    (SQUARE, "j9", "j9 is off the board: the files go from a to h, the ranks from 1 to 8."),
    (WHO, "not black", DENIED), (WHO, "the white king does not have it", DENIED), (WHO, "thanks", ""),
    (WHO, "white or black", "One of them: which?"), (WHO, "4", ""),
    (MAY, "yes, it is a draw", ""), (MAY, "what", ""), (WHICH, "not the light one", DENIED),
    (WHICH, "squares", ""),
    (WORDS, "asdf", 'I do not know what "asdf" means here.'),
]  # fmt: skip


@pytest.mark.parametrize(("which", "said", "note"), BACK)
def test_what_is_asked_back(which: int, said: str, note: str) -> None:
    ask = asks()[which]
    found = taken(ask, said, "en", sheet_of(SCRIPT).words)
    assert found.meant == ()
    assert found.note == (note or what_is_wanted(ask))


@pytest.mark.parametrize(
    ("said", "right"),
    [
        ("no", True), ("No!", True), ("never", True), ("don't take", True), ("do not trade", True),
        ("a draw", True),
        ("keep the rooks", True), ("he should keep the rooks", True), ("nope, it is a draw", True),
        ("not a draw", False), ("I do not want to keep the rooks", False), ("yes", False), ("take", False),
        ("trade", False), ("Rxe6", False), ("sure", False), ("he trades", False),
    ],
)  # fmt: skip
def test_answers_in_words(said: str, right: bool) -> None:
    ask = asks()[WORDS]
    found = taken(ask, said)
    assert found.note == ""
    assert is_right(ask, found.meant) == right


def test_the_coachs_word_for_a_wrong_answer_is_found_by_what_it_says() -> None:
    playing = Playing(sheet_of(SCRIPT)).start()
    for said in ("2", "e6", "black", "yes", "light", "the bishop pair", "Rxe6"):
        playing.type(said)
    assert "Then the king takes back." in playing.said()


def test_what_was_answered_is_not_asked_again() -> None:
    """A word that is typed while the reason is told is no answer, and opens nothing."""
    playing = Playing(sheet_of(SCRIPT)).start()
    state, first = advance(playing.state, Typed("2"))
    assert [one.grade for one in first if isinstance(one, Attempt)] == ["right"]
    state, out = advance(state, Typed("thanks"))
    assert not [one for one in out if isinstance(one, Attempt | Put)]
    assert [one.text for one in out if isinstance(one, Note)] != [what_is_wanted(asks()[COUNT])]


_BITS = """a e h eva zero nine ten one two 3 e4 j9 knight pawn takes not no or and , . ? in front of the black
white yes castle x queen that's so either nobody one square"""


@given(st.sampled_from(range(7)), st.lists(st.sampled_from(_BITS.split()), max_size=6).map(" ".join))
def test_any_words_of_answers_are_taken_or_answered(which: int, said: str) -> None:
    found = taken(asks()[which], said, "en", sheet_of(SCRIPT).words)
    assert bool(found.meant) != bool(found.note)


@given(st.sampled_from(range(7)), st.text(max_size=60))
def test_anything_typed_is_taken_or_answered(which: int, said: str) -> None:
    found = taken(asks()[which], said, "en", sheet_of(SCRIPT).words)
    assert bool(found.meant) != bool(found.note)
