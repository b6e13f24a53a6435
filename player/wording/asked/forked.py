"""Whether a man on the board forks others now."""

from __future__ import annotations

import chess

from player.wording.asked.reply import BoardReply, Scene, capital
from player.wording.names import listed

_VALUE = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 99}


def forked_now(board: chess.Board, square: chess.Square) -> list[chess.Square]:
    """The men a man on a square hits that it would gain by taking: kings, men worth more, men unguarded.

    Fewer than two are no fork.
    """
    man = board.piece_at(square)
    if man is None:
        return []
    found = []
    for other in board.attacks(square) & board.occupied_co[not man.color]:
        piece = board.piece_at(other)
        assert piece is not None
        worth_more = _VALUE[piece.piece_type] > _VALUE[man.piece_type]
        if worth_more or not board.attackers(not man.color, other):
            found.append(other)
    return found


def is_fork(scene: Scene) -> BoardReply:
    """Whether there is a fork on the board: by the man named, else by the one just moved, else by any."""
    board = scene.board
    forkers = list(scene.men(scene.query.men[0])) if scene.query.men else []
    if not scene.query.men:
        last = scene.last
        forkers = [last.move.to_square] if last is not None else []
        forkers += [s for s in chess.SquareSet(board.occupied) if s not in forkers]
    if scene.query.men and not forkers:
        return BoardReply(scene.absent())
    asked = scene.query.said.casefold().lstrip().startswith(("is ", "does ", "do ", "are ", "has "))
    for square in forkers:
        hit = forked_now(board, square)
        if len(hit) > 1:
            text = f"{scene.the([square], sides=True)} attacks {listed([scene.the([s]) for s in hit])}"
            return BoardReply(
                f"Yes: {text}." if asked else capital(f"{text}."),
                squares=tuple(hit),
                number=len(hit),
                yes=True,
            )
    who = scene.the(forkers[:1], sides=True) if scene.query.men else "no man"
    verb = "forks nothing now" if scene.query.men else "forks two others now"
    return BoardReply(capital(f"{'No: ' if asked else ''}{who} {verb}."), yes=False, number=0)
