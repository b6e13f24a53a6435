"""Checks and mates said or denied, by whom, and kings that must move: what is not so is a query."""

from __future__ import annotations

import pytest

from tests.check.prose.test_captured import asked
from tests.check.prose.test_doubts import OPENED, TAKEN, doubts

QUEEN = "{e4} {e5} {Qh5} {Nc6} {Bc4} {Nf6}. "
ROOK = "board: 6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1\n\n"
OPEN = "{e4} {e5} {Bc4} {Bc5} {Bxf7+}. "

PAIRS = [
    (OPEN + "Ooh, WORDS! {Kxf7}.", "a check", "no check"),
    ("{e4} {e5} {Bc4} {Bc5} {Bxf7+}, WORDS. {Kxf7}.", "with check", "without check"),
    (QUEEN + "{Qxf7#}. It is WORDS.", "mate", "not mate"),
    (QUEEN + "{Qxf7#}. It is WORDS check.", "more than a", "only a"),
    (QUEEN + "{d3} is WORDS. {Nxh5}.", "no check", "check"),
    (QUEEN + "{d3}. It WORDS the king.", "guards e4 and does not check", "checks"),
    (asked(OPENED, "reply d3: WORDS, but for nothing.", "O-O"), "A move", "It gives check"),
    (asked(ROOK, "reply Ra7: WORDS, and the rank is cut.", "Ra8#"), "No check", "It is a check"),
    (
        asked(TAKEN, "reply Qf3: A strong move WORDS.", "Nc3"),
        "at first sight",
        "with check",
    ),
    (
        asked(ROOK, "nudge: Think.\n  nudge: Rook to a8 WORDS, because he is shut in.", "Ra8#"),
        "with check",
        "without check",
    ),
    (asked(ROOK, "nudge: Think. It is WORDS.", "Ra8#"), "a check", "no check"),
    (ROOK + "The rook goes to a8 WORDS check.", "with", "without"),
    ("{e4} {e5} {d3}. WORDS. {Nc6}.", "Quiet, and slow", "Check, and slow"),
    (QUEEN + "{Qxf7#}. That WORDS at last.", "is mate", "has been stalemate"),
    ("{e4} {e5} {Bc4} {Nc6}. White WORDS at once with {Qh5}.", "threatens", "checks the king"),
    (asked(OPENED, "reply d3: Solid: it WORDS too.", "O-O"), "guards", "gives check"),
    (OPENED + "The WORDS.", "rook waits", "rook gives check"),
    (OPEN + "The king WORDS. {Kxf7}.", "has to move", "need not move"),
    ("{e4} {e5}. The king WORDS. {Nf3} {Nc6}.", "need not move", "must move"),
    ("{e4} {e5}. He keeps the WORDS. {Nf3} {Nc6}.", "pawn", "check"),
]


@pytest.mark.parametrize(("frame", "so", "not_so"), PAIRS)
def test_what_gives_check(frame: str, so: str, not_so: str) -> None:
    assert doubts(frame.replace("WORDS", so)) == []
    found = doubts(frame.replace("WORDS", not_so))
    assert [one.code in ("prose-check", "prose-mate") for one in found] == [True]


SO = [
    "{e4} {e5} {Qh5} {Nc6}. If the knight were still on b8, the queen could have had it, with check.",
    "board: 7R/2k5/8/8/8/8/7r/K7 b - - 0 1\n\n{Kb7 Rh7+ Kb8: The king comes *, check *, he goes *}.",
    QUEEN + "{Qxf7#}. It is mate, not just a check, and the king cannot take the queen.",
    "{e4} {e5} {Qh5} {g6}. She can take on e5 with check. {Qxe5+}. Check. {Qe7}. No check any more.",
    ROOK + "The rook checks on a8, and the king cannot get out. {Ra8#}.",
    OPEN + "{Kxf7} {Qh5+}. The bishop took with check first, and then the queen checks. {Kf8}.",
    TAKEN + "{Bb5+}. Check. The king may step aside, but a pawn is better: {c6}.",
    "{e4} {e5} {f4} {exf4}, without fear of a check. {Nf3} {d6}. If the king must move later, so be it.",
    asked(TAKEN, "reply Qf3: No harm done, and after a trade there is no check to fear.", "Nc3"),
    OPENED + "A rook would give check on e8, if there were one. Check that twice.",
]


@pytest.mark.parametrize("body", SO)
def test_checks_that_are_so_or_only_supposed(body: str) -> None:
    assert doubts(body) == []
