"""Each kind of claim by its definition: where it holds, where it just fails, and where nothing is proved."""

from __future__ import annotations

import chess
import pytest

from player.facts.claim import Claim
from player.facts.prove import KINDS, prove
from tests.facts.claimed import judged, kind, some_boards

START = chess.STARTING_FEN
CASES: list[tuple[str, str, str]] = [
    # pins: to the king, to more, to an equal man left alone, and not where taking would not pay
    ("4r1k1/8/8/8/8/8/4N3/4K3 w - - 0 1", "the knight on e2 is pinned to e1", "true"),
    ("4r1k1/8/8/8/8/8/4N3/4K3 w - - 0 1", "the king on e1 is pinned", "false"),
    ("3qk3/8/5n2/6B1/8/8/8/4K3 b - - 0 1", "the knight on f6 is pinned to d8", "true"),
    ("3rk3/8/5n2/6B1/8/8/8/4K3 b - - 0 1", "the knight on f6 is pinned to d8", "true"),
    ("4k3/3pb3/5n2/6B1/8/8/8/4K3 b - - 0 1", "the knight on f6 is pinned", "false"),
    ("2k5/4b3/5n2/6B1/8/8/8/4K3 b - - 0 1", "the knight on f6 is pinned to e7", "true"),
    ("k7/4p3/5n2/6B1/8/8/8/4K3 b - - 0 1", "the knight on f6 is pinned", "false"),
    # forks
    ("r3k3/8/8/3N4/8/8/8/6K1 w - - 0 1", "Nc7+ forks e8 and a8", "true"),
    ("r3k3/8/8/3N4/8/8/8/6K1 w - - 0 1", "Nc7 forks e8 and h8", "false"),
    ("6k1/3p4/4p3/8/2N1B3/8/8/6K1 b - - 0 1", "d5 forks c4 and e4", "true"),
    ("4k3/8/8/8/1b3b2/8/8/3K4 w - - 0 1", "Kc2 forks b4 and f4", "false"),
    ("4k3/p7/1b3b2/8/8/3N4/8/4K3 w - - 0 1", "Nc5 forks b6 and f6", "false"),
    ("r3k3/8/8/3N4/8/8/8/4K3 w q - 0 1", "Nc7 forks a8 and a8", "false"),
    # discovered attacks and checks
    ("r3k3/8/8/8/4N3/8/6B1/4K3 w - - 0 1", "Nf6+ discovers an attack on a8", "true"),
    ("r3k3/8/8/8/4N3/8/6B1/4K3 w - - 0 1", "Nc5 discovers an attack on e8", "false"),
    ("4k3/8/8/8/4N3/8/8/4R1K1 w - - 0 1", "Nc5 is discovered check", "true"),
    ("4k3/8/8/8/4N3/8/8/4R1K1 w - - 0 1", "Nd6 is double check", "true"),
    ("4k3/8/8/8/4N3/8/8/4R1K1 w - - 0 1", "Nd6 is discovered check", "false"),
    # skewers
    ("8/1q5p/8/3k4/8/8/8/5BK1 w - - 0 1", "Bg2 skewers d5 and b7", "true"),
    ("8/1k5p/8/3q4/8/8/8/5BK1 w - - 0 1", "Bg2 skewers d5 and b7", "false"),
    ("8/1b6/2k5/3q4/8/8/8/5BK1 w - - 0 1", "Bg2 skewers d5 and c6", "false"),
    ("8/p7/1b6/3k4/8/8/8/5BK1 w - - 0 1", "Bg2 skewers d5 and b7", "false"),
    ("7b/2N2B2/2RBK3/n3b2p/3B2k1/8/4r3/6q1 w - h6 0 1", "Bxh5+ skewers g4 and e2", "false"),
    # threats
    ("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1", "Ra8 threatens mate", "false"),
    ("6k1/5ppp/8/8/8/8/8/3R2K1 b - - 0 1", "h6 threatens mate", "false"),
    ("6k1/5ppp/8/8/8/8/3R4/7K w - - 0 1", "Rc2 threatens Rc8", "true"),
    ("6k1/5ppp/8/8/8/8/3R4/7K w - - 0 1", "Rc2 threatens mate", "true"),
    ("6k1/8/3p4/4n3/8/8/8/R6K w - - 0 1", "Ra5 threatens Rxe5", "false"),
    ("6k1/8/8/4n3/8/8/8/R6K w - - 0 1", "Ra5 threatens Rxe5", "true"),
    # what a move wins
    ("r3k3/8/8/3N4/8/8/8/6K1 w - - 0 1", "Nc7 wins a piece", "true"),
    ("r3k3/8/8/3N4/8/8/8/6K1 w - - 0 1", "Nc7 wins the queen", "false"),
    ("r3k3/1b6/8/3N4/8/8/8/6K1 w - - 0 1", "Nc7 wins the exchange", "true"),
    # counting moves, mates, ends
    (START, "White has 20 legal moves", "true"),
    (START, "White has twenty moves", "true"),
    (START, "the knight on g1 has two moves", "true"),
    (START, "the knight on g8 has two moves", "false"),
    ("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", "stalemate", "true"),
    ("7k/6Q1/6K1/8/8/8/8/8 b - - 0 1", "stalemate", "false"),
    ("7k/6Q1/6K1/8/8/8/8/8 b - - 0 1", "checkmate", "true"),
    ("7k/6Q1/6K1/8/8/8/8/8 b - - 0 1", "Black is in check", "true"),
    ("6k1/5ppp/8/8/8/8/8/R6K w - - 0 1", "mate in 1", "true"),
    ("6k1/5pp1/7p/8/8/8/8/R6K w - - 0 1", "mate in 1", "false"),
    # rooks, castling, en passant, the fifty
    ("4k3/8/8/8/8/8/8/R2K3R w - - 0 1", "the rooks of White are connected", "false"),
    ("4k3/8/8/8/8/8/4K3/R6R w - - 0 1", "the rooks of White are connected", "true"),
    ("4k3/8/8/8/8/8/4K2R/R7 w - - 0 1", "the rooks of White are connected", "false"),
    ("4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "White may castle kingside", "true"),
    ("4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1", "White may castle kingside", "false"),
    ("4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1", "White may castle queenside", "true"),
    ("4kr2/8/8/8/8/8/8/R3K2R b KQ - 0 1", "White may castle queenside", "false"),
    ("4kr2/8/8/8/8/8/8/R3K2R b KQ - 0 1", "Black has lost the right to castle", "true"),
    ("4kr2/8/8/8/8/8/8/R3K2R b KQ - 0 1", "White has lost the right to castle", "false"),
    ("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "en passant is possible", "true"),
    ("4k3/8/8/3pP3/8/8/8/4K3 w - - 0 1", "en passant is possible", "false"),
    ("4k3/8/8/8/8/8/8/R3K3 w - - 24 60", "it is move 12 of fifty", "true"),
    # material
    (START, "material is equal", "true"),
    ("4k3/8/8/8/8/8/P7/N3K3 w - - 0 1", "White is up a piece and a pawn", "true"),
    ("4k3/8/8/8/8/8/P7/N3K3 w - - 0 1", "White is up a piece", "false"),
    ("4k3/pp6/8/8/8/8/8/N3K3 w - - 0 1", "White is up a knight for two pawns", "true"),
    ("4k1b1/8/8/8/8/8/8/R3K3 w - - 0 1", "White is the exchange up", "true"),
    ("4k1b1/7p/8/8/8/8/8/R3K3 w - - 0 1", "White is up the exchange", "false"),
    ("4k1b1/7p/8/8/8/8/8/R3K3 w - - 0 1", "White is up the exchange for a pawn", "true"),
    ("4k1b1/8/8/8/8/8/8/N3K3 w - - 0 1", "material is equal", "true"),
    ("4k1b1/8/8/8/8/8/8/BB2K3 w - - 0 1", "White has the bishop pair", "true"),
    ("4k1bb/8/8/8/8/8/8/BB2K3 w - - 0 1", "White has the bishop pair", "false"),
    ("4k1b1/8/8/8/8/8/8/B3K3 w - - 0 1", "the bishops are of opposite colours", "true"),
    ("4k2b/8/8/8/8/8/8/B3K3 w - - 0 1", "the bishops are of opposite colors", "false"),
    # the opposition and the square
    ("8/4k3/8/4K3/3P4/8/8/8 w - - 0 1", "Black has the opposition", "true"),
    ("8/4k3/8/4K3/3P4/8/8/8 b - - 0 1", "White has the opposition", "true"),
    ("8/4k3/8/4K3/3P3r/8/8/8 b - - 0 1", "White has the opposition", "false"),
    ("8/8/8/8/P3k3/8/8/7K w - - 0 1", "the king is inside the square of the pawn on a4", "true"),
    ("8/8/8/8/P4k2/8/8/7K w - - 0 1", "the king is inside the square of the pawn on a4", "false"),
    # what it is not
    (START, "the bishop on g2 is undefended", "false"),
    (START, "the black knight on g1 is guarded", "false"),
    (START, "Nf6 is legal", "false"),
    (START, "Nxf3 is legal", "false"),
    (START, "nf3 is legal", "true"),
    (START, "1.Nf3 is legal", "true"),
    # after moves, and after a pass
    (START, "after e4 e5, the e-file is closed", "true"),
    (START, "after 1.e4 e5 2. Nf3, Black has the move", "true"),
    (START, "after e4 e4, material is equal", "false"),
    (START, "if White passes, e5 is legal", "true"),
    (START, "if Black passes, e5 is legal", "false"),
    (START, "after e4, if Black passes, e5 is legal", "true"),
    ("4k3/8/8/8/8/8/8/4K2r w - - 0 1", "if White passes, Rxe1 is legal", "false"),
    # not proved
    (START, "White wins with best play", "unproved"),
    (START, "the position is drawn", "unproved"),
    ("8/8/8/4k3/8/8/8/8 w - - 0 1", "Kd4 is legal", "unproved"),
    ("8/8/8/4k3/8/8/8/8 w - - 0 1", "the e-file is open", "true"),
]


@pytest.mark.parametrize(("fen", "sentence", "expected"), CASES)
def test_by_definition(fen: str, sentence: str, expected: str) -> None:
    found = judged(fen, sentence)
    assert found.kind == expected, found
    assert found.because


def test_forks_alone_is_about_the_move_just_told() -> None:
    board = chess.Board("r3k3/8/8/3N4/8/8/8/6K1 w - - 0 1")
    assert kind(board, "forks e8 and a8") == "false"
    board.push_san("Nc7")
    assert kind(board, "forks e8 and a8") == "true"
    assert kind(board, "Nc7 is check") == "true"
    assert kind(board, "wins a piece") == "true"
    assert kind(board, "after Nc7 Kd8, Nxa8 is legal") == "true"
    assert kind(board, "after Kd8, Nxa8 is legal") == "true"
    assert kind(board, "after Nc7 Nc7, material is equal") == "false"


def test_a_mate_too_long_for_the_budget_is_not_denied() -> None:
    # Loyd, "Excelsior" (from memory): mate in 5.
    excelsior = "n1rb4/1p3p1p/1p6/1R5K/8/p3p1PN/1PP1R3/N6k w - - 0 1"
    assert judged(excelsior, "mate in 5").kind == "unproved"


def test_repetition_counts_rights_and_side_to_move() -> None:
    board = chess.Board()
    for san in ("Nf3", "Nf6", "Ng1"):
        board.push_san(san)
    assert kind(board, "it is a repetition") == "false"
    board.push_san("Ng8")
    assert kind(board, "it is a repetition") == "true"
    assert kind(board, "it is a threefold repetition") == "false"
    for san in ("Nf3", "Nf6", "Ng1", "Ng8"):
        board.push_san(san)
    assert kind(board, "it is a threefold repetition") == "true"
    board = chess.Board("4k3/8/8/8/8/8/8/R3K3 w Q - 0 1")
    for san in ("Kd1", "Kd8", "Ke1", "Ke8"):
        board.push_san(san)
    assert kind(board, "it is a repetition") == "false", "the right to castle has gone meanwhile"


def test_every_kind_leaves_the_board_alone_and_never_raises() -> None:
    for board in some_boards(12, seed=3):
        before = (board.fen(), len(board.move_stack))
        for claim_kind in KINDS:
            claim = Claim(
                claim_kind,
                colour=True,
                man=chess.PAWN,
                square=chess.E2,
                squares=(chess.E2, chess.E7),
                number=2,
                move="e4",
                reply="e5",
                line=("e4",),
                inner=Claim("has the move", colour=True),
            )
            assert prove(claim, board).kind in ("true", "false", "unproved", "not-understood")
        assert (board.fen(), len(board.move_stack)) == before
