"""Who is up what, and with which bishops."""

from __future__ import annotations

import chess

from player.facts.claim import Claim, Verdict, verdict
from player.facts.material import counts
from player.facts.scene import Scene, white_or_black

_NAMES = (("pawn", "pawns"), ("piece", "pieces"), ("rook", "rooks"), ("queen", "queens"))
_WORTH = (1, 3, 5, 9)
_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def material(claim: Claim, scene: Scene) -> Verdict:
    """A side is up exactly that and nothing else; a knight and a bishop count alike."""
    colour = True if claim.colour is None else claim.colour
    found = ahead_by(scene.board, colour)
    return verdict(found == claim.counts, in_words(found, colour))


def ahead_by(board: chess.Board, colour: chess.Color) -> tuple[int, int, int, int]:
    """Pawns, minor pieces, rooks and queens that a side has more than the other."""
    own, other = counts(board, colour), counts(board, not colour)
    more = {kind: own[kind] - other[kind] for kind in own}
    return (
        more[chess.PAWN],
        more[chess.KNIGHT] + more[chess.BISHOP],
        more[chess.ROOK],
        more[chess.QUEEN],
    )


def in_words(more: tuple[int, int, int, int], colour: chess.Color) -> str:
    """ "White is up a piece for two pawns": of the side whose extra men are worth more, else of this one."""
    if sum(n * value for n, value in zip(more, _WORTH, strict=True)) < 0:
        pawns, pieces, rooks, queens = more
        return in_words((-pawns, -pieces, -rooks, -queens), not colour)
    up = [_amount(n, names) for n, names in zip(more, _NAMES, strict=True) if n > 0]
    down = [_amount(-n, names) for n, names in zip(more, _NAMES, strict=True) if n < 0]
    if not up and not down:
        return "Material is equal."
    if more == (0, -1, 1, 0):
        return f"{white_or_black(colour)} is up the exchange."
    against = f" for {' and '.join(down)}" if down else ""
    return f"{white_or_black(colour)} is up {' and '.join(up)}{against}."


def _amount(number: int, names: tuple[str, str]) -> str:
    if number == 1:
        return f"a {names[0]}"
    return f"{_WORDS[number] if number < len(_WORDS) else number} {names[1]}"


def bishop_pair(claim: Claim, scene: Scene) -> Verdict:
    """A side has bishops on both colours, the other at most one bishop."""
    assert claim.colour is not None
    own = scene.board.pieces_mask(chess.BISHOP, claim.colour)
    other = chess.popcount(scene.board.pieces_mask(chess.BISHOP, not claim.colour))
    both = bool(own & chess.BB_LIGHT_SQUARES and own & chess.BB_DARK_SQUARES)
    because = f"{white_or_black(claim.colour)} has {_bishops(own)}; the other side has {other}."
    return verdict(both and other <= 1, because)


def opposite_bishops(claim: Claim, scene: Scene) -> Verdict:
    """One bishop each, on different colours."""
    white, black = (scene.board.pieces_mask(chess.BISHOP, side) for side in (True, False))
    one_each = chess.popcount(white) == 1 and chess.popcount(black) == 1
    apart = bool(white & chess.BB_LIGHT_SQUARES) != bool(black & chess.BB_LIGHT_SQUARES)
    return verdict(one_each and apart, f"White has {_bishops(white)}, Black {_bishops(black)}.")


def _bishops(mask: int) -> str:
    light = chess.popcount(mask & chess.BB_LIGHT_SQUARES)
    dark = chess.popcount(mask & chess.BB_DARK_SQUARES)
    parts = [f"{n} on {shade} squares" for n, shade in ((light, "light"), (dark, "dark")) if n]
    return f"{'bishops' if light + dark > 1 else 'a bishop'}, {' and '.join(parts)}" if parts else "no bishop"
