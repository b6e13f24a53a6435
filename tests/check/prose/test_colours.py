"""Prose against colours, files and wings: one true and one false sentence for each turn of speech."""

from __future__ import annotations

import pytest

from tests.check.prose.test_doubts import doubts

GAME = "board: start\ngame: Anna Berg - Otto Lind, Old Mill 2011, 1-0\n\n"
OPENED = "{Nf3} {d5} {g3} {Nf6} {Bg2} {e6}. "
ASKED = OPENED + "\n\nquestion: Which move?\n  WORDS\n\n{O-O}. Done.\n"
TAKEN = "{e4} {d5} {exd5} {Qxd5}. "
SQUARE = (
    OPENED
    + "\n\nquestion: Which square near the WHO king can the knight reach?\n  ask: square\n  answer: g4\n"
)
SPANISH = "{e4} {e5} {Nf3} {Nc6} {Bb5} {a6} {Bxc6} {dxc6}. "

TRUE_AND_FALSE = [
    (OPENED + "White's bishop dreams of b7.", OPENED + "Black's bishop looks at g2."),
    (OPENED + "That is why Black's bishop prefers e7.", OPENED + "That is why White's bishop prefers e7."),
    (OPENED + "White holds e5.", OPENED + "Black holds e5."),
    (TAKEN + "White can no longer take her on d5.", OPENED + "White can take it on g2."),
    (SQUARE.replace("WHO", "white"), SQUARE.replace("WHO", "black")),
    (OPENED + "No white pawn can see e4.", OPENED + "Mind that no black pawn attacks e4."),
    ("{e4} {e6}. There is a loose white pawn.", "{e4} {e6}. There is a loose black pawn."),
    (SPANISH + "What did White get for that bishop?", SPANISH + "What did Black get for that bishop?"),
    (
        "{e4} {e5}, so that White's e-pawn cannot go on.",
        "{e4} {e5}, so that Black's e-pawn cannot go on.",
    ),
    (OPENED + "{O-O}. It makes Black choose.", OPENED + "{O-O}. It makes White choose."),
    ("{e4} {e5} is solid, or so Black hopes.", "{e4} {e5} is solid, or so White hopes."),
    (OPENED + "On e5 there is a single white guard.", OPENED + "On e5 there is a single black guard."),
    ("{e4} {e5} {Qh5}. White has a queen on h5.", "{e4} {e5} {Qh5}. Black has a queen on h5."),
    (SPANISH + "White's light-squared bishop is gone.", SPANISH + "Black's light-squared bishop is gone."),
    (
        "{e4} {e5} {Nf3}. White attacks e5 once.",
        "{e4} {e5} {Nf3} {Nc6} {Nc3} {Nf6} {Nd5}. White attacks d5 twice.",
    ),
    ("{e4} {e5} {Nf3}. Black supports his pawn, {Nc6}.", "{e4} {e5} {Nf3}. Black supports our pawn, {Nc6}."),
    (
        "{e4} {d5} {e5} {f5}. The white pawn standing on e5 is safe.",
        "{e4} {d5}. The black pawn standing on e4 is safe.",
    ),
    ("If White waits, say with {a3}, all is well.", "If Black waits, say with {a3}, all is well."),
    (
        "Both step, White goes first, and Black goes after him: {e4} {e5}.",
        "White goes first, and White goes after him: {e4} {e5}.",
    ),
    ("{e4}. White brings it out at once.", "{e4}. Black brings it out at once."),
    ("{e4}, and Black must choose. {e5}.", "{e4}, and White must choose. {e5}."),
    (TAKEN + "The d-file has no secrets.", TAKEN + "The b-file has no secrets."),
    (TAKEN + "There isn't a white pawn; White has lost his e-pawn.", TAKEN + "White has lost his c-pawn."),
    (TAKEN + "Half-open e-file for White.", TAKEN + "Half-open c-file for White."),
    (OPENED + "{Nd4}. It unblocks the f-pawn.", OPENED + "{Nd4}. It unblocks the c-pawn."),
    (
        OPENED + "The knight stands in front of the f-pawn.",
        OPENED + "Somebody stands in front of the b-pawn.",
    ),
    (
        ASKED.replace("WORDS", "nudge: Look at the e-file."),
        ASKED.replace("WORDS", "nudge: Look at the a-file."),
    ),
    (
        ASKED.replace("WORDS", "nudge: Look at the kingside."),
        ASKED.replace("WORDS", "nudge: Look at the queenside."),
    ),
    (OPENED + "{h4}. That kingside pawn is brave.", OPENED + "{h4}. That queenside pawn is brave."),
    ("{e4} {e5} {a4}. At last our own queenside moves.", "{e4} {e5} {a4}. At last our own kingside moves."),
    ("{e4} {e5} {Nf3}. It asks Black's pawn.", "{e4} {e5} {Nf3}. It asks White's knight."),
    ("{e4} {e5} {Nf3} {Nc6}. It guards Black's pawn.", "{e4} {e5} {Nf3} {Nc6}. It guards White's pawn."),
    (
        "{e4} {e5} {Bc4}. It is White's bishop that comes.",
        "{e4} {e5} {Bc4}. It is Black's bishop that comes.",
    ),
    (
        "{e4} {e5} {d3}. It shuts the bishop's own diagonal.",
        "{e4} {e5} {d3}. It opens a diagonal. {Nc6}. {h4}. It shuts a diagonal.",
    ),
    ("{e4} {e5} {Nf3}. It comes to the kingside.", "{e4} {e5} {Nf3}. It comes to the queenside."),
    ("{e4} {e5}. The kings stand on one file.", "{e4} {e5}. The kings stand on one rank."),
    ("{e4} {e5}. Bishops go along diagonals.", "{e4} {e5}. The bishop always goes along files and ranks."),
    (TAKEN + "Here the d-file opens.", "{e4} {e5}. Here the d-file opens."),
    ("{e4} {d5} {e5}. The e-pawn walks past.", "{e4} {d5} {e5}. The h-pawn walks past."),
    (GAME + "{e4} {e5}. Peep at f6. {Nf3} {Nf6}.", GAME + "{e4} {e5}. Ana Berg smiled."),
    (GAME + "How did Anna begin? {e4}.", GAME + "question: How did Otto begin?\n  nudge: Think.\n\n{e4}."),
    (GAME + "{e4} {e5}. If it were White's turn.", GAME + "{e4} {e5}. Suppose it were Black's turn."),
    (GAME + "Anna Berg has the white men. {e4} {e5}.", GAME + "Anna Berg has the black men. {e4} {e5}."),
    (GAME + "{e4} {e5}. {Nf3}.\n\nBlack resigns.", GAME + "{e4} {e5}. {Nf3}.\n\nWhite resigns."),
]


@pytest.mark.parametrize("said", [true for true, _ in TRUE_AND_FALSE])
def test_what_is_so_is_not_doubted(said: str) -> None:
    assert doubts(said) == []


@pytest.mark.parametrize("said", [false for _, false in TRUE_AND_FALSE])
def test_what_is_not_so_is_doubted(said: str) -> None:
    assert doubts(said) != []
