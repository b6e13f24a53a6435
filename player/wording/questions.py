"""The question that parts several moves, and the one word that answers it for each."""

from __future__ import annotations

import chess

from player.wording.hearing import Ambiguous
from player.wording.languages import Language
from player.wording.names import listed
from player.wording.san import in_letters

_SHOWN = 8


def which(moves: list[chess.Move], board: chess.Board, words: Language) -> Ambiguous:
    """The question for these legal moves (two at least), with one-word answers parallel to them."""
    moves = sorted(moves, key=lambda move: (move.from_square, _order(board, move)))
    answers, pattern = _answers(moves, board, words)
    choices = listed(list(dict.fromkeys(answers))[:_SHOWN], words.ask["or"])
    if len(answers) > _SHOWN:
        choices = f"{', '.join(answers[:_SHOWN])} ..."
    kinds = {board.piece_type_at(move.from_square) for move in moves}
    kind = next(iter(kinds)) or chess.PAWN
    return Ambiguous(
        tuple(moves), pattern.format(choices=choices, man=words.pieces[kind]), tuple(answers), fen=board.fen()
    )


def _order(board: chess.Board, move: chess.Move) -> int:
    """Squares of arrival from a1 on; of two ways to castle the kingside first."""
    return -move.to_square if board.is_castling(move) else move.to_square


def _answers(moves: list[chess.Move], board: chess.Board, words: Language) -> tuple[list[str], str]:
    kinds = [board.piece_type_at(move.from_square) or chess.PAWN for move in moves]
    origins = [move.from_square for move in moves]
    targets = [move.to_square for move in moves]
    one_kind = len(set(kinds)) == 1
    if all(board.is_castling(move) for move in moves):
        sides = ["kingside" if board.is_kingside_castling(move) else "queenside" for move in moves]
        return [words.said[f"{side}_word"] for side in sides], words.ask["castle"]
    if len(set(origins)) == 1 and len(set(targets)) == 1:
        return [words.pieces[move.promotion or chess.QUEEN] for move in moves], words.ask["promote"]
    if len(set(targets)) == 1 and len(set(kinds)) == len(moves):
        return [words.pieces[kind] for kind in kinds], words.ask["man"]
    if len(set(origins)) == len(moves) and len(set(targets)) == 1:
        pattern = words.ask["which"] if one_kind else words.ask["man"]
        for part in (_files, _ranks):
            named = part(origins)
            if one_kind and len(set(named)) == len(moves):
                return named, pattern
        return [chess.square_name(square) for square in origins], pattern
    if len(set(targets)) == len(moves):
        pattern = words.ask["where"] if len(set(origins)) == 1 else words.ask["move"]
        named = [chess.square_name(square) for square in targets]
        castling = [board.is_castling(move) for move in moves]
        if any(castling) and len(set(origins)) > 1:
            sides = [words.said["kingside" if board.is_kingside_castling(m) else "queenside"] for m in moves]
            named = [side if it else one for side, it, one in zip(sides, castling, named, strict=True)]
        return named, pattern
    if len(set(origins)) == len(moves):
        return [chess.square_name(square) for square in origins], words.ask["man"]
    return [_notation(board, move, words) for move in moves], words.ask["move"]


def _notation(board: chess.Board, move: chess.Move, words: Language) -> str:
    """Notation that is one word in any case: bxc4, which is Bxc4 as well when it is spoken, becomes b5xc4."""
    san = in_letters(board.san(move).rstrip("+#"), words)
    if san[0] in "abcdefgh" and san[0] in words.by_letter and "x" in san:
        return chess.square_name(move.from_square) + san[1:]
    return san


def _files(squares: list[chess.Square]) -> list[str]:
    return ["abcdefgh"[square & 7] for square in squares]


def _ranks(squares: list[chess.Square]) -> list[str]:
    return [str((square >> 3) + 1) for square in squares]
