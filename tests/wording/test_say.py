"""What is said of a move is heard as that very move, in every depth, naming and language."""

from __future__ import annotations

import chess
import pytest

from player.wording.hear import MoveHeard, hear
from player.wording.languages import codes
from player.wording.say import Depth, Naming, say
from tests.wording.positions import positions

DEPTHS: list[Depth] = ["full", "short", "spelled"]
NAMINGS: list[Naming] = ["letters", "fide", "alphabet"]


def _round_trip(number: int, seed: int, code: str, depth: Depth, naming: Naming) -> None:
    for board in positions(number, seed):
        for move in board.legal_moves:
            said = say(board, move, depth=depth, naming=naming, language=code)
            assert hear(board, said.spoken, language=code) == MoveHeard(move), (board.fen(), said)
            assert hear(board, said.shown, language=code, script=True) == MoveHeard(move), (board.fen(), said)


def test_english_in_full_comes_back_as_the_move() -> None:
    _round_trip(24, 1, "en", "full", "letters")


@pytest.mark.parametrize("code", codes())
@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("naming", NAMINGS)
def test_every_way_of_saying_comes_back_as_the_move(code: str, depth: Depth, naming: Naming) -> None:
    _round_trip(4, 2, code, depth, naming)


@pytest.mark.parametrize("code", codes())
@pytest.mark.parametrize("naming", NAMINGS)
def test_what_is_read_has_plain_letters(code: str, naming: Naming) -> None:
    board = chess.Board("6k1/8/8/8/8/8/8/R4RK1 w - - 0 1")
    said = say(board, board.parse_san("Rac1"), naming=naming, language=code)
    assert "a" in said.words.split() and said.words.endswith("c1") and said.shown.endswith("ac1")
    assert hear(board, said.words, language=code) == MoveHeard(board.parse_san("Rac1"))
    assert say(board, board.parse_san("Kg2")).words == "king to g2"


@pytest.mark.large
def test_english_in_full_over_five_thousand_positions() -> None:
    _round_trip(5000, 3, "en", "full", "letters")


@pytest.mark.large
@pytest.mark.parametrize("code", codes())
@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("naming", NAMINGS)
def test_every_way_of_saying_over_many_positions(code: str, depth: Depth, naming: Naming) -> None:
    _round_trip(200, 4, code, depth, naming)


KIWIPETE = "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1"


@pytest.mark.parametrize(
    ("fen", "uci", "depth", "naming", "language", "spoken", "shown"),
    [
        (KIWIPETE, "e5f7", "full", "letters", "en", "knight takes pawn on f7", "Nxf7"),
        (KIWIPETE, "e5f7", "short", "letters", "en", "knight takes f7", "Nxf7"),
        (KIWIPETE, "e5f7", "spelled", "letters", "en", "knight from e five takes f seven", "Nxf7"),
        (KIWIPETE, "e5f7", "full", "fide", "en", "knight takes pawn on Felix seven", "Nxf7"),
        (KIWIPETE, "e5f7", "full", "alphabet", "en", "knight takes pawn on Foxtrot seven", "Nxf7"),
        (KIWIPETE, "e1c1", "full", "letters", "en", "castles queenside", "O-O-O"),
        (KIWIPETE, "d5e6", "full", "letters", "en", "d-pawn takes pawn on e6", "dxe6"),
        (KIWIPETE, "d5e6", "short", "letters", "en", "d takes e6", "dxe6"),
        (KIWIPETE, "e5f7", "full", "letters", "de", "Springer schlägt Bauer auf f7", "Sxf7"),
        (KIWIPETE, "e5f7", "full", "letters", "fr", "cavalier prend pion en f7", "Cxf7"),
        (KIWIPETE, "e5f7", "full", "letters", "es", "caballo toma peón en f7", "Cxf7"),
        (KIWIPETE, "e1g1", "full", "letters", "de", "kurze Rochade", "O-O"),
        ("8/8/8/2k5/3Pp3/8/8/4K3 b - d3 0 1", "e4d3", "full", "letters", "en",
         "e-pawn takes pawn on d3 en passant", "exd3"),
        ("5r2/4P3/8/8/8/8/k7/2K5 w - - 0 1", "e7f8n", "full", "letters", "en",
         "e-pawn takes rook on f8, promoting to knight", "exf8=N"),
        ("Q7/1p5k/QQ6/8/8/8/8/4K3 w - - 0 1", "a6b7", "full", "letters", "en",
         "queen a6 takes pawn on b7, checkmate", "Qa6xb7#"),
        ("3r2k1/5ppp/8/8/8/8/5PPP/R4RK1 w - - 0 1",
         "a1d1", "full", "letters", "en", "rook eigh to d1", "Rad1"),
        ("3r2k1/5ppp/8/8/8/8/5PPP/R4RK1 w - - 0 1", "a1d1", "spelled", "letters", "en",
         "rook from eigh one to d one", "Rad1"),
        ("4k3/8/8/8/8/2n5/1P1B4/4K3 w - - 0 1", "b2c3", "short", "letters", "en", "b-pawn takes c3", "bxc3"),
        ("3r2k1/5ppp/8/8/8/8/5PPP/R4RK1 w - - 0 1", "a1a8", "short", "letters", "en", "rook a8", "Ra8"),
        ("6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1",
         "a1a8", "full", "letters", "en", "rook to a8, checkmate", "Ra8#"),
    ],
)  # fmt: skip
def test_the_words(
    fen: str, uci: str, depth: Depth, naming: Naming, language: str, spoken: str, shown: str
) -> None:
    said = say(chess.Board(fen), chess.Move.from_uci(uci), depth=depth, naming=naming, language=language)
    assert (said.spoken, said.shown) == (spoken, shown)


def test_check_and_mate_and_a_promotion_are_always_said() -> None:
    for board in positions(12, seed=9):
        for move in board.legal_moves:
            for depth in DEPTHS:
                said = say(board, move, depth=depth)
                assert ("check" in said.spoken) == ("+" in said.shown or "#" in said.shown)
                assert ("checkmate" in said.spoken) == ("#" in said.shown)
                if move.promotion:
                    assert said.spoken.split(",")[-1 - board.gives_check(move)].split()[
                        -1
                    ] == chess.piece_name(move.promotion)


def test_an_illegal_move_is_not_said() -> None:
    with pytest.raises(ValueError, match="e2e5"):
        say(chess.Board(), chess.Move.from_uci("e2e5"))
