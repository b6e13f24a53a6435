"""How men move: the shape of a move, and the squares on its way."""

from __future__ import annotations

import chess


def shape_reaches(board: chess.Board, origin: chess.Square, target: chess.Square) -> bool:
    """Whether the man on `origin` moves in such a way that `target` could be reached, whatever stands
    between.

    A pawn's shape depends on what stands on the target: straight ahead (two squares from its first rank) to
    an empty square or a blocked one, one square aslant. Castling is no shape of the king's. False where
    nobody stands on `origin`.
    """
    piece = board.piece_at(origin)
    if piece is None or origin == target:
        return False
    files = chess.square_file(target) - chess.square_file(origin)
    ranks = chess.square_rank(target) - chess.square_rank(origin)
    across, along = abs(files), abs(ranks)
    match piece.piece_type:
        case chess.PAWN:
            ahead = ranks if piece.color else -ranks
            first = chess.square_rank(origin) == (1 if piece.color else 6)
            return (across == 0 and (ahead == 1 or (ahead == 2 and first))) or (across == 1 and ahead == 1)
        case chess.KNIGHT:
            return {across, along} == {1, 2}
        case chess.BISHOP:
            return across == along
        case chess.ROOK:
            return across == 0 or along == 0
        case chess.QUEEN:
            return across == along or across == 0 or along == 0
    return max(across, along) == 1


def path(board: chess.Board, origin: chess.Square, target: chess.Square) -> list[chess.Square]:
    """The squares that must be empty for this move, from the origin's side on.

    For a pawn going straight ahead the square of arrival is one of them; a knight needs none.
    """
    piece = board.piece_at(origin)
    between = list(chess.SquareSet(chess.between(origin, target)))
    between.sort(key=lambda square: chess.square_distance(origin, square))
    if piece is not None and piece.piece_type == chess.PAWN and origin & 7 == target & 7:
        between.append(target)
    return between


def attack_step(board: chess.Board, king: chess.Square, pinned: chess.Square) -> chess.Square | None:
    """The square of the man that pins `pinned` to the king on `king`, or None where nothing does."""
    ray = chess.SquareSet(chess.ray(king, pinned))
    owner = board.color_at(king)
    if owner is None or not ray:
        return None
    beyond = [
        s for s in ray & chess.SquareSet(board.occupied) if pinned in chess.SquareSet(chess.between(king, s))
    ]
    nearest = min(beyond, key=lambda square: chess.square_distance(pinned, square), default=None)
    if nearest is None or board.color_at(nearest) == owner:
        return None
    return nearest
