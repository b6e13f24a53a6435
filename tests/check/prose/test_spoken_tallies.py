"""Prose against what can be counted, pointed at or asked for right there: sides, squares, numbers, men."""

from __future__ import annotations

import pytest

from tests.check.prose.test_doubts import ASKED, ENDING, GAME, OPENED, doubts

CARD = "board: White Kf3 pe3; Black Ke6; White to move\n\n"
DOORS = (
    "part: The first door\n\n{e4} {e5}.\n\npart: The second door\n\n{Nf3} {Nc6}."
    "\n\npart: The NTH door\n\n{Bc4}."
)
BACK = "{e4} {e5} {Nf3} {Nc6}. Take those NUMBER steps back.\n\nboard: back 4 moves\n\n{d4}."
AGAIN = "mark: here\n\n{e4} {e5} {Nf3} {Nc6} {Bc4} {Bc5}. The last NUMBER moves again.\n\nretell: here"
CHOICE = "question: Who?\n  ask: choice\n  choice: ONE\n  choice: White\n  answer: White\n"

SO = [
    DOORS.replace("NTH", "third"),
    BACK.replace("NUMBER", "four"),
    AGAIN.replace("NUMBER", "three"),
    ASKED.replace("Which move?", "What should White play?").replace("WORDS", "think: 20s"),
    OPENED + "It is White's move.",
    OPENED + "The road from g2 leads to d5. The square e5 is a dark square.",
    OPENED + "There are sixteen white men on the board, and now d5 has three guards.",
    OPENED + "It lets out the bishop on f8.",
    OPENED + "The king makes room, {O-O}.",
    OPENED + "The queen can go to d6 one day.",
    ENDING + "White wins all the same.",
    CARD + "Only one move wins.",
    CHOICE.replace("ONE", "Black"),
]


@pytest.mark.parametrize("body", SO)
def test_what_is_so(body: str) -> None:
    assert doubts(body) == []


NOT_SO = [
    (DOORS.replace("NTH", "second"), "prose-count"),
    (BACK.replace("NUMBER", "three"), "prose-count"),
    (AGAIN.replace("NUMBER", "five"), "prose-count"),
    (ASKED.replace("Which move?", "What should Black play?").replace("WORDS", "think: 20s"), "prose-side"),
    (OPENED + "It is Black's move.", "prose-turn"),
    (OPENED + "The wedge on e5 waits.", "prose-square"),
    (OPENED + "The square e5 is a light square.", "prose-side"),
    (OPENED + "\n\naside: If Black castles\n  {O-O}. Done.\n  back: Home.", "prose-side"),
    (GAME + "{e4: Otto begins}. Done.", "prose-side"),
    (OPENED + "Push the e-pawn three squares.", "prose-count"),
    (OPENED + "There are three white men on the board.", "prose-count"),
    (OPENED + "Now d5 has four guards.", "prose-count"),
    (OPENED + "The knight makes room, {O-O}.", "prose-man"),
    (OPENED + "It lets out the bishop on c1.", "prose-man"),
    (OPENED + "The king can go to e4 at once.", "prose-man"),
    (OPENED + "Two bishop wait here.", "prose-count"),
    (OPENED + "A passed bishop is a strange thing.", "prose-man"),
    (ENDING + "Black wins all the same.", "prose-result"),
    (ENDING + "The rook waits.", "prose-man"),
    (ENDING + "There is the only winning move, and it is at hand.", "prose-claim"),
    (CARD + "Only two moves win.", "prose-count"),
]


@pytest.mark.parametrize(("body", "code"), NOT_SO)
def test_what_is_not_so_is_doubted(body: str, code: str) -> None:
    assert {fault.code for fault in doubts(body)} == {code}
