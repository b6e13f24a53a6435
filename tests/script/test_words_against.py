"""Words in a brace against its move: what is not so is a fault, what is so is none."""

from __future__ import annotations

import pytest

from tests.script.corpora import outcome_of

BOARDS = {
    "start": "start",
    "trade": "r3k2r/ppp2ppp/2n5/3q4/3P1B2/2N2N2/PPP2PPP/R2QK2R w KQkq - 0 1",
    "passant": "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2",
    "promotion": "5r1k/4P3/8/8/8/8/8/4K3 w - - 0 1",
    "long": "4k3/8/8/8/8/8/8/R3K3 w Q - 0 1",
    "mate": "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1",
    "discovered": "4k3/8/8/8/4N3/8/8/4RK2 w - - 0 1",
}


def codes(board: str, brace: str) -> list[str]:
    said = outcome_of(f"title: x\n\nboard: {BOARDS[board]}\n\nNow {{{brace}}} and on.\n")
    return [fault.code for fault in said.faults]


@pytest.mark.parametrize(
    ("board", "brace"),
    [
        ("start", "Nf3: the knight leaves g1 for f3"),
        ("start", "Nf3: White begins with a white knight on the kingside"),
        ("start", "Nf3: quietly, without taking anything and not with check"),
        ("start", "e4: the king's pawn steps up"),
        ("start", "e4: space in the centre, and it takes space"),
        ("start", "Nf3: getting ready to castle queenside one day"),
        ("start", "e4: it would be a capture if anything stood there"),
        ("start", "Nf3 Nf6: a white knight *, a black knight *"),
        ("start", "Nf3 d5: a knight *, a pawn *, and that is that"),
        ("start", "e4: a checklist and a checkered board"),
        ("trade", "Nxd5: the knight takes the queen on d5"),
        ("trade", "Nxd5: White captures, and the black queen is gone"),
        ("trade", "O-O: the king goes to g1 and the rook to f1, castling kingside"),
        ("trade", "O-O: White castles short from e1 and h1"),
        ("trade", "Bxc7: the bishop takes the c-pawn, the pawn on c7"),
        ("passant", "exd6: the pawn takes en passant the pawn on d5"),
        ("passant", "exd6: the e-pawn becomes a d-pawn"),
        ("promotion", "exf8=Q+: the pawn takes the rook and becomes a queen, with check to the king"),
        ("mate", "Rd8#: the rook gives mate"),
        ("discovered", "Nc5+: a discovered check"),
        ("start", "e4: the king's pawn goes two squares"),
        ("start", "Nf3: the king's knight, one step from home"),
        ("trade", "Bxc7: the dark-squared bishop takes"),
        ("start", "Nf3 Nf6 Ng1: and back to g1"),
        ("trade", "Nxd5: the queen is taken, the knight takes"),
        ("start", "e4 c6: the e-pawn goes two squares, the c-pawn takes one step"),
        ("start", "Nf3: one day it may go next to g1, not with check"),
        ("discovered", "Nc5+: the knight uncovers the rook, check from e1"),
        ("start", "Nf3: it guards the pawn on d2 and looks at e5 and g5"),
    ],
)
def test_words_that_are_so(board: str, brace: str) -> None:
    assert codes(board, brace) == []


def test_one_word_that_is_not_so_is_told_once() -> None:
    assert codes("start", "Nf3: bishop to f3") == ["other-man"]
    assert codes("start", "Nf3: the bishop takes on f3") == ["other-man", "no-capture"]
    assert codes("trade", "Nxd5: the queen takes") == ["other-man"]


@pytest.mark.parametrize(
    ("board", "brace", "code"),
    [
        ("start", "Nf3: the bishop comes out", "other-man"),
        ("start", "Nf3: eyeing the pawn", "other-man"),
        ("start", "Nf3: two knights and a Rook", "other-man"),
        ("start", "Nf3: the black knight", "other-man"),
        ("start", "e4: the d-pawn", "other-man"),
        ("start", "Nf3: just like Bf3", "other-man"),
        ("start", "Nf3: looking at e6", "other-square"),
        ("start", "Nf3: better than Nc3", "other-square"),
        ("start", "Nf3: the knight takes the knight", "no-capture"),
        ("start", "Nf3: capturing", "no-capture"),
        ("start", "Nf3: it takes.", "no-capture"),
        ("trade", "Nxd5: the knight takes the pawn", "other-man"),
        ("trade", "Nxd5: en passant", "no-capture"),
        ("start", "e4: check", "no-check"),
        ("discovered", "Nc5+: checkmate", "no-check"),
        ("start", "Nf3: on the queen's side", "other-wing"),
        ("trade", "O-O: castling queenside", "other-wing"),
        ("long", "O-O-O: on the king's wing", "other-wing"),
        ("start", "Nf3: Black plays", "other-side"),
        ("start", "Nf3: and now Black's knight", "other-side"),
        ("start", "Nf3 d5: a knight *, a bishop *", "other-man"),
        ("promotion", "exf8=N: the pawn becomes a queen", "other-man"),
        ("start", "e4: one square", "other-steps"),
        ("start", "Nf3: it hops to f3 with check", "no-check"),
        ("start", "e4: the pawn goes six squares", "other-steps"),
        ("start", "e3: two steps forward", "other-steps"),
        ("start", "Nf3: White castles", "no-castling"),
        ("start", "Nf3: the queen's knight", "other-man"),
        ("start", "Nf3: and it is stalemate", "no-stalemate"),
        ("start", "Nf3: to H3", "other-square"),
        ("start", "Nf3: knight to g1", "other-square"),
        ("start", "Nf3: the knight goes out to g1 at once", "other-square"),
        ("trade", "O-O: the king goes to e1", "other-square"),
        ("start", "Nf3: a knight prevents it with check", "no-check"),
        ("trade", "Nxd5: the queen takes, and that is that", "other-man"),
        ("start", "e4 c6: the e-pawn goes two squares, the c-pawn takes two steps", "other-steps"),
        ("start", "Nf3: trading knights", "no-capture"),
        ("trade", "O-O: castles long", "other-wing"),
        ("trade", "Nxd5: taking nothing", "is-capture"),
        ("trade", "Nxd5: a quiet move", "is-capture"),
        ("mate", "Rd8#: just check", "is-check"),
        ("discovered", "Nc5+: no check", "is-check"),
        ("discovered", "Nc5+: double check", "no-check"),
        ("trade", "Bxc7: the light-squared bishop takes", "other-man"),
        ("start", "Nf3: guarding the rook", "other-man"),
        ("start", "Nf3: looking at f5", "other-square"),
    ],
)
def test_words_that_are_not_so(board: str, brace: str, code: str) -> None:
    assert code in codes(board, brace)


def test_the_caret_stands_under_the_word_that_is_wrong() -> None:
    source = "title: x\n\nNow {Nf3: the knight\nto e5} and on.\n"
    (fault,) = outcome_of(source).faults
    assert (fault.line, fault.column, fault.width, fault.code) == (4, 4, 2, "other-square")


def test_words_outside_braces_are_free() -> None:
    said = outcome_of("title: x\n\nNow {Nf3} and the bishop on c1 may give check on the queenside.\n")
    assert said.faults == ()


@pytest.mark.parametrize(
    ("language", "brace", "code"),
    [
        ("de", "Sf3: der Springer kommt heraus", ""),
        ("de", "Sf3: ein Springer auf f3, ohne Schach", ""),
        ("de", "Sf3: der Läufer kommt heraus", "other-man"),
        ("de", "Sf3: besser als Sc3", "other-square"),
        ("de", "Sf3: mit Schach", "no-check"),
        ("de", "Sf3: Schachmatt", "no-check"),
        ("fr", "Cf3: le cavalier, à son tour, du côté roi", ""),
        ("fr", "Cf3: la tour", "other-man"),
        ("es", "Cf3: el caballo sale", ""),
        ("es", "Cf3: el alfil sale", "other-man"),
        ("de", "Sf3: schlägt zu", "no-capture"),
        ("de", "Sf3: der schwarze Springer", "other-man"),
        ("de", "Sf3: der weiße Springer", ""),
        ("de", "Sf3: Schwarz zieht", "other-side"),
        ("de", "Sf3: Weiß zieht", ""),
        ("fr", "Cf3: le cavalier noir", "other-man"),
        ("fr", "Cf3: le cavalier blanc", ""),
        ("fr", "Cf3: prend", "no-capture"),
        ("es", "Cf3: captura", "no-capture"),
    ],
)
def test_words_of_other_languages(language: str, brace: str, code: str) -> None:
    said = outcome_of(f"title: x\nlanguage: {language}\n\n{{{brace}}}.\n")
    assert [fault.code for fault in said.faults] == ([code] if code else [])
