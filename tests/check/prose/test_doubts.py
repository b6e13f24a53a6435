"""Prose against the board, the moves told, the answer and the game: what is not so is a query."""

from __future__ import annotations

from pathlib import Path

import pytest

from player.check.handful import HANDFUL, handful, is_doubt, kept_back
from player.script.faults import Fault
from tests.check.checking import faults_of

HEAD = "script: 1\ntitle: A walk\ncoach: Ines\nside: white\n\n"
GAME = "board: start\ngame: Anna Berg - Otto Lind, Old Mill 2011, 1-0\n\n"
OPENED = "{Nf3} {d5} {g3} {Nf6} {Bg2} {e6}. "
ASKED = OPENED + "\n\nquestion: Which move?\n  WORDS\n\n{O-O}. Done.\n"
COUNTED = (
    OPENED + "\n\nquestion: How many white men look at e5?\n  ask: count\n  answer: 1\n  because: WORDS\n"
)
TAKEN = "{e4} {d5} {exd5} {Qxd5}. "
ENDING = "board: White Ke5 pe4; Black Kd7; White to move\n\n"


def doubts(body: str) -> list[Fault]:
    source = HEAD + body + "\n"
    every = faults_of(source)
    assert not [fault for fault in every if fault.severity == "fault"], every
    return [fault for fault in every if is_doubt(fault)]


SO = [
    OPENED + "The knight on f6 looks at d5, and White's bishop on g2 does too.",
    OPENED + "The knight on g1 is gone, and the pawn from d7 stands on d5.",
    OPENED + "The knight would love to stand on e5, and Black's bishop dreams of d6.",
    OPENED + "If the bishop goes to d6, White may push to e4 later.",
    OPENED + "Imagine a rook on h7. It is not there, of course.",
    TAKEN + "One day he gives the queen for the bishop, or so he dreams.",
    OPENED + "One day a knight on c4 would bite the pawn on d6.",
    OPENED + "White to move. It is White's turn, and nobody is in check.",
    OPENED + "The pawn on d5 is guarded twice.",
    "Now Black would take, {Nf3}, if only he could.",
    TAKEN + "The queen takes back, and there are two knights on each side.",
    "{e4} {d5} {exd5}. White takes the pawn.",
    "{e4} {e5} {Qh5} {Ke7} {Qxe5#}. It is mate.",
    "{e4} {e5} {Nf3} {Nc6} {Bc4} {Bc5} {O-O}. White castled kingside.",
    ENDING + "White has the move, and the pawn on e4 is passed. There is one square between nobody.",
    GAME + "{e4}. Anna Berg was young in 2011, and White is Anna Berg. Otto answers {e5}.",
    ASKED.replace("WORDS", "reply d3: It loses nothing, and the king stays on e1."),
    ASKED.replace("WORDS", "nudge: White castles, because the king is then behind his bishop."),
    COUNTED.replace("WORDS", "One: the knight on f3."),
    "{e4} {e5} {Nf3} {Nc6} {Bb5} {a6} {Bxc6}. A capture that gives the bishop for the knight.",
    "{e4} {d5} {exd5} {Qxd5} {Qf3} {Qe6+}. A check, and the queens face each other no more.",
    TAKEN + "{Qf3}. The queens face each other on the diagonal. It takes no genius to see it.",
    OPENED + "The queen stands behind a pawn, and f3, on the kingside, is taken.",
    ASKED.replace("WORDS", "reply d3: It takes e4 from nobody, and Black is not in check."),
    ASKED.replace("WORDS", "nudge: Look to the right, towards the queen's side of nothing."),
    OPENED + "{O-O}. White's king is safe on the right. {c5}. Black's pawns have arrived on the left.",
    OPENED + "{O-O} {c5} {h3}. On the left Black has more room, and the rook looks left and right.",
    OPENED + "The bishop left home; all right, it was the right move at the right time.",
    OPENED + "Now White touches the kingside: {h4}. Nobody is left on the right to stop it.",
    GAME + "{e4}. It was two thousand and eleven, or twenty eleven, with twenty good moves.",
    "{e4} {d5} {exd5}. He has taken the pawn. {Qxd5}. He takes back.",
    "{e4} {e5}. He may take a rest, {Nf3}, or take his time, {Nc6}.",
    OPENED + "From g2 and f3 the men look through the queen. The queen looks at d4 through her pawn.",
    OPENED + "The knight from b1 has a trip before it: d2, f1, e3 and, with luck, f5.",
    TAKEN + "A pawn for a pawn, and a rook's pawn is far away. The king leaves the table.",
    "{e4} {e5} {Nf3}, with an eye on e5 and d4. {Nc6}. This knight has come to help.",
    OPENED + "The b-knight waits, and the bishop on g2 lives on the light squares.",
    ENDING + "The king's pawn is ready, and White has two of everything but knights.",
]


@pytest.mark.parametrize("body", SO)
def test_what_is_so_or_only_supposed(body: str) -> None:
    assert doubts(body) == []


NOT_SO = [
    (OPENED + "The bishop on f6 looks at d5.", "prose-man", "bishop on f6"),
    (OPENED + "The knight on h6 looks on.", "prose-man", "knight on h6"),
    (OPENED + "Black's bishop on g2 looks at d5.", "prose-man", "bishop on g2"),
    (OPENED + "Our pawn on d5 is safe.", "prose-man", "pawn on d5"),
    (OPENED + "The knight on f6 looks at b3.", "prose-hit", "b3"),
    (OPENED + "Both knights on c6 and f6 wait.", "prose-man", "c6"),
    (OPENED + "Black to move here.", "prose-turn", "Black to move"),
    (OPENED + "White has three knights and a queen.", "prose-count", "three knights"),
    (OPENED + "The five bishops wait.", "prose-count", "five bishops"),
    (OPENED + "The d-file is open.", "prose-claim", "The d-file is open"),
    (OPENED + "The pawn on d5 is guarded four times.", "prose-claim", "The pawn on d5 is guarded four times"),
    (OPENED + "The knight on f6 is pinned.", "prose-claim", "The knight on f6 is pinned"),
    (OPENED + "Black is a pawn up.", "prose-count", "Black is a pawn up"),
    (OPENED + "There goes d5. The pawn on d5 has four guards.", "prose-count", "four guards"),
    ("Here White plays {Nf3}, and Black takes the knight, {d5}.", "prose-capture", "takes"),
    ("The knight comes out, {Nf3}, with check.", "prose-check", "check"),
    ("{e4} {e5} {Qh5} {Ke7} {Qxe5#}. It is not mate.", "prose-mate", "not mate"),
    ("Black begins with {Nf3}.", "prose-side", "Black"),
    ("{e4} {e5} {Nf3} {Nc6} {Bc4} {Bc5} {O-O}. White castled queenside.", "prose-wing", "castled queenside"),
    (ENDING + "The rook waits.", "prose-man", "rook"),
    (GAME + "{e4}. White is Otto Lind.", "prose-name", "White is Otto Lind"),
    (GAME + "{e4}. Then Anna Lind smiled.", "prose-name", "Anna Lind"),
    (GAME + "{e4}. Then Anna Bergg smiled.", "prose-name", "Bergg"),
    (GAME + "{e4}. It was in 2012, I believe.", "prose-year", "2012"),
    (GAME + "{e4}. Otto won the game.", "prose-result", "Otto won the game"),
    (GAME.replace("1-0", "1-0") + "{f3} {e5} {g4} {Qh4#}.", "game-result", ""),
    (ASKED.replace("WORDS", "reply d3: It loses a pawn."), "prose-reply", "loses a pawn"),
    (
        ASKED.replace("WORDS", "nudge: First this.\n  nudge: Knight to d2, because it is time."),
        "prose-answer",
        "",
    ),
    (
        ASKED.replace("WORDS", "nudge: One.\n  nudge: A bishop.\n  nudge: Three.\n  nudge: Four."),
        "prose-nudge",
        "",
    ),
    (COUNTED.replace("WORDS", "Two: the knight on f3."), "prose-count", "Two"),
    ("{e4} {e5} {Nf3}. A capture that costs time.", "prose-capture", "capture"),
    ("{e4} {e5} {Nf3}. A little check, and on we go.", "prose-check", "check"),
    ("{e4} {e5} {Nf3}. It takes e5, and on we go.", "prose-capture", "takes"),
    (TAKEN + "He took nothing, and on we go.", "prose-capture", "took nothing"),
    (TAKEN + "White gives the bishop for the knight.", "prose-formed", "bishop"),
    (TAKEN + "What did White get for that rook?", "prose-formed", "rook"),
    (OPENED + "The bishops face each other.", "prose-formed", "bishop"),
    (OPENED + "The rook stands behind the queen.", "prose-formed", "queen"),
    (OPENED + "There is a white knight that nobody guards.", "prose-formed", "white"),
    (OPENED + "It stands behind the a-pawn.", "prose-formed", "a"),
    (OPENED + "The knight has f3, on the queenside.", "prose-wing", "queen"),
    (ASKED.replace("WORDS", "reply d3: Quiet, and Black is in check."), "prose-check", "Black"),
    (ASKED.replace("WORDS", "nudge: Look to the left, where there is room."), "prose-wing", "left"),
    (OPENED + "{O-O} {c5} {d3} {b5}. Black's pawns have arrived on the right.", "prose-wing", "right"),
    (OPENED + "Now White touches the queenside: {h4}.", "prose-wing", "queen"),
    (ENDING.replace("pe4", "pb4") + "The pawn runs on the right.", "prose-wing", "right"),
    (GAME + "{e4}. It was two thousand and twelve.", "prose-year", "two thousand and twelve"),
    (GAME + "{e4}. It was nineteen ninety-one.", "prose-year", "nineteen ninety-one"),
    (GAME + "{e4}. And then Otta smiled.", "prose-name", "Otta"),
    ("{e4} {d5}. He did not take: {exd5}.", "prose-capture", "did not take"),
    ("{e4} {e5}. He takes it. {Nf3}", "prose-capture", "He takes it"),
    ("{e4} {e5}. He may take, {Nf3}.", "prose-capture", "take"),
    (TAKEN + "White has a queen, two rooks and a pawn, and three knights, and Black.", "prose-count", ""),
    (ENDING + "The rook's pawn is a poor relation.", "prose-formed", "rook"),
    (TAKEN + "A knight for a pawn, and that is a price.", "prose-formed", ""),
    ("{e4} {e5} {Nf3}, with an eye on e5 and f7.", "prose-square", "f7"),
    ("{e4} {e5} {Nf3}. That bishop has come to help.", "prose-kin", "bishop"),
    ("{e4} {e5}. The king steps out of check.", "prose-check", "out of check"),
    (OPENED + "The c-knight waits for better days.", "prose-formed", "knight"),
    (OPENED + "The knight lives on the light squares.", "prose-formed", "knight"),
    (OPENED + "The rook stands behind the e-pawn.", "prose-formed", "rook"),
    (OPENED + "Somebody on h5 does the work.", "prose-square", "h5"),
    (GAME + "Suppose Otto had gone on with {e4}.", "prose-side", "Otto"),
    (ENDING + "Ours stand well, and his on d7 and e6.", "prose-square", "e6"),
    ("{e4} {e6} {e5} {d5}. From e5 through d6 it points at the white king.", "prose-formed", "white"),
]


@pytest.mark.parametrize(("body", "code", "at"), NOT_SO)
def test_what_is_not_so(body: str, code: str, at: str) -> None:
    found = doubts(body)
    assert code in [doubt.code for doubt in found]
    lines = (HEAD + body).split("\n")
    doubt = next(doubt for doubt in found if doubt.code == code)
    words = lines[doubt.line - 1][doubt.column - 1 :][: doubt.width]
    assert doubt.severity == "query"
    if at:
        assert at in words or words in at


def test_a_doubt_is_waved_off_by_fine() -> None:
    body = OPENED + "The knight on h6 looks on."
    assert len(doubts(body)) == 1
    assert doubts(body + "\nfine: knight on h6") == []


def test_a_game_line_that_the_prose_speaks_against_is_doubted_too() -> None:
    found = doubts(GAME + "{e4}. It was in 2012, I believe. White was Otto Lind.")
    assert sorted(doubt.code for doubt in found) == ["game-line", "game-line", "prose-name", "prose-year"]
    assert {doubt.line for doubt in found if doubt.code == "game-line"} == {7}


def test_other_languages_are_left_alone() -> None:
    source = "script: 1\ntitle: T\nlanguage: de\n\n{Sf3}. Der knight on h6.\n"
    assert faults_of(source) == ()


def test_a_handful_is_shown_and_the_rest_counted(tmp_path: Path) -> None:
    body = OPENED + "\n\n".join(f"The knight on h{row} waits." for row in range(1, 9))
    found = doubts(body)
    shown, more = handful(found)
    assert (len(found), len(shown), more) == (8, HANDFUL, 3)
    assert list(shown) == sorted(shown, key=lambda fault: fault.line)
    assert "3 more doubts" in kept_back(more)
    fault = Fault(1, 1, 1, "fault", "illegal-move", "No.")
    assert handful([fault] * 9) == ((fault,) * 9, 0)
