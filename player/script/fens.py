"""What is wrong with a FEN, in plain words."""

from __future__ import annotations

import re


def fen_trouble(fen: str) -> str:
    """Why a FEN cannot be read, by its first fault, in one or two sentences (PGN standard, section 16.1)."""
    men, *rest = fen.split() or [""]
    ranks = men.split("/")
    if len(ranks) != 8:
        has = f"{len(ranks)} rank{'s' if len(ranks) != 1 else ''}"
        return f"This FEN has {has}, and a board has eight, parted by /."
    for number, rank in zip(range(8, 0, -1), ranks, strict=True):
        trouble = _rank_trouble(rank)
        if trouble:
            return f"Rank {number} of this FEN{f' is {rank}, and' if len(rank) < 20 else ''} {trouble}."
    if rest and rest[0] not in ("w", "b"):
        return "After the men a FEN says who is to move, w or b, and this one does not."
    return (
        "The end of this FEN cannot be read. After the side to move stand the castling rights, "
        "the en passant square and two numbers, such as - - 0 1."
    )


def _rank_trouble(rank: str) -> str:
    wrong = re.search("[^1-8kqrbnpKQRBNP]", rank)
    if wrong:
        return f"has in it {wrong[0]}, which is neither a man nor a number from 1 to 8"
    if re.search("[1-8]{2}", rank):
        return "has two numbers side by side; write their sum"
    squares = sum(int(letter) if letter.isdigit() else 1 for letter in rank)
    if squares != 8:
        return f"makes {squares} square{'s' if squares != 1 else ''}, where eight are needed"
    return ""
