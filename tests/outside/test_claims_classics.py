"""Classic problems, studies and games (positions and moves from memory), and node counts of move generation.

What the studies end in was checked with tablebases when the list was made.
"""

from __future__ import annotations

import chess
import pytest

from tests.facts.claimed import judged, kind

MORPHY = "kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1"
LEGACY = "r4r1k/6pp/7N/8/8/1Q6/5PPP/6K1 w - - 0 1"
EXCELSIOR = "n1rb4/1p3p1p/1p6/1R5K/8/p3p1PN/1PP1R3/N6k w - - 0 1"


def test_morphys_mate_in_two() -> None:
    found = judged(MORPHY, "mate in 2")
    assert (found.kind, found.move) == ("true", chess.Board(MORPHY).parse_san("Ra6"))
    assert kind(MORPHY, "mate in 1") == "false"
    assert kind(MORPHY, "after Ra6 bxa6, b7 is mate") == "true"


def test_philidors_legacy() -> None:
    assert kind(LEGACY, "after Qg8+ Rxg8, Nf7 is mate") == "true"
    assert kind(LEGACY, "Qg8+ forces mate in 2") == "true"
    assert kind(LEGACY, "mate in 1") == "false"
    assert kind("6rk/6pp/8/6N1/8/8/5PPP/6K1 w - - 0 1", "Nf7 is mate") == "true"


def test_excelsior_has_no_mate_in_three() -> None:
    # Loyd 1861: mate in five, and none in three.
    assert kind(EXCELSIOR, "mate in 3") == "false"


STUDIES = [
    # Saavedra 1895: White wins; the queen would be stalemate after the rook is taken.
    ("8/8/1KP5/3r4/8/8/8/k7 w - - 0 1", "the position is drawn"),
    ("8/2P5/8/8/3r4/8/2K5/k7 w - - 0 1", "the position is drawn"),
    # Réti 1921: a draw.
    ("7K/8/k1P5/7p/8/8/8/8 w - - 0 1", "White wins with best play"),
    ("7K/8/k1P5/7p/8/8/8/8 w - - 0 1", "Black wins with best play"),
    # Queen against a rook's pawn one step from queening, the other king far off: a draw.
    ("8/8/8/8/8/3Q4/p7/k6K w - - 0 1", "White wins with best play"),
    # Two knights force no mate.
    ("8/8/8/4k3/8/8/8/KNN5 w - - 0 1", "White wins with best play"),
]


@pytest.mark.parametrize(("fen", "wrong"), STUDIES)
def test_what_is_wrong_of_a_study_is_never_proved(fen: str, wrong: str) -> None:
    assert kind(fen, wrong) in ("false", "unproved")


def test_saavedras_stalemate() -> None:
    fen = "8/2P5/8/8/3r4/8/2K5/k7 w - - 0 1"
    assert kind(fen, "after c8=Q Rc4+ Qxc4, it is stalemate") == "true"
    assert kind(fen, "after c8=R Ra4 Kb3, stalemate") == "false"


GAMES = [
    ("Fool's mate", "f3 e5 g4 Qh4#"),
    ("Scholar's mate", "e4 e5 Qh5 Nc6 Bc4 Nf6 Qxf7#"),
    ("Légal's mate", "e4 e5 Nf3 d6 Bc4 Bg4 Nc3 g6 Nxe5 Bxd1 Bxf7+ Ke7 Nd5#"),
    # Molinari against Bordais, by correspondence 1979: data/pgn of python-chess.
    ("A knight's mate", "e4 c5 c4 Nc6 Ne2 Nf6 Nbc3 Nb4 g3 Nd3#"),
]


@pytest.mark.parametrize(("name", "moves"), GAMES)
def test_games_that_end_in_mate(name: str, moves: str) -> None:
    *before, last = moves.split()
    assert kind(chess.STARTING_FEN, f"after {' '.join(before)}, {last} is mate") == "true"
    assert kind(chess.STARTING_FEN, f"after {moves}, it is checkmate") == "true"
    assert kind(chess.STARTING_FEN, f"after {' '.join(before)}, mate in 1") == "true"
    assert kind(chess.STARTING_FEN, f"after {' '.join(before)}, {last} is double check") == "false"


# Node counts: chessprogramming.org "Perft Results", and tricky.perft of python-chess.
PERFT = [
    (chess.STARTING_FEN, [20, 400, 8902]),
    ("r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1", [48, 2039]),
    ("8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1", [14, 191, 2812]),
    ("r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1", [6, 264, 9467]),
    ("rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8", [44, 1486]),
    ("r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10", [46, 2079]),
]


@pytest.mark.parametrize(("fen", "counts"), PERFT)
def test_numbers_of_legal_moves(fen: str, counts: list[int]) -> None:
    board = chess.Board(fen)
    side = "White" if board.turn else "Black"
    assert kind(fen, f"{side} has {counts[0]} legal moves") == "true"
    assert kind(fen, f"{side} has {counts[0] + 1} legal moves") == "false"
    assert [nodes(board, depth) for depth in range(1, len(counts) + 1)] == counts


def nodes(board: chess.Board, depth: int) -> int:
    if depth == 1:
        return board.legal_moves.count()
    total = 0
    for move in list(board.legal_moves):
        board.push(move)
        total += nodes(board, depth - 1)
        board.pop()
    return total


# King and pawn against king; common to every handbook of the endgame.
OPPOSITION = [
    ("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1", "Black has the opposition", "the position is drawn"),
    ("8/4k3/8/4K3/4P3/8/8/8 b - - 0 1", "White has the opposition", "White wins with best play"),
    ("4k3/8/4K3/4P3/8/8/8/8 w - - 0 1", "Black has the opposition", "White wins with best play"),
]


@pytest.mark.parametrize(("fen", "who", "result"), OPPOSITION)
def test_the_opposition(fen: str, who: str, result: str) -> None:
    assert kind(fen, who) == "true"
    assert kind(fen, result) == "true"


@pytest.mark.parametrize(
    ("fen", "after_step"),
    [
        ("8/8/8/8/P4k2/8/8/7K b - - 0 1", ["Ke5", "Ke4"]),  # a step takes the king into the square: a draw
        ("8/8/8/8/P5k1/8/8/7K b - - 0 1", []),  # no step does: White wins
    ],
)
def test_the_square_of_the_pawn(fen: str, after_step: list[str]) -> None:
    inside = "the king is inside the square of the pawn on a4"
    board = chess.Board(fen)
    for move in board.legal_moves:
        san = board.san(move)
        drawn = kind(fen, f"after {san}, the position is drawn") == "true"
        assert drawn == (kind(fen, f"after {san}, {inside}") == "true") == (san in after_step), san
