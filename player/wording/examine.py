"""Questions about men and squares: who stands there, what hits it, where a kind of man is, what has
changed.
"""

from __future__ import annotations

import chess

from player.facts.place import is_playable
from player.wording.grammar import runs
from player.wording.languages import language as language_of
from player.wording.names import colour_name, listed, man_at, name
from player.wording.tokens import plain, slots


def examine(board: chess.Board, square: chess.Square) -> str:
    """Who stands on a square, what attacks and guards it, and where that man can go."""
    piece = board.piece_at(square)
    here = chess.square_name(square)
    if piece is None:
        hits = [_hits(board, colour, square) for colour in chess.COLORS]
        return " ".join(
            [f"Nobody stands on {here}.", *[hit for hit in hits if hit]]
            + ["Nothing attacks it."] * (not any(hits))
        )
    side = "white" if piece.color else "black"
    attackers = _men(board, board.attackers(not piece.color, square))
    guards = _men(board, board.attackers(piece.color, square))
    parts = [f"The {side} {name(piece.piece_type)} stands on {here}."]
    parts.append(f"It is attacked by {attackers}." if attackers else "Nothing attacks it.")
    if piece.piece_type != chess.KING:
        parts.append(f"It is guarded by {guards}." if guards else "Nothing guards it.")
    parts.append(_ways(board, square, piece.color))
    return " ".join(part for part in parts if part)


def _hits(board: chess.Board, colour: chess.Color, square: chess.Square) -> str:
    men = _men(board, board.attackers(colour, square))
    return f"{colour_name(colour)} attacks it with {men}." if men else ""


def _ways(board: chess.Board, square: chess.Square, colour: chess.Color) -> str:
    """Where the man could go, if it is its turn or were; nothing where no move can be made on this board."""
    mine = board.turn == colour
    if not is_playable(board) or (not mine and board.is_check()):
        return ""
    looked = board
    if not mine:
        looked = board.copy(stack=False)
        looked.push(chess.Move.null())
    ways = sorted(
        {(looked.is_capture(m), m.to_square) for m in looked.legal_moves if m.from_square == square}
    )
    if not ways:
        if mine and board.is_pinned(colour, square):
            return "It is pinned to the king and cannot move."
        return "It has no move." if mine else "With the move it would have no way to go."
    quiet = [chess.square_name(target) for taking, target in ways if not taking]
    takes = [chess.square_name(target) for taking, target in ways if taking]
    parts = [f"take on {listed(takes)}"] * bool(takes) + [f"go to {listed(quiet)}"] * bool(quiet)
    return f"{'It can' if mine else 'With the move it could'} {' and '.join(parts)}."


def _men(board: chess.Board, squares: chess.SquareSet) -> str:
    return listed([f"the {man_at(board, square)}" for square in squares])


def where(board: chess.Board, said: str, *, language: str = "en") -> str:
    """Where the men stand that a question names: "where are the knights?", "where is the white queen?"."""
    words = language_of(language)
    kind: chess.PieceType | None = None
    colour: chess.Color | None = None
    mine = " my " in f" {said.casefold()} "
    for run in runs(slots(plain(said), words)):
        for token in run:
            if token.kind == "P":
                kind = token.value
            elif token.kind == "W":
                colour = bool(token.value)
        if kind is not None:
            break
    if kind is None:
        return "Name a kind of man, such as the knights or the white queen."
    if mine and colour is None:
        colour = board.turn
    sides = chess.COLORS if colour is None else [colour]
    return " ".join(_where(board, kind, side) for side in sides)


def _where(board: chess.Board, kind: chess.PieceType, colour: chess.Color) -> str:
    squares = [chess.square_name(square) for square in board.pieces(kind, colour)]
    who = colour_name(colour)
    if not squares:
        return f"{who} has no {name(kind)}."
    if len(squares) == 1:
        return f"{who}'s {name(kind)} is on {squares[0]}."
    return f"{who}'s {name(kind)}s are on {listed(squares)}."
