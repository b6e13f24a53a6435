"""Mates and endings against published values.

Mates: the "Win at Chess" test positions (Reinfeld's, as passed round by programmers) and vondele/matetrack.
Endings: standard results of king and pawn against king, opposition, key squares, the square of the pawn and
the wrong bishop; common to every handbook of the endgame, and checked with tablebases when the list was made.
"""

from __future__ import annotations

import chess
import pytest

from tests.facts.claimed import judged, kind

MATES = [
    # Win at Chess: FEN, moves, key
    ("2rr3k/pp3pp1/1nnqbN1p/3pN3/2pP4/2P3Q1/PPB4P/R4RK1 w - - 0 1", 2, "Qg6"),
    ("r1bq2rk/pp3pbp/2p1p1pQ/7P/3P4/2PB1N2/PP3PPR/2KR4 w - - 0 1", 2, "Qxh7+"),
    ("5k2/6pp/p1qN4/1p1p4/3P4/2PKP2Q/PP3r2/3R4 b - - 0 1", 2, "Qc4+"),
    ("7k/pp4np/2p3p1/3pN1q1/3P4/Q7/1r3rPP/2R2RK1 w - - 0 1", 2, "Qf8+"),
    ("r2q1r1k/2p1b1pp/p1n5/1p1Q1bN1/4n3/1BP1B3/PP3PPP/R4RK1 w - - 0 1", 2, "Qg8+"),
    ("r1bq1r1k/1pp1Np1p/p2p2pQ/4R3/n7/8/PPPP1PPP/R1B3K1 w - - 0 1", 2, "Rh5"),
    # matetrack: keys that take en passant, castle, or are quiet moves of the king
    ("5K2/8/2qk4/2nPp3/3r4/6B1/B7/3R4 w - e6 0 1", 1, "dxe6#"),
    ("8/2N3p1/5b2/k1B2P2/pP4R1/8/K1nn4/8 b - b3 0 1", 1, "axb3#"),
    ("2N2B2/2N1r3/8/3nQ2R/1k6/8/2B5/R3K3 w Q - 0 1", 2, "O-O-O"),
    ("8/7B/2R5/4Nr1p/4kb1Q/8/1B6/4K2R w K - 0 1", 2, "O-O"),
    ("8/5R2/2K1P3/4k3/8/b1PPpp1B/5p2/8 w - - 0 1", 2, "Kd7"),
    # Morphy's problem, from memory
    ("kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1", 2, "Ra6"),
]


@pytest.mark.parametrize(("fen", "moves", "key"), MATES)
def test_mates(fen: str, moves: int, key: str) -> None:
    found = judged(fen, f"mate in {moves}", budget=200_000)
    assert (found.kind, found.doubt) == ("true", "")
    board = chess.Board(fen)
    assert found.move == board.parse_san(key)
    if moves > 1:
        assert judged(fen, f"mate in {moves - 1}", budget=200_000).kind == "false"


@pytest.mark.large
@pytest.mark.parametrize(
    ("fen", "key"),
    [
        ("8/6pp/3q1p2/3n1k2/1P6/3NQ2P/5PP1/6K1 w - - 0 1", "g4+"),
        ("6k1/5p2/p5np/4B3/3P4/1PP1q3/P3r1QP/6RK w - - 0 1", "Qa8+"),
        ("4R3/4q1kp/6p1/1Q3b2/1P1b1P2/6KP/8/8 b - - 0 1", "Qh4+"),
        ("4r3/p4r1p/R1p2pp1/1p1bk3/4pNPP/2P1K3/2P2P2/3R4 w - - 0 1", "Rxd5+"),
    ],
)
def test_mates_in_three(fen: str, key: str) -> None:
    found = judged(fen, "mate in 3", budget=3_000_000)
    assert (found.kind, found.move) == ("true", chess.Board(fen).parse_san(key))


WHITE_WINS, DRAW = "White wins with best play", "the position is drawn"
ENDINGS = [
    ("4k3/8/4K3/4P3/8/8/8/8 w - - 0 1", WHITE_WINS),
    ("4k3/8/4K3/4P3/8/8/8/8 b - - 0 1", WHITE_WINS),
    ("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1", DRAW),
    ("8/4k3/8/4K3/4P3/8/8/8 b - - 0 1", WHITE_WINS),
    ("4k3/8/3KP3/8/8/8/8/8 w - - 0 1", WHITE_WINS),
    ("4k3/8/3KP3/8/8/8/8/8 b - - 0 1", DRAW),
    ("3k4/8/3KP3/8/8/8/8/8 w - - 0 1", DRAW),
    ("4k3/4P3/3K4/8/8/8/8/8 w - - 0 1", DRAW),
    ("4k3/4P3/3K4/8/8/8/8/8 b - - 0 1", WHITE_WINS),
    ("8/8/8/8/P4k2/8/8/7K b - - 0 1", DRAW),
    ("8/8/8/8/P5k1/8/8/7K b - - 0 1", WHITE_WINS),
    ("k7/8/K7/P7/8/8/8/8 w - - 0 1", DRAW),
    ("8/8/8/1k6/8/8/K5P1/8 w - - 0 1", WHITE_WINS),
    # the wrong bishop: a8 is a light square
    ("k7/8/1K6/P7/8/8/8/2B5 w - - 0 1", DRAW),
    ("8/8/8/8/8/2k5/1R6/K7 w - - 0 1", WHITE_WINS),
    ("8/8/8/5k2/8/8/1Q6/K7 w - - 0 1", WHITE_WINS),
]


@pytest.mark.parametrize(("fen", "true"), ENDINGS)
def test_endings_from_both_sides(fen: str, true: str) -> None:
    other = DRAW if true == WHITE_WINS else WHITE_WINS
    for board in (chess.Board(fen), chess.Board(fen).transform(chess.flip_horizontal)):
        assert kind(board, true) == "true"
        assert kind(board, other) == "false"
        assert kind(board.mirror(), true.replace("White", "Black")) == "true"
        assert kind(board.mirror(), other.replace("White", "Black")) == "false"


def test_the_right_bishop_is_never_called_drawn() -> None:
    # Won, by the tablebases; unproved here is fine, a draw is not.
    assert kind("k7/8/1K6/P7/8/8/8/5B2 w - - 0 1", DRAW) in ("false", "unproved")


KEY_SQUARES = {
    "d2": "c4 d4 e4",
    "d3": "c5 d5 e5",
    "d4": "c6 d6 e6",
    "d5": "c6 d6 e6 c7 d7 e7",
    "d6": "c7 d7 e7 c8 d8 e8",
    "b4": "a6 b6 c6",
    "b5": "a6 b6 c6 a7 b7 c7",
    "c2": "b4 c4 d4",
}


@pytest.mark.parametrize(("pawn", "keys"), KEY_SQUARES.items())
def test_a_king_on_a_key_square_wins_whoever_moves(pawn: str, keys: str) -> None:
    for key in keys.split():
        for black in chess.SQUARES:
            for turn in (True, False):
                board = chess.Board(None)
                board.set_piece_at(chess.parse_square(pawn), chess.Piece(chess.PAWN, True))
                board.set_piece_at(chess.parse_square(key), chess.Piece(chess.KING, True))
                if board.piece_at(black) or black in board.attacks(chess.parse_square(key)):
                    continue
                board.set_piece_at(black, chess.Piece(chess.KING, False))
                board.turn = turn
                falls = any(board.is_capture(move) for move in board.legal_moves)
                if board.is_valid() and not falls:
                    assert kind(board, WHITE_WINS) == "true" or not any(board.legal_moves)
