"""Plain English names of men, sides and squares, for the sentences of the player itself."""

from __future__ import annotations

import chess


def name(kind: chess.PieceType) -> str:
    """The name of a kind of man: "knight"."""
    return chess.piece_name(kind)


def with_article(kind: chess.PieceType) -> str:
    """A kind of man with its article: "a knight"."""
    return f"a {chess.piece_name(kind)}"


def colour_name(colour: chess.Color) -> str:
    """ "White" or "Black"."""
    return "White" if colour else "Black"


def square_name(square: chess.Square) -> str:
    """The name of a square: "f3"."""
    return chess.SQUARE_NAMES[square]


def man_at(board: chess.Board, square: chess.Square) -> str:
    """The man that stands on a square, with it: "knight on f3"; "man" where the square is empty."""
    kind = board.piece_type_at(square)
    return f"{'man' if kind is None else chess.piece_name(kind)} on {chess.SQUARE_NAMES[square]}"


def side_of(board: chess.Board, square: chess.Square) -> str:
    """How a man is introduced beside the side to move: "its own" or "the"."""
    return "its own" if board.color_at(square) == board.turn else "the"


def listed(words: list[str], last: str = "and") -> str:
    """Words as one list: "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def first_name(coach: str) -> str:
    """The coach's first name, past a title such as "Dr."; "Coach" where no name is told."""
    for word in coach.split():
        if not word.endswith("."):
            return word.strip(",:")
    return "Coach"
