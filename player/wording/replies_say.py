"""How moves are named inside replies, and one way of putting a reply."""

from __future__ import annotations

import re
from dataclasses import dataclass

import chess

from player.wording.say import say


@dataclass(frozen=True, slots=True)
class Way:
    """Words for a reply. `forms` names its frame and its facts; `rank` is 0 for the most telling."""

    words: str
    forms: frozenset[str]
    rank: int = 0


def way(words: str, *forms: str, rank: int = 0) -> Way:
    """One way, with the names of its forms."""
    return Way(words, frozenset(forms), rank)


def named(board: chess.Board, move: chess.Move) -> str:
    """A move as it stands inside a sentence: "knight to c3", "e4", "castling kingside"; without its marks."""
    quiet_pawn = board.piece_type_at(move.from_square) == chess.PAWN
    depth = "short" if quiet_pawn or board.is_capture(move) else "full"
    text = say(board, move, depth=depth).spoken  # type: ignore[arg-type]
    text = re.sub(r", (?:check|mate|checkmate)$", "", text)
    if quiet_pawn and board.is_capture(move):
        return _pawn_takes(board, move)
    if quiet_pawn and move.promotion:
        return f"making a {chess.piece_name(move.promotion)} on {chess.SQUARE_NAMES[move.to_square]}"
    if board.is_castling(move):
        return text.replace("castles", "castling")
    man = chess.piece_name(board.piece_type_at(move.from_square) or chess.PAWN)
    origin = chess.SQUARE_NAMES[move.from_square]
    return re.sub(rf"^{man} \S+ (?=to |takes )", f"{man} from {origin} ", text)


def _pawn_takes(board: chess.Board, move: chess.Move) -> str:
    """ "taking on d5", with the pawn named where two can, and what it becomes."""
    kinds = [one.from_square for one in board.legal_moves if one.to_square == move.to_square]
    pawns = {square for square in kinds if board.piece_type_at(square) == chess.PAWN}
    with_it = (
        f" with the {'abcdefgh'[move.from_square & 7]}-pawn" if len(set(kinds)) > 1 or len(pawns) > 1 else ""
    )
    turned = f" and making a {chess.piece_name(move.promotion)}" if move.promotion else ""
    return f"taking on {chess.SQUARE_NAMES[move.to_square]}{with_it}{turned}"


def opening(board: chess.Board, move: chess.Move) -> str:
    """The move as the first words of a sentence; a pawn's quiet step gets a noun before its square."""
    text = named(board, move)
    if not re.match(r"[a-h][1-8]", text):
        return text
    far = chess.square_distance(move.from_square, move.to_square) == 2
    return f"the {'push' if far else 'step'} to {text}"


def worth(pawns: int) -> str:
    """So much material in words: "a pawn", "a piece's worth"."""
    if pawns >= 9:
        return "a queen's worth"
    if pawns >= 5:
        return "a rook's worth"
    return {1: "a pawn's worth", 2: "two pawns' worth", 3: "a piece's worth"}.get(
        pawns, "a piece's worth and more"
    )
