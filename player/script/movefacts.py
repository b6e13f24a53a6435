"""What one move is made of, as far as the words that tell it can name it."""

from __future__ import annotations

from dataclasses import dataclass

import chess


@dataclass(frozen=True, slots=True)
class MoveFacts:
    """`men` are the mover, the captured, the promoted and the checking ones, and the king that is in check.

    `moved` is the mover's kind before the move, `origin` and `target` are where it begins and ends.
    `checkers` counts the men that give check, `discovers` says that one of them is not the mover.
    `squares` are the ends of the move (both men's in castling, the pawn's taken en passant), and the checking
    men's; `files` those of them. `looks` are the squares that the man who moved attacks or guards afterwards,
    `seen` the men on them.
    """

    san: str
    mover: chess.Color
    men: frozenset[tuple[chess.PieceType, chess.Color]]
    files: frozenset[int]
    squares: frozenset[int]
    captures: bool
    en_passant: bool
    checks: bool
    mates: bool
    castles: bool
    moved: chess.PieceType
    origin: chess.Square
    target: chess.Square
    stalemates: bool
    checkers: int
    discovers: bool
    looks: frozenset[int]
    seen: frozenset[tuple[chess.PieceType, chess.Color]]


def move_facts(board: chess.Board, move: chess.Move) -> MoveFacts:
    """The facts of a legal move; the board is left as it was."""
    san = board.san(move)
    mover = board.turn
    squares = {move.from_square, move.to_square}
    men: set[tuple[chess.PieceType, chess.Color]] = set()
    moved = board.piece_type_at(move.from_square)
    castles, en_passant = board.is_castling(move), board.is_en_passant(move)
    if moved:
        men.add((moved, mover))
    if castles:
        men.add((chess.ROOK, mover))
        rank = chess.square_rank(move.from_square)
        files = (7, 5) if chess.square_file(move.to_square) > 4 else (0, 3)
        squares |= {chess.square(file, rank) for file in files}
    if en_passant:
        men.add((chess.PAWN, not mover))
        squares.add(chess.square(chess.square_file(move.to_square), chess.square_rank(move.from_square)))
    elif board.is_capture(move):
        taken = board.piece_type_at(move.to_square)
        if taken:
            men.add((taken, not mover))
    captures = board.is_capture(move)
    if move.promotion:
        men.add((move.promotion, mover))
    board.push(move)
    checkers = board.checkers()
    for square in checkers:
        kind = board.piece_type_at(square)
        if kind:
            men.add((kind, mover))
    if checkers:
        men.add((chess.KING, not mover))
        squares |= set(checkers)
    mates = bool(checkers) and board.is_checkmate()
    stalemates = not checkers and board.is_stalemate()
    looks = board.attacks(move.to_square)
    seen = {(piece.piece_type, piece.color) for square in looks if (piece := board.piece_at(square))}
    own = checkers & chess.BB_SQUARES[move.to_square]
    board.pop()
    return MoveFacts(
        san=san,
        mover=mover,
        men=frozenset(men),
        files=frozenset(chess.square_file(square) for square in squares),
        squares=frozenset(squares),
        captures=captures,
        en_passant=en_passant,
        checks=bool(checkers),
        mates=mates,
        castles=castles,
        moved=moved or chess.PAWN,
        origin=move.from_square,
        target=move.to_square,
        stalemates=stalemates,
        checkers=len(checkers),
        discovers=bool(checkers) and not own and not castles,
        looks=frozenset(looks),
        seen=frozenset(seen),
    )
