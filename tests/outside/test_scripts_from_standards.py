"""Notation printed in published standards, told as lesson scripts and read back to the same moves.

FIDE: the Laws of Chess in force from 1 January 2023, Appendix C (C.8-C.10.3.4 as in the FIDE Arbiters' Manual
2022; the rest by way of a transcription of the Laws). PGN: Edwards, "Portable Game Notation Specification and
Implementation Guide", revised 1994.03.12. Squares and moves are theirs; positions that show a case are ours.
"""

from __future__ import annotations

import io
import re

import chess
import chess.pgn
import pytest

from player.script.told import ToldBeat
from tests.script.corpora import Outcome, last_place, outcome_of, turns

TOP = "script: 1\ntitle: From the standards\n\n"


def told(body: str) -> Outcome:
    said = outcome_of(TOP + body)
    assert said.faults == ()
    return said


def ucis(said: Outcome) -> list[str]:
    return [turn.uci for beat in said.told.body if isinstance(beat, ToldBeat) for turn in turns(beat.text)]


def sans(said: Outcome) -> list[str]:
    return [turn.san for beat in said.told.body if isinstance(beat, ToldBeat) for turn in turns(beat.text)]


# FIDE Appendix C: the sample game in its three forms.

SHORT = """1.e4 e5 2. Nf3 Nf6 3. d4 exd4 4. e5 Ne4 5. Qxd4 d5 6. exd6 e.p. Nxd6 7. Bg5 Nc6 8. Qe3+ Be7
9. Nbd2 0-0 10. 0-0-0 Re8 11. Kb1"""
WITHOUT_SIGNS = """1.e4 e5 2. Nf3 Nf6 3. d4 ed4 4. e5 Ne4 5. Qd4 d5 6. ed6 Nd6 7. Bg5 Nc6 8. Qe3 Be7
9 Nbd2 0-0 10. 0-0-0 Re8 11. Kb1"""
LONG = """1. e2e4 e7e5 2.Ng1f3 Ng8f6 3. d2d4 e5xd4 4. e4e5 Nf6e4 5. Qd1xd4 d7d5 6. e5xd6 e.p. Ne4xd6
7. Bc1g5 Nb8c6 8. Qd4d3 Bf8e7 9. Nb1d2 0-0 10. 0-0-0 Rf8e8 11. Kb1"""
FORMS = {"short": SHORT, "without signs": WITHOUT_SIGNS, "long": LONG}
FINAL = "r1bqr1k1/ppp1bppp/2nn4/6B1/8/4QN2/PPPN1PPP/1K1R1B1R b - - 9 11"
FINAL_LONG = "r1bqr1k1/ppp1bppp/2nn4/6B1/8/3Q1N2/PPPN1PPP/1K1R1B1R b - - 9 11"


@pytest.mark.parametrize("form", FORMS)
def test_the_fide_sample_game_in_one_brace(form: str) -> None:
    said = told("{" + FORMS[form] + "} and a draw is offered.")
    assert len(ucis(said)) == 21
    assert last_place(said.told.body).fen == (FINAL_LONG if form == "long" else FINAL)


@pytest.mark.parametrize("form", FORMS)
def test_the_fide_sample_game_move_by_move(form: str) -> None:
    moves = (
        re.sub(r"(?<!\S)\d+(?:\. ?| )", "", " ".join(FORMS[form].split())).replace(" e.p.", "_e.p.").split()
    )
    assert len(moves) == 21
    said = told(" and then ".join("{" + move.replace("_", " ") + "}" for move in moves))
    assert ucis(said) == ucis(told("{" + FORMS[form] + "}"))


def test_the_printed_forms_are_the_same_game_but_for_whites_eighth_move() -> None:
    """The long form prints Qd4d3 where the two short ones print Qe3, so the forms part at ply 15."""
    short, without, long = (ucis(told("{" + form + "}")) for form in FORMS.values())
    assert short == without
    assert [ply for ply, (one, other) in enumerate(zip(short, long, strict=True), 1) if one != other] == [15]


# FIDE Appendix C.8 to C.11: which man, taking, promoting.

WHICH = [
    ("C.10.3.1", "4k3/8/8/8/8/8/8/K3N1N1 w - - 0 1", {"Ngf3": "g1f3", "Nef3": "e1f3"}),
    ("C.10.3.2", "4k3/8/8/6N1/8/8/8/K5N1 w - - 0 1", {"N5f3": "g5f3", "N1f3": "g1f3"}),
    ("C.10.3.3", "4k3/8/8/8/3N4/8/7N/K7 w - - 0 1", {"Nhf3": "h2f3", "Ndf3": "d4f3"}),
    ("C.10.3.4", "4k3/8/8/8/8/5p2/8/K3N1N1 w - - 0 1", {"Ngxf3": "g1f3", "Nexf3": "e1f3"}),
    ("C.10.3.4", "4k3/8/8/6N1/8/5p2/8/K5N1 w - - 0 1", {"N5xf3": "g5f3", "N1xf3": "g1f3"}),
    ("C.10.3.4", "4k3/8/8/8/3N4/5p2/7N/K7 w - - 0 1", {"Nhxf3": "h2f3", "Ndxf3": "d4f3"}),
    ("PGN 8.2.3.4", "4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", {"Nce2": "c3e2", "Nge2": "g1e2"}),
]


@pytest.mark.parametrize(
    ("article", "fen", "moves"), WHICH, ids=[f"{n}-{case[0]}" for n, case in enumerate(WHICH)]
)
def test_two_knights(article: str, fen: str, moves: dict[str, str]) -> None:
    for written, uci in moves.items():
        said = told(f"board: {fen}\n\n{{{written}}}.")
        assert (ucis(said), sans(said)) == ([uci], [written])
    bare = re.sub("N.(x?..)", r"N\1", next(iter(moves)))
    (fault,) = outcome_of(f"{TOP}board: {fen}\n\n{{{bare}}}.").faults
    assert fault.code == "ambiguous-move"
    assert all(written in fault.message for written in moves)


def test_a_pinned_knight_needs_no_telling_apart() -> None:
    """PGN 8.2.3.4: only legal moves count; with the bishop on b4 the knight on c3 cannot move."""
    said = told("board: 4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1\n\n{Ne2}.")
    assert (ucis(said), sans(said)) == (["g1e2"], ["Ne2"])


@pytest.mark.parametrize(
    ("fen", "written", "uci", "san"),
    [
        # FIDE C.11: the letter stands right after the square, without an equals sign.
        ("8/3P4/8/8/8/8/k7/2K5 w - - 0 1", "d8Q", "d7d8q", "d8=Q"),
        ("5r2/4P3/8/8/8/8/k7/2K5 w - - 0 1", "exf8N", "e7f8n", "exf8=N"),
        ("8/8/8/8/8/7k/1p4p1/4K3 b - - 0 1", "b1B", "b2b1b", "b1=B"),
        ("8/8/8/8/8/7k/1p4p1/4K3 b - - 0 1", "g1R", "g2g1r", "g1=R+"),
        # FIDE C.9: pawn captures give the file of departure; "e.p." may follow.
        ("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2", "exd6 e.p.", "e5d6", "exd6"),
        ("4k3/8/8/4p3/3P4/8/8/4K3 w - - 0 1", "dxe5", "d4e5", "dxe5"),
        # FIDE C.8: the longer form with the square of departure is acceptable.
        ("4k3/8/8/8/8/8/1B6/4K3 w - - 0 1", "Bb2e5", "b2e5", "Be5"),
        # PGN 8.2.3.6: seven characters are the most; both examples are printed there.
        ("Q7/1p5k/QQ6/8/8/8/8/4K3 w - - 0 1", "Qa6xb7#", "a6b7", "Qa6xb7#"),
        ("4k3/8/8/8/8/4K3/5p2/6R1 b - - 0 1", "fxg1=Q+", "f2g1q", "fxg1=Q+"),
    ],
)
def test_single_moves(fen: str, written: str, uci: str, san: str) -> None:
    said = told(f"board: {fen}\n\n{{{written}}}.")
    assert (ucis(said), sans(said)) == ([uci], [san])


# PGN 2.3: the game printed as an example of the format.

PGN_GAME = """1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3
O-O 9. h3 Nb8 10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15.
Nb1 h6 16. Bh4 c5 17. dxe5 Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21.
Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5 Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7
27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3 Kd6 31. axb4 cxb4 32. Ra5 Nd5 33.
f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 38. g3 Nxh3 39. Kd2 Kb5
40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6"""
PGN_FINAL = "8/8/4R1p1/2k3p1/1p4P1/1P1b1P2/3K1n2/8 b - - 2 43"


def test_the_pgn_sample_game_in_one_brace() -> None:
    said = told("{" + PGN_GAME + "} and they agreed on a draw.")
    assert len(ucis(said)) == 85
    assert last_place(said.told.body).fen == PGN_FINAL


def test_the_pgn_sample_game_told_move_by_move_is_what_a_pgn_reader_reads() -> None:
    game = chess.pgn.read_game(io.StringIO(PGN_GAME + " 1/2-1/2\n"))
    assert game is not None
    board = game.board()
    beats = []
    for move in game.mainline_moves():
        beats.append("{" + board.san_and_push(move) + "}")
    said = told("\n\n".join(f"Then {beat}." for beat in beats))
    assert ucis(said) == [move.uci() for move in game.mainline_moves()]
    assert last_place(said.told.body).fen == PGN_FINAL == board.fen()


@pytest.mark.parametrize(
    ("line", "fen"),
    [
        # PGN 16.1.4 prints these; it writes the en passant square after every double step.
        ("{e4}", "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1"),
        ("{e4 c5}", "rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2"),
        ("{e4 c5 Nf3}", "rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2"),
    ],
)
def test_printed_fens(line: str, fen: str) -> None:
    assert last_place(told(line).told.body).board().fen(en_passant="fen") == fen
    assert last_place(told(f"board: {fen}").told.body).board().epd() == chess.Board(fen).epd()
