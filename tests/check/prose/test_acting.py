"""Men and colours in fixed turns of speech: what is so passes in silence, what is not is a query."""

from __future__ import annotations

import pytest

from tests.check.prose.test_doubts import ASKED, OPENED, doubts

SPANISH = "{e4} {e5} {Nf3} {Nc6} {Bb5} {a6} {Bxc6} {dxc6}"
CASTLED = OPENED + "{O-O} {Be7}"
PUSHED = "{e4} {d5} {exd5} {Qxd5} {Nc3}"
FACED = "board: White Ke4 pd3; Black Ke6; TURN to move\n\nWORDS"
GUARDED = "board: after OPEN\n\n"
COUNTING = OPENED + "\n\nquestion: How many WHO men guard the pawn on d5?\n  ask: count\n  answer: 3\n"
WHICH = OPENED + "\n\nquestion: WORDS\n\n{O-O}. Done.\n"

SO = [
    SPANISH + ". White gives the bishop for the knight.",
    SPANISH + ". The pawn takes back, and the bishop is gone.",
    SPANISH + ". The queen steps out later, if all goes well.",
    SPANISH + ". Nobody gives the queen for the pawn.",
    SPANISH + " {O-O}. The rook comes out of its corner.",
    "{e4} {d5} {exd5} {Qxd5}. The queen captures, and the board is light.",
    PUSHED + ". It hits Black's queen, and that is a whole move.",
    PUSHED + ". The knight attacks the queen.",
    PUSHED + ". The knight looks at our pawn in hope.".replace("our pawn", "the queen"),
    PUSHED + " {Qd8}. The queen goes home.",
    "{e4} {e5} {Nf3} {Nc6}, and the knight guards it.",
    "{e4} {e5} {Nf3} {d6}, and the bishop guards it.",
    "{e4}, {e5} lets the bishop out as well.",
    "{e4} lets the queen out, and the bishop too.",
    CASTLED + ". The bishop goes one step and the king is ready.",
    CASTLED + ". It tells Black little about our plans.",
    CASTLED + ". A rook behind the knight would be no use.",
    CASTLED + ". The king stands behind his pawns, the rook beside him.",
    CASTLED + ". Black's pawn on d5 can go no further than d4.",
    CASTLED + ". Black's knight on f6 can jump to e4.",
    CASTLED + ". White's bishop on g2 can see as far as d5.",
    CASTLED + ". Black's bishop prefers e7, and who will blame it.",
    CASTLED + ". Black has a plan of his own.",
    CASTLED + ". White has an idea of his own, {d3}.",
    "White opens, and Black answers: {e4} {e5}.",
    "White takes a step, and then Black takes a step: {e4} {e5}.",
    "{d4} {d5} {Qd3} {Nf6} {Bf4} {e6}. The queen stands where she likes.",
    FACED.replace("TURN", "Black").replace("WORDS", "White has the opposition."),
    FACED.replace("TURN", "White").replace("WORDS", "Black has the opposition, and White must give way."),
    FACED.replace("TURN", "White").replace(
        "WORDS", "White has not got it: if Black moved, White has the opposition."
    ),
    WHICH.replace("WORDS", "Which king move is two moves in one?"),
    WHICH.replace("WORDS", "Which white move brings a rook out of its corner?"),
    WHICH.replace("WORDS", "Which rook move is hidden in a king's move?"),
    ASKED.replace("WORDS", "nudge: King and rook make together what neither could alone."),
    ASKED.replace("WORDS", "reply d3: It keeps Black's knight out of e4."),
    ASKED.replace("WORDS", "reply d3: It stops Black's knight, and the king still stands in the middle."),
    ASKED.replace("WORDS", "otherwise: The king has a friend in the rook."),
]

NOT_SO = [
    (SPANISH + ". White gives the rook for the knight.", "rook for the knight"),
    (SPANISH + " {O-O}. The queen steps aside.", "queen"),
    (PUSHED + ". It hits White's queen.", "White"),
    (PUSHED + ". The knight attacks the rook.", "rook"),
    ("{e4} {e5} {Nf3} {Nc6}, and the rook guards it.", "rook"),
    (CASTLED + ". Black's pawn from c5 can go to c4.", "c5"),
    (CASTLED + ". Black has an idea of his own, {d3}.", "Black"),
    ("Black opens, and White answers: {e4} {e5}.", "Black"),
    (FACED.replace("TURN", "Black").replace("WORDS", "Black has the opposition."), "Black"),
    (WHICH.replace("WORDS", "Which knight move is two moves in one?"), "knight"),
    (WHICH.replace("WORDS", "Which black move is two moves in one?"), "black"),
    (ASKED.replace("WORDS", "reply d3: It keeps White's knight out of e4."), "White"),
    (COUNTING.replace("WHO", "white"), "white"),
]


@pytest.mark.parametrize("body", SO)
def test_what_is_so_or_only_supposed(body: str) -> None:
    assert doubts(body) == []


@pytest.mark.parametrize(("body", "words"), NOT_SO)
def test_what_is_not_so(body: str, words: str) -> None:
    found = doubts(body)
    assert len(found) == 1, found
    line = ("script: 1\ntitle: A walk\ncoach: Ines\nside: white\n\n" + body).split("\n")[found[0].line - 1]
    said = line[found[0].column - 1 : found[0].column - 1 + found[0].width]
    assert words in said or said in words
