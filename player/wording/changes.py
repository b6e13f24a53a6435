"""What is different between two positions, in plain sentences."""

from __future__ import annotations

import chess

from player.wording.match import taken_square
from player.wording.names import colour_name, listed, name, square_name, with_article


def changed(before: chess.Board, after: chess.Board) -> str:
    """What is different in `after`: the move that was made where one legal move leads there, else man by
    man.
    """
    move = _move(before, after)
    parts = [_told(before, move)] if move is not None else _men(before, after)
    if move is None:
        parts += _rights(before, after)
    if before.turn != after.turn:
        parts.append(f"{colour_name(after.turn)} is to move.")
    return " ".join(parts) if parts else "Nothing has changed."


def _move(before: chess.Board, after: chess.Board) -> chess.Move | None:
    """The legal move of `before` that makes the men and the turn of `after`, if there is one."""
    if before.turn == after.turn:
        return None
    for move in before.legal_moves:
        if after.piece_at(move.to_square) is None or after.piece_at(move.from_square) is not None:
            continue
        board = before.copy(stack=False)
        board.push(move)
        if board.piece_map() == after.piece_map():
            return move
    return None


def _told(board: chess.Board, move: chess.Move) -> str:
    who = colour_name(board.turn)
    if board.is_castling(move):
        return f"{who} castled {'kingside' if board.is_kingside_castling(move) else 'queenside'}."
    man = f"{who}'s {name(board.piece_type_at(move.from_square) or chess.PAWN)}"
    origin, target = square_name(move.from_square), square_name(move.to_square)
    became = f" and became {with_article(move.promotion)}" if move.promotion else ""
    if board.is_en_passant(move):
        taken = square_name(taken_square(board, move))
        return f"{man} took the pawn on {taken} en passant, going from {origin} to {target}."
    if board.is_capture(move):
        victim = name(board.piece_type_at(move.to_square) or chess.PAWN)
        return f"{man} took the {victim} on {target}, coming from {origin}{became.replace(' and', ', and')}."
    return f"{man} went from {origin} to {target}{became}."


def _men(before: chess.Board, after: chess.Board) -> list[str]:
    """Man by man: where a man of one kind is gone and another has come, it is taken to have gone there."""
    parts: list[str] = []
    for colour in chess.COLORS:
        for kind in chess.PIECE_TYPES:
            gone = list(before.pieces(kind, colour) - after.pieces(kind, colour))
            come = list(after.pieces(kind, colour) - before.pieces(kind, colour))
            man = f"{colour_name(colour)}'s {name(kind)}"
            while gone and come:
                origin = gone.pop(0)
                target = min(come, key=lambda square: (chess.square_distance(origin, square), square))
                come.remove(target)
                parts.append(f"{man} went from {square_name(origin)} to {square_name(target)}.")
            parts += [f"{man} on {square_name(square)} is gone." for square in gone]
            parts += [f"{man} has come to {square_name(square)}." for square in come]
    return parts


def _rights(before: chess.Board, after: chess.Board) -> list[str]:
    parts: list[str] = []
    for colour in chess.COLORS:
        for had, now, word in (
            (_sides(before, colour), _sides(after, colour), "may no longer castle"),
            (_sides(after, colour), _sides(before, colour), "may castle"),
        ):
            lost = [side for side in had if side not in now]
            if lost:
                parts.append(f"{colour_name(colour)} {word} {listed(lost)}.")
    return parts


def _sides(board: chess.Board, colour: chess.Color) -> list[str]:
    sides = (
        ("kingside", board.has_kingside_castling_rights),
        ("queenside", board.has_queenside_castling_rights),
    )
    return [side for side, has in sides if has(colour)]
