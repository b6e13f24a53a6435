"""A place: a position together with the way it was reached."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import chess


@dataclass(frozen=True, slots=True)
class Place:
    """A root position (FEN) and the moves played from it (UCI).

    The moves are kept because repetition, the fifty-move count, "recapture" and "the last move"
    depend on them. A root may be impossible (no king, say): such a board can be looked at, but not moved on.
    """

    root: str = chess.STARTING_FEN
    moves: tuple[str, ...] = ()

    def board(self) -> chess.Board:
        """A fresh board, with its move stack, that the caller may change."""
        return _board(self).copy()

    @property
    def fen(self) -> str:
        """The position's FEN; the en passant square only where such a capture is legal."""
        return _board(self).fen()

    @property
    def last(self) -> str | None:
        """The last move in UCI, or None where no move has been played since the root."""
        return self.moves[-1] if self.moves else None

    def then(self, *ucis: str) -> Place:
        """The place after these further moves; their legality is the caller's affair."""
        return Place(self.root, self.moves + ucis)

    @property
    def playable(self) -> bool:
        """Whether moves may be made here: one king each, and the side that just moved not in check."""
        return is_playable(_board(self))


def is_playable(board: chess.Board) -> bool:
    """Whether moves may be made here: one king each, no pawn on a last rank, nobody's king to be taken."""
    fatal = (
        chess.STATUS_NO_WHITE_KING
        | chess.STATUS_NO_BLACK_KING
        | chess.STATUS_TOO_MANY_KINGS
        | chess.STATUS_PAWNS_ON_BACKRANK
        | chess.STATUS_OPPOSITE_CHECK
    )
    return not board.status() & fatal


@lru_cache(maxsize=512)
def _board(place: Place) -> chess.Board:
    board = chess.Board(place.root)
    for uci in place.moves:
        board.push(chess.Move.from_uci(uci))
    return board
