"""Men in the parts that prose gives them: what such a man can do passes in silence, the rest is a query."""

from __future__ import annotations

import pytest

from tests.check.prose.test_doubts import doubts

ITALIAN = "{e4} {e5} {Nf3} {Nc6} {Bc4} {Bc5}. "
HELD = "{e4} {e5} {Nf3} {d6} {d4} {Bg4}. "
KICKED = "{e4} {d5} {exd5} {Qxd5} {Nc3}. "
SWAPPED = "{e4} {e5} {Nf3} {Nc6} {Bb5} {a6} {Bxc6} {dxc6}. "
ASKED = ITALIAN + "\n\nquestion: WHAT\n  WORDS\n\n{O-O}. Done.\n"
REPLY = ASKED.replace("WHAT", "What now?")
NEXT = "{e4} {e5} {Nf3}. \n\naside: TITLE\n  {Nc6} {Bc4}. Done.\n  back: Again.\n"
ROOKS = "board: White Kg2 Ra7 pf4 pg3 ph4; Black Kg8 Rb2 pf7 pg6 ph5; White to move\n\n"

SO = [
    ITALIAN + "The bishop comes to the middle of things.",
    ITALIAN + "There goes the bishop.",
    ITALIAN + "Look at the bishop that has just stepped out.",
    ITALIAN + "The rook will come later, and the queen leaves the talking to others.",
    ITALIAN + "The king goes nowhere for now.",
    ITALIAN + "The other knight waits, and both bishops look down long diagonals.",
    HELD + "The knight on f3 is pinned to the queen.",
    HELD + "The bishop hits the knight, and aims at the queen behind it.",
    KICKED + "Pawn takes, queen takes, and the knight attacks the queen.",
    SWAPPED + "There goes the bishop, and the c-pawns are doubled.",
    SWAPPED + "Some day the queens may be traded.",
    SWAPPED + "Nobody wins a king in this game.",
    ROOKS + "Trade the rooks if you like: {Kf3} {Rb3+}.",
    REPLY.replace("WORDS", "nudge: The rook comes along for free."),
    REPLY.replace("WORDS", "reply d3: A pawn, and a useful one."),
    REPLY.replace("WORDS", "reply Ng5: The knight had a good home on f3."),
    ASKED.replace("WHAT", "Where does the king go?").replace("WORDS", "nudge: To the right."),
    NEXT.replace("TITLE", "If the bishop comes out"),
    ROOKS + "The a-rook is a long way from the g-pawn.",
    "A pawn chain and a pawn that jumps two squares: {e4}.",
]

NOT_SO = [
    (ITALIAN + "The rook comes to the middle of things.", "rook"),
    (ITALIAN + "There goes the knight.", "knight"),
    (ITALIAN + "Look at the rook that has just stepped out.", "rook"),
    (ROOKS + "The other queen waits, and the king is cold.", "queen"),
    (ROOKS + "Both knights are far away.", "knights"),
    (HELD + "The knight on f3 is pinned to the king.", "king"),
    (HELD + "The bishop hits the queen.", "queen"),
    (KICKED + "Pawn takes, rook takes, and all is well.", "rook"),
    (KICKED + "The pawn attacks the queen.", "queen"),
    (KICKED + "White takes the rook in passing.", "rook"),
    (SWAPPED + "There goes the queen.", "queen"),
    (ROOKS + "Trade the queens if you like: {Kf3} {Rb3+}.", "queen"),
    (SWAPPED + "Black wins the king back.", "king"),
    (REPLY.replace("WORDS", "nudge: The knight comes along for free."), "knight"),
    (REPLY.replace("WORDS", "reply d3: A rook, and a useful one."), "rook"),
    (REPLY.replace("WORDS", "reply a3: The queen had a good home on d1."), "queen"),
    (ASKED.replace("WHAT", "Where does the bishop go?").replace("WORDS", "nudge: To the right."), "bishop"),
    (NEXT.replace("TITLE", "If the king comes out"), "king"),
    (ROOKS + "The e-rook is a long way from the g-pawn.", "rook"),
    ("A bishop chain is a strong thing: {e4}.", "bishop"),
]


@pytest.mark.parametrize("body", SO)
def test_what_such_a_man_can_do(body: str) -> None:
    assert doubts(body) == []


@pytest.mark.parametrize(("body", "word"), NOT_SO)
def test_what_no_such_man_does(body: str, word: str) -> None:
    source = body.split("\n")
    found = doubts(body)
    assert any(word in source[fault.line - 6][fault.column - 1 :][: fault.width] for fault in found), found
