"""How a pawn stands among pawns, and outposts."""

from __future__ import annotations

import chess

from player.facts.claim import Claim, Verdict, verdict
from player.facts.scene import Scene, men_on, stands, the_man, white_or_black


def pawn_state(claim: Claim, scene: Scene) -> Verdict:
    """A pawn is passed, isolated, doubled or backward; `word` says which."""
    man = the_man(claim, scene.board)
    if isinstance(man, Verdict):
        return man
    square = claim.square
    assert square is not None
    board, colour = scene.board, man.color
    own = board.pawns & board.occupied_co[colour]
    enemy = board.pawns & board.occupied_co[not colour]
    file = chess.BB_FILES[square & 7]
    beside = neighbours(square)
    if claim.word == "passed":
        stops = stoppers(board, square, colour)
        return verdict(not stops, f"Before it stands {men_on(board, stops)} of the other side.")
    if claim.word == "isolated":
        near = chess.SquareSet(own & beside)
        return verdict(not near, f"On the neighbouring files stands {men_on(board, near)} of its own side.")
    if claim.word == "doubled":
        twins = chess.SquareSet(own & file & ~chess.BB_SQUARES[square])
        return verdict(bool(twins), f"Beside itself there is {men_on(board, twins)} on its file.")
    return _backward(board, square, colour, own, enemy)


def _backward(board: chess.Board, square: chess.Square, colour: chess.Color, own: int, enemy: int) -> Verdict:
    beside = neighbours(square)
    near = own & beside
    if not near:
        return verdict(False, "It is isolated: no own pawn stands on a neighbouring file.")
    level = chess.SquareSet(near & ~ahead(square, colour))
    if level:
        return verdict(False, f"{men_on(board, level)} {stands(level)} no further up.".capitalize())
    front = square + (8 if colour else -8)
    if board.occupied & chess.BB_SQUARES[front]:
        return verdict(False, f"The square in front, {chess.SQUARE_NAMES[front]}, is not free.")
    hits = chess.SquareSet(int(board.attackers(not colour, front)) & enemy)
    if not hits:
        return verdict(False, f"No enemy pawn attacks {chess.SQUARE_NAMES[front]}.")
    stops = chess.SquareSet(enemy & chess.BB_FILES[square & 7] & ahead(square, colour))
    if stops:
        return verdict(False, f"On its file {stands(stops)} {men_on(board, stops)} of the other side.")
    return verdict(True, f"{men_on(board, hits)} {stands(hits, 'hold')} the square in front.".capitalize())


def outpost(claim: Claim, scene: Scene) -> Verdict:
    """A square far enough up, guarded by an own pawn, that no enemy pawn can ever attack, blocked or not."""
    assert claim.square is not None and claim.colour is not None
    square, colour, board = claim.square, claim.colour, scene.board
    name = chess.SQUARE_NAMES[square]
    rank = square >> 3
    if rank not in ((3, 4, 5) if colour else (2, 3, 4)):
        which = "4 to 6" if colour else "3 to 5"
        return verdict(False, f"{name} is not on ranks {which}, where {white_or_black(colour)} has outposts.")
    if not int(board.attackers(colour, square)) & board.pawns:
        return verdict(False, f"No pawn of {white_or_black(colour)} guards {name} now.")
    enemy = board.pawns & board.occupied_co[not colour]
    threats = chess.SquareSet(enemy & neighbours(square) & ahead(square, colour))
    other = white_or_black(not colour)
    return verdict(
        not threats,
        f"{men_on(board, threats)} could attack {name}.".capitalize()
        if threats
        else f"No pawn of {other} could ever attack {name}.",
    )


def stoppers(board: chess.Board, square: chess.Square, colour: chess.Color) -> chess.SquareSet:
    """The enemy pawns before a pawn on this square, on its file and the files beside it: a passed one has
    none.
    """
    enemy = board.pawns & board.occupied_co[not colour]
    return chess.SquareSet(enemy & (chess.BB_FILES[square & 7] | neighbours(square)) & ahead(square, colour))


def neighbours(square: chess.Square) -> int:
    """The files beside a square's file, as a bitboard."""
    file = square & 7
    return (chess.BB_FILES[file - 1] if file else 0) | (chess.BB_FILES[file + 1] if file < 7 else 0)


def ahead(square: chess.Square, colour: chess.Color) -> int:
    """All ranks strictly further up for a colour, as a bitboard."""
    rank = square >> 3
    ranks = range(rank + 1, 8) if colour else range(rank)
    board = 0
    for number in ranks:
        board |= chess.BB_RANKS[number]
    return board
