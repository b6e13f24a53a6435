"""Short mates from published lists: the position, in how many moves, and the moves that force it.

WIN_AT_CHESS: "Win at Chess" (Reinfeld's positions, as programmers pass them round; wac.epd of
sarona-CCCF/EPD-sets), every entry that says mate in 2 or 3, with the move it gives. MATETRACK: from
vondele/matetrack, with every move that forces the mate; keys that take en passant, castle or are quiet moves of the
king are among them.
"""

from __future__ import annotations

WIN_AT_CHESS: list[tuple[str, str, int, str]] = [
    ("WAC.001", "2rr3k/pp3pp1/1nnqbN1p/3pN3/2pP4/2P3Q1/PPB4P/R4RK1 w - - 0 1", 2, "Qg6"),
    ("WAC.004", "r1bq2rk/pp3pbp/2p1p1pQ/7P/3P4/2PB1N2/PP3PPR/2KR4 w - - 0 1", 2, "Qxh7+"),
    ("WAC.005", "5k2/6pp/p1qN4/1p1p4/3P4/2PKP2Q/PP3r2/3R4 b - - 0 1", 2, "Qc4+"),
    ("WAC.012", "4k1r1/2p3r1/1pR1p3/3pP2p/3P2qP/P4N2/1PQ4P/5R1K b - - 0 1", 2, "Qxf3+"),
    ("WAC.027", "7k/pp4np/2p3p1/3pN1q1/3P4/Q7/1r3rPP/2R2RK1 w - - 0 1", 2, "Qf8+"),
    ("WAC.050", "k4r2/1R4pb/1pQp1n1p/3P4/5p1P/3P2P1/r1q1R2K/8 w - - 0 1", 3, "Rxb6+"),
    ("WAC.054", "r3kr2/1pp4p/1p1p4/7q/4P1n1/2PP2Q1/PP4P1/R1BB2K1 b q - 0 1", 2, "Qh1+"),
    ("WAC.057", "r3q1kr/ppp5/3p2pQ/8/3PP1b1/5R2/PPP3P1/5RK1 w - - 0 1", 3, "Rf8+"),
    ("WAC.060", "rn1qr1k1/1p2np2/2p3p1/8/1pPb4/7Q/PB1P1PP1/2KR1B1R w - - 0 1", 2, "Qh8+"),
    ("WAC.061", "3qrbk1/ppp1r2n/3pP2p/3P4/2P4P/1P3Q2/PB6/R4R1K w - - 0 1", 2, "Qf7+"),
    ("WAC.064", "8/6pp/3q1p2/3n1k2/1P6/3NQ2P/5PP1/6K1 w - - 0 1", 3, "g4+"),
    ("WAC.079", "r3k2r/pbp2pp1/3b1n2/1p6/3P3p/1B2N1Pq/PP1PQP1P/R1B2RK1 b kq - 0 1", 3, "Qxh2+"),
    ("WAC.084", "r2q1r1k/2p1b1pp/p1n5/1p1Q1bN1/4n3/1BP1B3/PP3PPP/R4RK1 w - - 0 1", 2, "Qg8+"),
    ("WAC.097", "6k1/5p2/p5np/4B3/3P4/1PP1q3/P3r1QP/6RK w - - 0 1", 3, "Qa8+"),
    ("WAC.099", "r1bq1r1k/1pp1Np1p/p2p2pQ/4R3/n7/8/PPPP1PPP/R1B3K1 w - - 0 1", 2, "Rh5"),
    ("WAC.102", "2Q2n2/2R4p/1p1qpp1k/8/3P3P/3B2P1/5PK1/r7 w - - 0 1", 3, "Qxf8+"),
    ("WAC.104", "b4r1k/pq2rp2/1p1bpn1p/3PN2n/2P2P2/P2B3K/1B2Q2N/3R2R1 w - - 0 1", 3, "Qxh5"),
    ("WAC.132", "4r1k1/5bpp/2p5/3pr3/8/1B3pPq/PPR2P2/2R2QK1 b - - 0 1", 3, "Re1"),
    ("WAC.136", "6kr/1q2r1p1/1p2N1Q1/5p2/1P1p4/6R1/7P/2R3K1 w - - 0 1", 3, "Rc8+"),
    ("WAC.143", "5b2/pp2r1pk/2pp1pRp/4rP1N/2P1P3/1P4QP/P3q1P1/5R1K w - - 0 1", 3, "Rxh6+"),
    ("WAC.154", "r1b2rk1/2p2ppp/p7/1p6/3P3q/1BP3bP/PP3QP1/RNB1R1K1 w - - 0 1", 2, "Qxf7+"),
    ("WAC.156", "r1b1qN1k/1pp3p1/p2p3n/4p1B1/8/1BP4Q/PP3KPP/8 w - - 0 1", 2, "Qxh6+"),
    ("WAC.158", "5rk1/n1p1R1bp/p2p4/1qpP1QB1/7P/2P3P1/PP3P2/6K1 w - - 0 1", 3, "Rxg7+"),
    ("WAC.160", "qn1kr2r/1pRbb3/pP5p/P2pP1pP/3N1pQ1/3B4/3B1PP1/R5K1 w - - 0 1", 2, "Qxd7+"),
    ("WAC.172", "5r1k/p5pp/8/1P1pq3/P1p2nR1/Q7/5BPP/6K1 b - - 0 1", 3, "Qe1+"),
    ("WAC.173", "2r1b3/1pp1qrk1/p1n1P1p1/7R/2B1p3/4Q1P1/PP3PP1/3R2K1 w - - 0 1", 3, "Qh6+"),
    ("WAC.177", "r1b3r1/4qk2/1nn1p1p1/3pPp1P/p4P2/1p3BQN/PKPBN3/3R3R b - - 0 1", 3, "Qa3+"),
    ("WAC.179", "r1b2r1k/pp4pp/3p4/3B4/8/1QN3Pn/PP3q1P/R3R2K b - - 0 1", 3, "Qg1+"),
    ("WAC.184", "4kn2/r4p1r/p3bQ2/q1nNP1Np/1p5P/8/PPP3P1/2KR3R w - - 0 1", 2, "Qe7+"),
    ("WAC.186", "r5r1/p1q2p1k/1p1R2pB/3pP3/6bQ/2p5/P1P1NPPP/6K1 w - - 0 1", 3, "Bf8+"),
    ("WAC.188", "3RNbk1/pp3p2/4rQpp/8/1qr5/7P/P4P2/3R2K1 w - - 0 1", 2, "Qg7+"),
    ("WAC.191", "2r1Rn1k/1p1q2pp/p7/5p2/3P4/1B4P1/P1P1QP1P/6K1 w - - 0 1", 3, "Qc4"),
    ("WAC.197", "7k/1p4p1/7p/3P1n2/4Q3/2P2P2/PP3qRP/7K b - - 0 1", 3, "Qf1+"),
    ("WAC.203", "r4rk1/5ppp/p3q1n1/2p2NQ1/4n3/P3P3/1B3PPP/1R3RK1 w - - 0 1", 3, "Qh6"),
    ("WAC.219", "7k/p4q1p/1pb5/2p5/4B2Q/2P1B3/P6P/7K b - - 0 1", 3, "Qf1+"),
    ("WAC.225", "4R3/4q1kp/6p1/1Q3b2/1P1b1P2/6KP/8/8 b - - 0 1", 3, "Qh4+"),
    ("WAC.246", "6R1/4qp1p/ppr1n1pk/8/1P2P1QP/6N1/P4PP1/6K1 w - - 0 1", 2, "Qh5+"),
    ("WAC.295", "4r3/p4r1p/R1p2pp1/1p1bk3/4pNPP/2P1K3/2P2P2/3R4 w - - 0 1", 3, "Rxd5+"),
]
MATETRACK: list[tuple[str, int, str]] = [
    ("5K2/8/2qk4/2nPp3/3r4/6B1/B7/3R4 w - e6 0 1", 1, "dxe6#"),
    ("7n/BBP2P1P/8/P1PpK3/P5RR/5k2/Pn2NPN1/3Q2b1 w - d6 0 1", 1, "cxd6#"),
    ("8/2N3p1/5b2/k1B2P2/pP4R1/8/K1nn4/8 b - b3 0 1", 1, "axb3#"),
    ("rb6/k1p4R/P1P5/PpK5/8/8/8/5B2 w - b6 0 1", 1, "axb6#"),
    ("2brrb2/8/p7/7Q/1p1kpPp1/1P1pN1K1/3P4/8 w - - 0 1", 2, "Qa5"),
    ("2N2B2/2N1r3/8/3nQ2R/1k6/8/2B5/R3K3 w Q - 0 1", 2, "O-O-O"),
    ("3N3K/B2bRB2/1Qp4p/1R1pppp1/1P2k3/r3pNP1/2P1P3/b2r3q w - - 0 1", 2, "Nb7"),
    ("3R4/8/8/2p3K1/2p5/5B2/R1pPNB2/1b1k4 w - - 0 1", 2, "d4"),
    ("5R2/1N3p2/3pk3/6PR/3Q4/B3K3/8/8 w - - 0 1", 2, "Qg4+"),
    ("6rk/PP1PPPnp/1N1BN2P/7R/4B3/2Q5/P3KP2/6R1 w - - 0 1", 2, ""),
    ("7B/5R2/3p3N/3P4/1K2k2r/4N3/4Q3/8 w - - 0 1", 2, "Rg7 Kc4 Kc3 Neg4+"),
    ("8/3R4/b2p3p/2p3nk/1p2N1p1/p2BP3/r2PN1P1/3K4 w - - 0 1", 2, "Nf4+"),
    ("8/5R2/2K1P3/4k3/8/b1PPpp1B/5p2/8 w - - 0 1", 2, "Kd7"),
    ("8/7B/2R5/4Nr1p/4kb1Q/8/1B6/4K2R w K - 0 1", 2, "O-O"),
    ("8/8/8/2p1R3/1p3p2/1p1k1p2/1B5p/1K2Q3 w - - 0 1", 2, "Qe4+ Qd1+"),
    ("8/8/8/8/8/8/4QRb1/R3K2k w Q - 0 1", 2, "Qe4"),
    ("8/p4P1K/rb1N2Bp/p3P3/N3R1P1/1P1k1P2/1Pbrnp2/2R2Q2 w - - 0 1", 2, "Kxh6"),
    ("n1N3br/2p1Bpkr/1pP2R1b/pP3Pp1/P5P1/1P1p4/p2P4/K7 w - - 0 1", 2, "Ba3"),
    ("n7/2r5/1r4R1/4n3/2R1Q1P1/3P1pK1/4N3/7k w - - 0 1", 2, "Qb7"),
    ("r5r1/1R4b1/1Q6/4nk1p/2p1R3/2P3PK/2BB4/q7 w - - 0 1", 2, "Rf7+ Rf4+ Re2+ Re1+"),
    ("rn2N3/8/4R2b/B3R3/3kP1N1/K2n4/8/1q6 w - - 0 1", 2, "Rd5+"),
]
