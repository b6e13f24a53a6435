"""Questions about men and squares: who stands there, what hits it, where a kind of man is, what has
changed.
"""

from __future__ import annotations

import chess

from player.facts.place import is_playable
from player.wording.grammar import runs
from player.wording.languages import language as language_of
from player.wording.names import colour_name, listed, name
from player.wording.tokens import plain, slots


def examine(board: chess.Board, square: chess.Square) -> str:
    """Who stands on a square, what attacks and guards it, and where that man can go."""
    piece = board.piece_at(square)
    here = chess.square_name(square)
    if piece is None:
        parts = [f"Nobody stands on {here}."]
        for colour in chess.COLORS:
            hitters = [_man(board, s) for s in board.attackers(colour, square)]
            if hitters:
                parts.append(f"{colour_name(colour)} can reach it with {_those(hitters)}.")
        return " ".join(parts) if len(parts) > 1 else f"{parts[0]} Nothing attacks it."
    side = "white" if piece.color else "black"
    parts = [f"The {side} {name(piece.piece_type)} stands on {here}."]
    attackers = [_man(board, s) for s in board.attackers(not piece.color, square)]
    guards = [_man(board, s) for s in board.attackers(piece.color, square)]
    if attackers:
        parts.append(f"It is attacked by {_those(attackers)}.")
    else:
        parts.append("Nothing attacks it.")
    if piece.piece_type != chess.KING:
        parts.append(f"It is guarded by {_those(guards)}." if guards else "Nothing guards it.")
    parts.append(_ways(board, square, piece.color))
    return " ".join(part for part in parts if part)


def _ways(board: chess.Board, square: chess.Square, colour: chess.Color) -> str:
    if not is_playable(board):
        return ""
    if board.turn != colour and board.is_check():
        return ""
    looked = board
    if board.turn != colour:
        looked = board.copy(stack=False)
        looked.push(chess.Move.null())
    targets = {
        move.to_square: looked.is_capture(move) for move in looked.legal_moves if move.from_square == square
    }
    when = "It can go to" if board.turn == colour else "With the move it could go to"
    if not targets:
        if board.turn == colour and board.is_pinned(colour, square):
            return "It is pinned to the king and cannot move."
        return "It has no move." if board.turn == colour else "It would have no move."
    names = [
        f"{chess.square_name(t)}{' with a capture' if taking else ''}"
        for t, taking in sorted(targets.items())
    ]
    return f"{when} {listed(names)}."


def _man(board: chess.Board, square: chess.Square) -> str:
    kind = board.piece_type_at(square) or chess.PAWN
    return f"the {name(kind)} on {chess.square_name(square)}"


def _those(men: list[str]) -> str:
    return listed(men)


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


def changed(before: chess.Board, after: chess.Board) -> str:
    """What is different between two positions, in plain sentences."""
    parts = _moved(before, after)
    if before.turn != after.turn:
        parts.append(f"{colour_name(after.turn)} is to move.")
    return " ".join(parts) if parts else "Nothing has changed."


def _moved(before: chess.Board, after: chess.Board) -> list[str]:
    gone = [(s, p) for s, p in before.piece_map().items() if after.piece_at(s) != p]
    come = [(s, p) for s, p in after.piece_map().items() if before.piece_at(s) != p]
    gone.sort(key=lambda found: found[0])
    come.sort(key=lambda found: found[0])
    parts: list[str] = []
    for square, piece in list(gone):
        target = next((found for found in come if found[1] == piece), None)
        if target is not None:
            gone.remove((square, piece))
            come.remove(target)
            parts.append(
                f"{_whose(piece)} went from {chess.square_name(square)} to {chess.square_name(target[0])}."
            )
    parts += [f"{_whose(piece)} on {chess.square_name(square)} is gone." for square, piece in gone]
    parts += [f"{_whose(piece)} has come to {chess.square_name(square)}." for square, piece in come]
    return parts


def _whose(piece: chess.Piece) -> str:
    return f"{colour_name(piece.color)}'s {name(piece.piece_type)}"
