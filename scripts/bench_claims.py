"""How long claims take to be understood and proved: .venv/bin/python -m scripts.bench_claims

The positions are busy ones that are used everywhere to count moves (chessprogramming.org, "Perft Results"),
so the worst claims here are worse than a lesson's.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Iterator

import chess

from player.facts.prove import prove
from player.wording.claim_forms import EXAMPLES
from player.wording.claims import claim_of

BUSY = (
    "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
    "r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10",
    "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8",
    "r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1",
)


def sentences(board: chess.Board) -> Iterator[str]:
    """Claims about a position: every form, men where they stand, and what each legal move does."""
    yield from (example for example in EXAMPLES if "mate in" not in example)
    for square, man in board.piece_map().items():
        said = f"the {chess.piece_name(man.piece_type)} on {chess.square_name(square)} is"
        yield from (f"{said} pinned", f"{said} attacked", f"{said} guarded 2 times")
    for move in board.legal_moves:
        san = board.san(move)
        yield from (
            f"{san} {does}" for does in ("is mate", "threatens mate", "wins a pawn", "wins the queen")
        )


def took(board: chess.Board, sentence: str) -> float:
    """The seconds to understand and prove a claim, the better of two."""
    times = []
    for _ in range(2):
        began = time.perf_counter()
        claim = claim_of(sentence)
        if claim is not None:
            prove(claim, board)
        times.append(time.perf_counter() - began)
    return min(times)


def main() -> int:
    boards = [chess.Board(fen) for fen in BUSY]
    times = [(took(board, said), said) for board in boards for said in sentences(board)]
    worst, slowest = max(times)
    print(
        f"a claim, median {statistics.median(t for t, _ in times) * 1000:.2f} ms of {len(times)} (aim 5 ms)"
    )
    print(f"the slowest claim that is no mate, {worst * 1000:.0f} ms: {slowest} (aim 50 ms)")
    for moves, aim in ((2, 1), (3, 30)):
        slow = max(took(board, f"mate in {moves}") for board in boards)
        print(f"mate in {moves}, the slowest of {len(boards)} positions {slow:.2f} s (aim {aim} s)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
