"""Prose against sums, paces, views and ways: each turn of speech once true and once false."""

from __future__ import annotations

import pytest

from tests.check.prose.test_doubts import OPENED, TAKEN, doubts

SPANISH = "{e4} {e5} {Nf3} {Nc6} {Bb5} {a6} {Ba4} {Nf6} {O-O} {Be7}. "
MARCH = "{e4} {e5} {Ke2} {Ke7} {Kd3}. "
ASKED = OPENED + "\n\nquestion: Which move?\n  WORDS\n\n{O-O}. Done.\n"
COUNTED = (
    OPENED
    + "\n\nquestion: How many black men guard d5?\n  ask: count\n  answer: 3\n  WORDS\n\n{O-O}. Done.\n"
)
STEPS = (
    "board: White Ke3 pc4; Black Kd8 pe6; White to move\n\n"
    "question: To how many squares can the white king step?\n  ask: count\n  answer: 8\n  because: WORDS\n"
)
PAWNED = "{e4} {e5} {h4} {h6} {h5} {g5}.\n\nquestion: Who goes?\n  WORDS\n\n{hxg6}. Done.\n"
TRADED = (
    "board: White Kf5 Rd2 pe4; Black Kc7 Rd7; White to move\n\n"
    "question: May he trade?\n  choice: yes\n  choice: no\n  answer: yes\n  because: WORDS\n\n"
    "{Rxd7+} {Kxd7}. So it is.\n"
)

PAIRS = [
    (
        SPANISH,
        "White has three pieces out: a rook, a knight and a bishop.",
        "Four pieces: a rook, a knight and a bishop.",
    ),
    (OPENED, "The bishop eyes d5 and e4, two squares.", "The bishop eyes d5 and e4, three squares."),
    (OPENED, "Look at two squares, e4 and d4.", "Look at three squares, e4 and d4."),
    (SPANISH, "Queens and all four rooks are there.", "Queens and all three rooks are there."),
    (SPANISH, "Two knights each.", "Three knights each."),
    (SPANISH, "Each side has made five moves.", "Each side has made six moves."),
    (SPANISH, "Here he is, out on move five.", "Here he is, out on move seven."),
    (SPANISH, "The knight has stood on f3 since move two.", "The knight has stood on f3 since move five."),
    (OPENED, "The pawn goes one square.", "The pawn goes two squares."),
    (OPENED, "On d5 Black has three guards at the moment.", "On d5 Black has two guards at the moment."),
    (OPENED, "From g2 the bishop looks at d5 and f1.", "From g2 the bishop looks at d4 and f1."),
    (OPENED, "The bishop on g2 may look at d5.", "The bishop on g2 may look at d4."),
    (OPENED, "The knight guards the pawn on d5.", "The knight guards the pawn on e4."),
    (OPENED, "The square e5 is free.", "The square d5 is free."),
    (OPENED, "The bishop has gone to g2.", "The bishop has gone to e6."),
    (OPENED, "Squares like e4, d4 and c4 matter.", "Squares like e4, d4 and d4 matter."),
    (OPENED, "The diagonal runs from a1 to h8.", "The diagonal runs from a1 to h7."),
    (OPENED, "A rook sits in the corner on a1.", "A rook sits in the corner on f1."),
    (OPENED, "Squares: e4 and from d4.", "Squares: e4 and from e4."),
    (TAKEN, "Two pawns have left the board.", "Three pawns have left the board."),
    (OPENED, "The square f7 has no guard but the king.", "The square e7 has no guard but the king."),
    (OPENED, "Behind it sits the king on e8.", "Behind it sits the king on e7."),
    (OPENED, "Two of the three doors are shut.", "Four of the three doors are shut."),
    (OPENED, "White has one guard.", "White has one guards."),
    (SPANISH, "The bishop has moved twice in five moves.", "The bishop has moved three times in five moves."),
    (SPANISH, "The bishop has moved twice in five moves.", "The bishop has moved twice in seven moves."),
    ("board: White Ke5 pe4; Black Kd7; White to move\n\n", "It is all three men.", "It is all four men."),
]
ASKING = [
    (ASKED, "reply c4: It hits d5.", "reply c4: It hits e5."),
    (ASKED, "reply Nc3: From c3 the knight looks at d5.", "reply Nc3: From c3 the knight looks at d4."),
    (ASKED, "reply Nh4: The pawn left e7 a moment ago.", "reply Nh4: The pawn left e5 a moment ago."),
    (
        ASKED,
        "nudge: White castles, because the pawn on d5 is guarded.",
        "nudge: White castles, because the pawn on d3 is guarded.",
    ),
    (ASKED, "nudge: The king from e1.", "nudge: The king from g1."),
    (STEPS, "Eight: d2, d3, d4, e2, e4, f2, f3 and f4.", "Eight: d1, d3, d4, e2, e4, f2, f3 and f4."),
    (
        PAWNED,
        "nudge: It is a pawn that has taken three steps so far.",
        "nudge: It is a pawn that has taken a single step so far.",
    ),
    (TRADED, "Yes. Black's king ends up on d7.", "Yes. Black's king ends up on c7."),
    (TRADED, "Yes. The square f6 is free.", "Yes. The square f5 is free."),
]

QUIET = OPENED + "{O-O} {Be7} {d3} {O-O} {Nbd2} {c5} {e4} {Nc6} {Re1} {b6}. "
RUN = "board: White Ke5 pe4; Black Kd7; White to move\n\n"
STEP = (
    "board: White Kg1 Rd1 pf2 pg2 ph2; Black Kg8 Ra8 pf7 pg7 ph7; White to move\n\n"
    "question: Which move?\n  WORDS\n\n{Rd7}. Done.\n"
)
PAIRS += [
    (RUN, "The pawn on the fourth rank runs.", "The pawn on the sixth rank runs."),
    (RUN, "They stand two ranks apart.", "They stand five ranks apart."),
    (RUN, "The king is one file to the left of it.", "The king is three files to the left of it."),
    (QUIET, "The bishop has slept for six moves.", "The bishop has slept for two moves."),
    (QUIET, "And these two bishops will not meet.", "And these five bishops will not meet."),
    (QUIET, "A bishop on the long diagonal is there.", "Two rooks on the e-file are there."),
    (QUIET, "The pawn on d3 holds two squares.", "The pawn on d3 holds three squares."),
    (QUIET, "He has two rooks and a queen.", "He has two rooks and two queens."),
    (OPENED, "A pawn that jumps two squares is young.", "A pawn that jumps three squares is young."),
    (QUIET, "Now e4 is guarded by the rook and others.", "Now e4 is guarded by the bishop on e7 and others."),
    (QUIET, "The knight was guarding e5.", "The knight was guarding a8."),
    (QUIET, "The pawn on e7 is gone.", "The pawn on f7 is gone."),
    (
        QUIET,
        "The pawn on e4 has stood there since move seven.",
        "The pawn on e4 has stood there since move two.",
    ),
]
ASKING += [
    (STEP, "nudge: Look at the seventh rank.", "nudge: Look at the fifth rank."),
    (STEP, "reply Rd2: The rook keeps to the second rank.", "reply Rd2: The rook keeps to the sixth rank."),
]


@pytest.mark.parametrize(("before", "true", "false"), PAIRS)
def test_a_sentence_is_doubted_only_where_it_is_false(before: str, true: str, false: str) -> None:
    assert doubts(before + true) == []
    assert doubts(before + false) != []


@pytest.mark.parametrize(("body", "true", "false"), ASKING)
def test_words_of_a_question_are_doubted_only_where_they_are_false(body: str, true: str, false: str) -> None:
    assert doubts(body.replace("WORDS", true)) == []
    assert doubts(body.replace("WORDS", false)) != []


GENERAL = [
    OPENED + "A pawn goes two squares from its home, and a king moves one square at a time.",
    OPENED + "A knight on b1 could guard e4 in a move, and the knight from b1 can cover e4.",
    OPENED + "The road from b1 to d5 is long for a knight. Move two: the knight and the bishop.",
    OPENED + "If the knight leaves, d5 is free. For ten minutes: a knight and a bishop.",
    OPENED + "The knight went to f3 and e5, then back to f3 and e5.",
    STEP.replace("WORDS", "nudge: A rook belongs on the third rank or the seventh rank."),
    RUN + "If the white king reaches f7 or d8, the pawn will run.",
    RUN + "If he goes to e8, White steps to e6. Should Black go to c6, the pawn runs to e8.",
    RUN + "Without the e-pawn, f6 would be a fine way out. Even with a pawn on h6 Black could not hold this.",
    RUN + "Nobody stands on d5 or f5. Give Black a rook on a4 and he would even win.",
    "board: White Kc6 pa6; Black Kd8; White to move\n\nIf the king comes to b7 or b8 he'll catch the pawn.",
    "board: White Kc6 pb6; Black Kc8; White to move\n\n{b7+} {Kb8}. "
    "Then nothing in the world stands on a7 or a8.",
    OPENED + "If Black ever plays c5, a rook on d1 would come to life.",
]


@pytest.mark.parametrize("body", GENERAL)
def test_general_and_supposed_talk_is_left_alone(body: str) -> None:
    assert doubts(body) == []
