"""Captures said, denied, held possible or impossible, and men said to be gone: what is not so is a query."""

from __future__ import annotations

import pytest

from tests.check.prose.test_doubts import ASKED, TAKEN, doubts

RUY = "{e4} {e5} {Nf3} {Nc6} {Bb5} {a6}. "
FREE = "{e4} {e5} {Nf3} {Nc6} {Bb5} {d6} {d4} {exd4}. "


def asked(before: str, words: str, answer: str) -> str:
    return f"{before}\n\nquestion: Which move?\n  {words}\n\n{{{answer}}}. Done.\n"


PAIRS = [
    ("{e4} {d5} {exd5: White WORDS}.", "takes on d5", "does not take on d5"),
    ("{e4} {d5} {exd5: The pawn WORDS}.", "captures", "steps aside"),
    ("{e4} {d5} {exd5: He WORDS}.", "takes the pawn", "leaves it alone"),
    ("{e4} {d5} {exd5: White WORDS}.", "takes a pawn", "spares the pawn"),
    ("{e4} {d5} {exd5: The pawn goes to WORDS}.", "d5 and takes", "the empty square d5"),
    ("{e4} {d5} {exd5}, WORDS.", "and takes", "without taking"),
    ("{e4 d5 exd5: A pawn *, a pawn *, and the first one WORDS *}.", "takes", "steps aside"),
    ("{e4} {d5}. White WORDS it, {exd5}.", "may take", "cannot take"),
    ("{e4} {d5} {exd5}. He WORDS it.\n\n{Qxd5}.", "took", "did not take"),
    (
        "{e4} {d5} {exd5}.\n\ninstead: If he walks past\n  {e5} {Bf5}.\n  back: He WORDS.\n\n{Qxd5}.",
        "took, as most do",
        "did not take, of course",
    ),
    (
        "{e4} {d5}.\n\naside: If White walks past\n  {e5} {Bf5}.\n  back: Anna WORDS.\n\n{exd5} {Qxd5}.",
        "took",
        "did not take",
    ),
    ("{e4} {d5}.\n\naside: If White WORDS\n  {exd5} {Qxd5}.\n\n{e5} {Bf5}.", "takes", "does not take"),
    (
        asked("{e4} {d5}.", "nudge: Think.\n  nudge: Pawn WORDS, because it can.", "exd5"),
        "takes d5",
        "to d5 without taking",
    ),
    (
        asked("{e4} {d5}.", "nudge: Think.\n  nudge: Pawn WORDS d5, because it can.", "exd5"),
        "goes to",
        "to the empty square",
    ),
    ("{e4} {d5} {exd5}. WORDS can take back.", "The queen", "The knight"),
    ("{e4} {d5} {exd5} {Qxd5}. WORDS can take back.", "Nobody", "The pawn"),
    ("{e4} {d5} {exd5}. WORDS take back.", "Black can", "Nobody can"),
    (asked("{e4} {d5}.", "reply e5: Black WORDS.", "exd5"), "cannot take it", "can take it"),
    (asked(RUY, "reply Ba4: The knight WORDS.", "Bxc6"), "cannot take it", "can take on a4"),
    (asked("{e4} {d5}.", "reply d3: Black WORDS on e4.", "exd5"), "can take", "can no longer take"),
    (asked("{e4} {d5}.", "reply exd5: Black WORDS with the queen.", "e5"), "takes back", "cannot take back"),
    (asked(RUY, "reply Bxc6: WORDS can take back.", "Ba4"), "A pawn", "Nobody"),
    (TAKEN + "White has WORDS now. {Nc3}.", "a check", "no check"),
    ("{e4} {e5}. White has WORDS here. {a3}.", "no capture", "a capture"),
    ("{e4} {e5}. WORDS has been taken yet. {Nf3}.", "Nothing", "A pawn"),
    (TAKEN + "WORDS left the board.", "One pawn has", "No pawn has"),
    (TAKEN + "The queens WORDS.", "have not been traded", "have come off"),
    ("{e4} {d5} {exd5}. White has WORDS a pawn.", "won", "lost"),
    (TAKEN + "{Nc3}. White took on WORDS.", "d5", "e5"),
    (TAKEN + "{Nc3}. The WORDS has taken a pawn.", "queen", "knight"),
    (TAKEN + "Black trades WORDS. {Nc3} {Qa5}.", "pawns", "queens"),
]


@pytest.mark.parametrize(("frame", "so", "not_so"), PAIRS)
def test_what_is_taken(frame: str, so: str, not_so: str) -> None:
    assert doubts(frame.replace("WORDS", so)) == []
    assert [one.code for one in doubts(frame.replace("WORDS", not_so))] == ["prose-capture"]


DEEDS = [
    ("{e4} {d5}. White WORDS: {Nc3}.", "waits", "takes"),
    ("{e4} {d5}. One WORDS, {exd5}.", "capture", "quiet step"),
    ("{e4} {d5}. Then one WORDS, {Nc3}.", "quiet step", "capture"),
    ("{e4} {d5} {Nc3}. It WORDS. {e6}.", "guards the pawn", "takes the pawn"),
    ("{e4} {d5} {exd5}. It WORDS. {Qxd5}.", "takes the pawn", "takes the knight"),
    ("{e4} {d5} {exd5}. It WORDS. {Qxd5}.", "takes a pawn", "takes nothing"),
    (asked("{e4} {d5}.", "reply d3: A WORDS, and a modest one.", "exd5"), "move", "capture"),
    (asked("{e4} {d5}.", "reply exd5: Here WORDS.", "e5"), "something is taken", "nothing is taken"),
    ("{e4} {d5}.\n\naside: If White WORDS\n  {Nc3} {Nf6}.\n\n{exd5} {Qxd5}.", "waits", "takes"),
    ("{e4} {e5} {Nf3}. The WORDS can be taken. {Nc6}.", "pawn", "knight"),
]


@pytest.mark.parametrize(("frame", "so", "not_so"), DEEDS)
def test_what_a_move_takes(frame: str, so: str, not_so: str) -> None:
    assert doubts(frame.replace("WORDS", so)) == []
    assert [one.code for one in doubts(frame.replace("WORDS", not_so))] == ["prose-capture"]


SO = [
    "{e4} {e5} {Nf3} {Nc6} {Bc4} {Bc5} {h3} {Nf6}. {g4} took g4 from the knight.",
    "{e4} {d5} {exd5}. Nobody can take back but the queen. {Qxd5}.",
    "{e4} {d5} {exd5}. He did not take back. {Nf6} is the modern way.",
    "{e4} {d5} {exd5} {Nf6}. The queen could take back, but Black cannot take back without a risk.",
    RUY + "{Ba4}. He did not take the knight.",
    RUY + "If White takes, Black takes back with the d-pawn. White cannot take on e5 without loss.",
    FREE + "{Nxd4: The knight takes and leaves it alone for now}.",
    "{e4} {e5} {f4} {d5}. He declines the gambit. {exd5} {e4}. He does not take on f4, he pushes past.",
    TAKEN + "The queens have not been traded. If they are traded, White has the easier game.",
    "{e4} {e5} {Nf3} {d6} {Bc4} {Bg4} {Nc3} {g6} {Nxe5}. He cannot take the queen, or he is mated.",
    "{e4} {c5} {d4} {cxd4} {c3}. A gambit. Nobody is forced to take it. {dxc3} {Nxc3}. White lost a pawn.",
    ASKED.replace("WORDS", "reply d3: Nobody can take anything here, and nothing has come off."),
    "{e4} {e5} {Nf3} {Nc6} {Bb5}. White may take, and if he takes the knight the pawn takes back.",
]


@pytest.mark.parametrize("body", SO)
def test_what_is_so_or_only_supposed(body: str) -> None:
    assert doubts(body) == []
