"""For each example of a claim, a position in which it is true and one in which it is false."""

from __future__ import annotations

PROVED: dict[str, tuple[str, str]] = {
    "the knight on f6 is attacked": (
        "1B6/8/5Nk1/8/3K4/N7/7B/2r4B w - - 1 2",
        "8/8/5k2/8/8/8/6P1/K7 w - - 0 1",
    ),
    "White attacks e4 2 times": (
        "8/8/1p6/4K3/2k5/8/4R1r1/8 b - - 0 1",
        "8/1K6/8/8/4k3/8/8/8 b - - 0 2",
    ),
    "the knight on f6 is undefended": (
        "8/8/3pkN2/8/8/8/7K/8 w - - 0 1",
        "8/4K3/5p2/8/8/6k1/8/8 w - - 2 2",
    ),
    "the knight on f6 is guarded 2 times": (
        "r4bn1/p1k1p2r/b2p1npp/1p6/4P3/1Q4PP/Pp3PB1/RNB1KR2 w Q - 0 17",
        "8/8/5K2/8/5P2/8/k7/8 b - - 0 2",
    ),
    "the knight on f6 is pinned": (
        "8/5P2/3r1NK1/5R2/7r/1k6/4b2b/2r5 w - - 0 2",
        "8/8/5k2/8/8/8/6P1/K7 w - - 0 1",
    ),
    "the knight on f6 is pinned to d8": (
        "r2kr3/pppq1ppp/3p1n2/4p1B1/2B1P3/3P1N2/nPP2QPP/R2NK2R w KQ - 0 6",
        "8/8/5k2/8/8/8/6P1/K7 w - - 0 1",
    ),
    "Nf3 is legal": (
        "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
        "4k3/8/8/8/8/8/8/1N2K3 w - - 0 1",
    ),
    "Kf8 is the only legal move": (
        "4k1r1/1b1Q3p/3pn2n/4N3/1p3P2/8/1P1K3b/5B2 b - - 0 29",
        "8/6K1/8/8/8/3k4/8/8 w - - 0 2",
    ),
    "Bb5 is check": (
        "3Nb3/2q3Rq/K7/8/3k4/7N/8/8 b - - 1 1",
        "8/5K2/2B5/8/7n/2k5/8/8 w - - 2 2",
    ),
    "Nf6 is double check": (
        "1R2K3/8/8/5r2/4n3/4q2N/1r5k/8 b - - 0 1",
        "8/7K/2P5/3N4/8/P7/6k1/8 w - - 2 2",
    ),
    "Nf6 is discovered check": (
        "8/8/7B/1k1N1RB1/8/b6K/nq6/8 w - - 0 1",
        "3qNR2/1k1n4/8/8/2K5/3r4/8/8 w - - 1 2",
    ),
    "Qg7 is mate": (
        "5q2/p6K/5k2/3p2r1/8/8/8/8 b - - 1 1",
        "7Q/k7/8/3K4/8/8/8/8 w - - 1 2",
    ),
    "Qg6 is stalemate": ("7k/5Q2/8/8/8/K7/8/8 w - - 0 1", "7k/5Q2/8/1p6/8/K7/8/8 w - - 0 1"),
    "Qg6 forces mate in 2": (
        "4q3/8/6Bk/2r4r/3K1b2/b7/6r1/4B3 b - - 2 2",
        "1K6/5q2/8/8/7r/8/3k4/8 b - - 1 1",
    ),
    "Nc7 forks e8 and a8": (
        "r3k2r/pppq1pp1/3pN2p/2b1p2n/1nB1P3/2NPBP2/PPPQ2PP/R3K2R w KQkq - 1 4",
        "N4K2/8/1r3k2/8/8/8/1p6/8 w - - 0 1",
    ),
    "Nf6 discovers an attack on a8": (
        "r3k3/8/8/8/4N3/8/6B1/4K3 w - - 0 1",
        "r3k3/8/8/8/4N3/8/7B/4K3 w - - 0 1",
    ),
    "Bg2 skewers d5 and b7": (
        "8/1q6/8/3k4/8/8/8/4KB2 w - - 0 1",
        "6k1/1q6/8/3r4/8/8/8/4KB2 w - - 0 1",
    ),
    "Qh6 threatens mate": (
        "1K6/8/Q6r/4N2k/8/5N2/8/1n6 w - - 1 2",
        "8/8/1q6/8/3kPp2/8/5K2/8 b - e3 0 1",
    ),
    "Bg5 threatens Bxf6": (
        "5Q1b/4K3/2B2n2/8/5B2/1Q2B2k/8/8 w - - 2 2",
        "5Q2/8/8/5Pp1/K2k4/8/1R1B4/8 w - g6 0 2",
    ),
    "Nc7 wins the exchange": (
        "8/7r/K4N2/1n4qr/8/1B1r4/4rk2/1N4rQ b - - 0 1",
        "2K5/8/2Nk4/1n6/7P/5b2/8/r7 b - - 2 2",
    ),
    "Black has 4 legal moves": (
        "k7/8/3p4/5K2/8/8/8/8 b - - 0 1",
        "4K3/8/8/8/1k6/8/8/8 b - - 1 2",
    ),
    "the king on e8 has 1 move": (
        "3qK3/8/8/8/k4n2/3r1b2/8/6R1 w - - 0 1",
        "4K3/8/8/8/1P6/8/4k3/8 w - - 1 2",
    ),
    "White is in check": (
        "8/8/6k1/pP6/1K6/8/8/8 w - a6 0 2",
        "7k/8/8/2K5/8/8/8/8 b - - 0 1",
    ),
    "stalemate": (
        "1k6/3R4/1N6/8/4P3/4p3/2K1P1P1/5B2 b - - 0 52",
        "8/8/8/5K2/8/8/8/k7 b - - 0 1",
    ),
    "checkmate": (
        "5r1K/3Q2b1/7k/8/R7/q7/1QB4n/2r2n1r w - - 0 1",
        "8/2K5/8/8/8/4k3/8/8 b - - 1 2",
    ),
    "mate in 2": (
        "7Q/k7/8/3K4/8/8/8/8 w - - 1 2",
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
    ),
    "the e-file is open": (
        "8/8/8/8/5k2/8/3K4/8 b - - 1 2",
        "8/8/5k2/8/4p3/8/K7/8 w - - 1 2",
    ),
    "the e-file is closed": (
        "3b4/k2p4/2P5/2K1p3/4P3/4P3/p7/8 w - - 0 2",
        "4K3/8/8/8/1k6/8/8/8 b - - 1 2",
    ),
    "the e-file is half-open for White": (
        "k7/4p3/6K1/8/8/8/8/8 w - - 1 2",
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
    ),
    "g2-d5 is open": (
        "7K/8/8/8/8/P7/3k4/8 w - - 0 1",
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
    ),
    "g2-d5 is closed": (
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
        "5K2/p7/8/8/8/8/1k6/8 b - - 0 1",
    ),
    "d5 is an outpost for White": (
        "8/5k2/3K4/8/4P3/8/8/8 b - - 0 1",
        "3k4/8/8/8/4K3/8/8/8 w - - 1 2",
    ),
    "the pawn on d4 is passed": (
        "8/2K5/4k3/8/3p4/8/8/8 b - - 2 2",
        "8/8/8/2P5/3K4/8/8/5k2 w - - 1 2",
    ),
    "White is up a pawn": (
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
        "6k1/8/8/8/1K6/8/8/8 b - - 0 1",
    ),
    "Black is a piece up": (
        "8/7n/8/8/4k3/8/8/7K w - - 0 1",
        "8/8/8/8/8/3k4/8/1K6 w - - 0 2",
    ),
    "material is equal": (
        "8/2K5/8/6k1/8/8/8/8 w - - 1 2",
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
    ),
    "White has the bishop pair": (
        "3K2n1/q7/8/8/5k2/2B5/3n4/3B4 b - - 2 2",
        "7k/8/8/2K5/8/8/8/8 b - - 0 1",
    ),
    "the bishops are of opposite colours": (
        "7K/2k3b1/8/3B4/8/8/8/8 w - - 0 1",
        "8/2K4k/8/8/8/8/8/8 b - - 0 2",
    ),
    "White may castle kingside": (
        "r4rk1/pppq2pp/2nppn2/4p3/4P3/2NPPN2/PPP3PP/R2QK2R w KQ - 1 4",
        "8/1K6/8/8/6k1/8/8/8 w - - 1 2",
    ),
    "Black has lost the right to castle": (
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
        "r2qkbnr/3n1ppp/p7/2Npp3/B7/7N/RPPP1P1P/2B1K3 w kq - 0 16",
    ),
    "White has the right to castle": (
        "5bnr/2pk1ppp/8/p3p3/8/3P1R2/PP6/RbBNK3 w Q - 0 18",
        "8/8/3k4/8/8/8/7K/8 w - - 1 2",
    ),
    "the rooks of White are connected": (
        "8/2R5/4k3/2R5/8/2BK4/8/6N1 b - - 2 2",
        "8/8/8/8/5k2/8/3K4/8 b - - 1 2",
    ),
    "Black has the opposition": (
        "8/8/8/8/8/5k2/8/5K2 w - - 0 2",
        "8/8/2k5/8/8/6K1/8/8 w - - 1 2",
    ),
    "the king is inside the square of the pawn on a4": (
        "5k2/8/8/1b6/pP6/5B2/8/K7 b - b3 0 1",
        "8/8/8/p6k/K7/8/8/8 w - - 0 1",
    ),
    "White wins with best play": (
        "8/8/P7/5K2/k7/8/8/8 w - - 0 1",
        "8/1K6/8/7k/8/8/8/8 w - - 1 2",
    ),
    "the position is drawn": (
        "8/8/6K1/8/8/5Pk1/8/8 b - - 1 1",
        "2k5/4K3/2p5/8/8/8/8/8 b - - 0 1",
    ),
    "it is move 12 of fifty": (
        "8/8/8/5K2/8/8/8/k7 b - - 24 60",
        "8/8/8/5K2/8/8/8/k7 b - - 26 60",
    ),
    "en passant is possible": (
        "8/8/8/4Pp2/1K6/6k1/8/8 w - f6 0 2",
        "8/1K6/8/7k/8/8/8/8 w - - 1 2",
    ),
    "White has the move": (
        "8/8/2k5/8/8/6K1/8/8 w - - 1 2",
        "8/8/8/K7/8/8/8/4k3 b - - 0 1",
    ),
    "after Ng5 Be7, g2-d5 is open": (
        "r3kbnr/pp1R1pp1/4p3/4p3/7P/P1P2N1R/6B1/2K5 w q - 1 20",
        "r2nk2r/ppp2ppp/6Q1/2b1p2P/4P3/2NqBN2/bPP2PP1/R3K2R w KQkq - 2 6",
    ),
    "if White passes, Bd6 is legal": (
        "8/K1b5/8/1r5R/8/B1Bk4/8/8 w - - 1 2",
        "8/6k1/8/8/2K5/8/8/8 b - - 0 1",
    ),
    "the bishop on b5 attacks c6": (
        "4k3/8/2p5/1B6/8/8/8/4K3 w - - 0 1",
        "4k3/8/8/B1p5/8/8/8/1B2K3 w - - 0 1",
    ),
    "the pawn on d4 is isolated": (
        "4k3/8/8/8/3P4/8/8/4K3 w - - 0 1",
        "4k3/8/8/8/3P4/2P5/8/4K3 w - - 0 1",
    ),
    "the pawn on d4 is doubled": (
        "4k3/8/8/8/3P4/3P4/8/4K3 w - - 0 1",
        "4k3/8/8/8/3P4/2P5/8/4K3 w - - 0 1",
    ),
    "the pawn on d4 is backward": (
        "4k3/8/2p5/4P3/3P4/8/8/4K3 w - - 0 1",
        "4k3/2p5/8/4P3/3P4/8/8/4K3 w - - 0 1",
    ),
}
