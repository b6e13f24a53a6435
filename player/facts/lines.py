"""Files, lines, and the rooks that stand on them."""

from __future__ import annotations

import chess

from player.facts.claim import Claim, Verdict, false, verdict
from player.facts.scene import Scene, counted, men_on, stands, white_or_black


def file_state(claim: Claim, scene: Scene) -> Verdict:
    """A file is open (no pawns), closed (pawns of both), or half-open for a side (only the other's)."""
    assert claim.number is not None
    board = scene.board
    pawns = board.pawns & chess.BB_FILES[claim.number]
    white, black = (chess.popcount(pawns & board.occupied_co[side]) for side in (True, False))
    if claim.word == "open":
        holds = not pawns
    elif claim.word == "closed":
        holds = bool(white and black)
    elif claim.colour is None:
        holds = bool(white) != bool(black)
    else:
        own, other = (white, black) if claim.colour else (black, white)
        holds = not own and bool(other)
    return verdict(holds, f"On it stand {counted(white, 'white pawn')} and {counted(black, 'black pawn')}.")


def line_state(claim: Claim, scene: Scene) -> Verdict:
    """Two squares on one line have nothing (open) or something (closed) strictly between them."""
    first, second = claim.squares
    if first == second or not chess.ray(first, second):
        return false(f"{chess.SQUARE_NAMES[first]} and {chess.SQUARE_NAMES[second]} are not on one line.")
    between = chess.SquareSet(chess.between(first, second) & scene.board.occupied)
    holds = bool(between) == (claim.word == "closed")
    said = "Nothing stands between them."
    if between:
        said = f"Between them {stands(between)} {men_on(scene.board, between)}."
    return verdict(holds, said)


def rooks_connected(claim: Claim, scene: Scene) -> Verdict:
    """A side has exactly two rooks, on one rank or file, with nothing between."""
    assert claim.colour is not None
    rooks = list(scene.board.pieces(chess.ROOK, claim.colour))
    if len(rooks) != 2:
        return false(f"{white_or_black(claim.colour)} has {counted(len(rooks), 'rook')}.")
    first, second = rooks
    if first & 7 != second & 7 and first >> 3 != second >> 3:
        return false("The rooks stand on no common rank or file.")
    between = chess.SquareSet(chess.between(first, second) & scene.board.occupied)
    where = f"{chess.SQUARE_NAMES[first]} and {chess.SQUARE_NAMES[second]}"
    return verdict(not between, f"The rooks stand on {where}, with {men_on(scene.board, between)} between.")
