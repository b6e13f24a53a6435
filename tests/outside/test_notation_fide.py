"""Notation of the FIDE Laws of Chess (in force 1 January 2023), Appendices C and D.

Appendix C was read in public transcriptions of handbook.fide.com/chapter/E012023 and, for C.8 to C.10, in the
FIDE Arbiters' Manual 2022; Appendix D on rcc.fide.com/appendixd. The squares and moves are the Laws' own, the
positions are ours.
"""

from __future__ import annotations

import chess
import pytest

from player.wording.hear import Ambiguous, MoveHeard, NotAMove, hear
from player.wording.say import say
from player.wording.turns import hear_turns

# The sample game of Appendix C in its three printed forms; in form 2 the ninth number has no full stop.
FORMS = (
    "1.e4 e5 2. Nf3 Nf6 3. d4 exd4 4. e5 Ne4 5. Qxd4 d5 6. exd6 e.p. Nxd6 7. Bg5 Nc6 8. Qe3+ Be7 9. Nbd2 0-0"
    " 10. 0-0-0 Re8 11. Kb1",
    "1.e4 e5 2. Nf3 Nf6 3. d4 ed4 4. e5 Ne4 5. Qd4 d5 6. ed6 Nd6 7. Bg5 Nc6 8. Qe3 Be7 9 Nbd2 0-0 10."
    " 0-0-0 Re8"
    " 11. Kb1",
    "1. e2e4 e7e5 2.Ng1f3 Ng8f6 3. d2d4 e5xd4 4. e4e5 Nf6e4 5. Qd1xd4 d7d5 6. e5xd6 e.p. Ne4xd6 7. Bc1g5"
    " Nb8c6"
    " 8. Qd4d3 Bf8e7 9. Nb1d2 0-0 10. 0-0-0 Rf8e8 11. Kb1",
)
FINAL = "r1bqr1k1/ppp1bppp/2nn4/6B1/8/4QN2/PPPN1PPP/1K1R1B1R b - - 9 11"
FINAL_THIRD = "r1bqr1k1/ppp1bppp/2nn4/6B1/8/3Q1N2/PPPN1PPP/1K1R1B1R b - - 9 11"


def _played(text: str) -> tuple[list[str], chess.Board]:
    board = chess.Board()
    moves = hear_turns(board, text)
    assert isinstance(moves, tuple), moves
    sans = []
    for move in moves:
        sans.append(board.san(move))
        board.push(move)
    return sans, board


def test_the_sample_game_in_its_three_printed_forms() -> None:
    first, second, third = (_played(form) for form in FORMS)
    assert len(first[0]) == 21
    assert first[0] == second[0]
    assert first[1].fen() == second[1].fen() == FINAL
    assert third[1].fen() == FINAL_THIRD


def test_the_third_printed_form_departs_at_the_fifteenth_half_move() -> None:
    """A discrepancy of the printed text: 8.Qd4d3 where the other forms have 8.Qe3."""
    first, third = _played(FORMS[0])[0], _played(FORMS[2])[0]
    assert [
        number for number, pair in enumerate(zip(first, third, strict=True), start=1) if pair[0] != pair[1]
    ] == [15]
    assert (first[14], third[14]) == ("Qe3+", "Qd3")


def test_what_is_said_of_the_sample_game_is_heard_as_it() -> None:
    board = chess.Board()
    for san in _played(FORMS[0])[0]:
        move = board.parse_san(san)
        said = say(board, move)
        assert hear(board, said.spoken) == MoveHeard(move)
        assert said.shown == san
        board.push(move)


@pytest.mark.parametrize(
    ("fen", "uci", "san"),
    [
        ("4k3/8/8/8/8/8/8/K3N1N1 w - - 0 1", "g1f3", "Ngf3"),
        ("4k3/8/8/8/8/8/8/K3N1N1 w - - 0 1", "e1f3", "Nef3"),
        ("4k3/8/8/6N1/8/8/8/K5N1 w - - 0 1", "g5f3", "N5f3"),
        ("4k3/8/8/6N1/8/8/8/K5N1 w - - 0 1", "g1f3", "N1f3"),
        ("4k3/8/8/8/3N4/8/7N/K7 w - - 0 1", "h2f3", "Nhf3"),
        ("4k3/8/8/8/3N4/8/7N/K7 w - - 0 1", "d4f3", "Ndf3"),
        ("4k3/8/8/8/8/5p2/8/K3N1N1 w - - 0 1", "g1f3", "Ngxf3"),
        ("4k3/8/8/8/8/5p2/8/K3N1N1 w - - 0 1", "e1f3", "Nexf3"),
        ("4k3/8/8/6N1/8/5p2/8/K5N1 w - - 0 1", "g5f3", "N5xf3"),
        ("4k3/8/8/6N1/8/5p2/8/K5N1 w - - 0 1", "g1f3", "N1xf3"),
        ("4k3/8/8/8/3N4/5p2/7N/K7 w - - 0 1", "h2f3", "Nhxf3"),
        ("4k3/8/8/8/3N4/5p2/7N/K7 w - - 0 1", "d4f3", "Ndxf3"),
    ],
)
def test_two_men_of_a_kind_are_told_apart_as_in_c_10(fen: str, uci: str, san: str) -> None:
    board, move = chess.Board(fen), chess.Move.from_uci(uci)
    assert say(board, move).shown == san
    assert hear(board, san) == MoveHeard(move)
    assert hear(board, san.replace("x", "")) == MoveHeard(move)  # C.9: x may be left out
    assert isinstance(hear(board, f"N{uci[2:]}"), Ambiguous)


@pytest.mark.parametrize(
    ("fen", "uci", "printed"),
    [
        ("8/3P4/8/8/8/8/k7/2K5 w - - 0 1", "d7d8q", "d8Q"),
        ("5r2/4P3/8/8/8/8/k7/2K5 w - - 0 1", "e7f8n", "exf8N"),
        ("8/8/8/8/8/7k/1p4p1/4K3 b - - 0 1", "b2b1b", "b1B"),
        ("8/8/8/8/8/7k/1p4p1/4K3 b - - 0 1", "g2g1r", "g1R"),
    ],
)
def test_a_promotion_is_written_without_an_equals_sign_as_in_c_11(fen: str, uci: str, printed: str) -> None:
    assert hear(chess.Board(fen), printed) == MoveHeard(chess.Move.from_uci(uci))
    assert isinstance(hear(chess.Board(fen), printed[:-1]), Ambiguous)


def test_marks_are_optional_and_mate_may_be_two_crosses_as_in_c_13() -> None:
    board = chess.Board("r1bqkb1r/pppp1ppp/2n2n2/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR w KQkq - 4 4")
    mate = MoveHeard(chess.Move.from_uci("h5f7"))
    for form in ("Qxf7++", "Qxf7#", "Qxf7+", "Qxf7", "Qf7", "Qh5xf7", "Qh5f7", "Qh5-f7"):
        assert hear(board, form) == mate


def test_a_pawn_needs_no_letter_and_castling_has_noughts_as_in_c_4_and_c_13() -> None:
    board = chess.Board("r3k2r/pppppppp/8/8/8/8/PPPPPPPP/R3K2R w KQkq - 0 1")
    assert hear(board, "e4") == MoveHeard(chess.Move.from_uci("e2e4"))
    assert hear(board, "0-0") == MoveHeard(chess.Move.from_uci("e1g1"))
    assert hear(board, "0-0-0") == MoveHeard(chess.Move.from_uci("e1c1"))


# Appendix D.2.1. The ranks and pieces are German there; the umlauts are ours, the ASCII spellings printed.
FILES = ("Anna", "Bella", "Cesar", "David", "Eva", "Felix", "Gustav", "Hector")
RANKS = ("eins", "zwei", "drei", "vier", "fuenf", "sechs", "sieben", "acht")
PIECES = {"Koenig": 6, "Dame": 5, "Turm": 4, "Laeufer": 3, "Springer": 2, "Bauer": 1}


@pytest.mark.parametrize("square", chess.SQUARES)
def test_every_square_by_its_fide_names(square: chess.Square) -> None:
    board = chess.Board(None)
    board.set_piece_at(
        square ^ 56 if square >> 3 not in (3, 4) else square ^ 16, chess.Piece(chess.QUEEN, True)
    )
    move = next((m for m in board.legal_moves if m.to_square == square), None)
    assert move is not None
    file, rank = FILES[square & 7], RANKS[square >> 3]
    assert hear(board, f"Dame {file} {rank}", language="de") == MoveHeard(move)
    assert hear(board, f"queen {file} {rank}") == MoveHeard(move)
    assert hear(board, f"queen {file} {(square >> 3) + 1}") == MoveHeard(move)


@pytest.mark.parametrize(("name", "kind"), PIECES.items())
def test_every_man_by_its_german_name(name: str, kind: int) -> None:
    board = chess.Board(None)
    board.set_piece_at(chess.E4, chess.Piece(kind, chess.WHITE))
    target = {"Laeufer": "Felix fuenf", "Springer": "Felix sechs"}.get(name, "Eva fuenf")
    move = chess.Move.from_uci({"Laeufer": "e4f5", "Springer": "e4f6"}.get(name, "e4e5"))
    umlaut = name.replace("oe", "ö").replace("ae", "ä")
    for said in (name, umlaut):
        assert hear(board, f"{said} {target}", language="de") == MoveHeard(move)


def test_castling_by_its_german_names_and_the_misprints_of_the_older_chapter() -> None:
    """The older handbook chapter E02 prints "seiben" and "funf"."""
    board = chess.Board("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1")
    assert hear(board, "Kurze Rochade", language="de") == MoveHeard(chess.Move.from_uci("e1g1"))
    assert hear(board, "Lange Rochade", language="de") == MoveHeard(chess.Move.from_uci("e1c1"))
    assert hear(board, "Turm Hector seiben", language="de") == MoveHeard(chess.Move.from_uci("h1h7"))
    assert hear(board, "Turm Anna funf", language="de") == MoveHeard(chess.Move.from_uci("a1a5"))
    assert hear(board, "Turm Anna fünf", language="de") == MoveHeard(chess.Move.from_uci("a1a5"))


def test_an_announcement_is_repeated_back_as_the_same_move() -> None:
    """D.2 has each move announced and repeated; the worked announcement and its word order are ours."""
    board = chess.Board()
    move = chess.Move.from_uci("g1f3")
    assert hear(board, "Springer Gustav eins Felix drei", language="de") == MoveHeard(move)
    repeated = say(board, move, naming="fide", language="de", depth="spelled").spoken
    assert repeated == "Springer von Gustav eins nach Felix drei"
    assert hear(board, repeated, language="de") == MoveHeard(move)
    assert isinstance(hear(board, "Springer", language="de"), NotAMove)
