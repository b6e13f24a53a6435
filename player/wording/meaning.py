"""What a phrase says about a move, before any board is looked at."""

from __future__ import annotations

from dataclasses import dataclass

import chess


@dataclass(frozen=True, slots=True)
class Meaning:
    """Constraints on one move; None leaves a thing open.

    `man` is the mover's piece type; `origin_file`, `origin_rank`, `file`, `rank` count from 0. `pawn_push` is
    a pawn's move that takes nothing; `castle` is True for kingside, False for queenside; `any_castle` leaves
    the side open. `victim_file` and `victim_square` say where the man taken stands. `promotes` says that a
    promotion was spoken of, `promotion` to what. `steps` is how many squares a pawn goes. `parting` says that
    the origin counts only where it is needed to tell several men apart. `off` is the text of a square that is
    not on the board.
    """

    man: chess.PieceType | None = None
    origin_file: int | None = None
    origin_rank: int | None = None
    file: int | None = None
    rank: int | None = None
    takes: bool = False
    victim: chess.PieceType | None = None
    victim_file: int | None = None
    victim_square: chess.Square | None = None
    recaptures: bool = False
    passant: bool = False
    promotes: bool = False
    promotion: chess.PieceType | None = None
    castle: bool | None = None
    any_castle: bool = False
    pawn_push: bool = False
    steps: int | None = None
    parting: bool = False
    off: str = ""

    @property
    def castles(self) -> bool:
        """Whether this is castling, on whichever side."""
        return self.any_castle or self.castle is not None

    @property
    def square(self) -> chess.Square | None:
        """The square of arrival, where both its file and its rank were said."""
        return None if self.file is None or self.rank is None else chess.square(self.file, self.rank)

    @property
    def origin(self) -> chess.Square | None:
        """The square of departure, where both its file and its rank were said."""
        if self.origin_file is None or self.origin_rank is None:
            return None
        return chess.square(self.origin_file, self.origin_rank)
