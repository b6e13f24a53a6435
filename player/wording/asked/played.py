"""The move a question names, made on the board; and moves in words a listener can place."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from player.facts.seen import given_move
from player.wording.asked.reply import BoardReply, Scene, capital, unknown
from player.wording.hear import Ambiguous, Hearing, Illegal, MoveHeard, hear
from player.wording.names import colour_name, man_at

_TO_MAKE = ("legal", "why", "only move", "only legal move", "only reply", "forced")


@dataclass(frozen=True, slots=True)
class Made:
    """A legal move, the board before and after it; `turn` is set where it is that side's move now."""

    before: chess.Board
    move: chess.Move
    after: chess.Board
    turn: bool

    @property
    def side(self) -> chess.Color:
        return self.before.turn


def made(scene: Scene) -> Made | BoardReply:
    """The move of the question: of the side it names, else of the side to move, else of the other one."""
    board, words = scene.board, scene.query.move
    if given_move(board, board.turn) is None:
        return unknown("Nobody can move on this board.")
    if not any(board.legal_moves):
        return BoardReply(over_now(board), yes=False)
    sides = [board.turn, not board.turn] if scene.side is None else [scene.side]
    first: Hearing | None = None
    for side in sides:
        given = given_move(board, side)
        if given is None:
            by = scene.the(board.checkers())
            first = first or Illegal("check", f"{colour_name(board.turn)} is in check from {by}.")
            continue
        heard = hear(given, words, language=scene.language)
        if isinstance(heard, MoveHeard):
            return _made(given, heard.move, side == board.turn)
        if isinstance(heard, Ambiguous) and side == sides[0]:
            return BoardReply(f"More than one move is {words} here. {heard.question}", moves=heard.moves)
        first = first or heard
        if scene.query.kind == "legal" or (isinstance(heard, Illegal) and heard.reason != "not-your-turn"):
            break
    if isinstance(first, Illegal):
        return _just_made(scene) or BoardReply(f"No. {first.sentence}", yes=False)
    return unknown("Name a move, such as knight f3.")


def _just_made(scene: Scene) -> Made | None:
    """The move of the question where it is the one just made, and not asked of as one to make."""
    last = scene.last
    if last is None or (scene.query.kind == "legal" and scene.query.word in _TO_MAKE):
        return None
    heard = hear(last.before, scene.query.move, language=scene.language)
    if not isinstance(heard, MoveHeard) or heard.move != last.move:
        return None
    return Made(last.before, last.move, scene.board.copy(), False)


def _made(before: chess.Board, move: chess.Move, turn: bool) -> Made:
    after = before.copy()
    after.push(move)
    return Made(before, move, after, turn)


def over_now(board: chess.Board) -> str:
    """That the game is over, and how."""
    if board.is_checkmate():
        loser, winner = colour_name(board.turn), colour_name(not board.turn)
        return f"The game is over: {loser} is mated, and {winner} has won."
    if board.is_stalemate():
        return f"The game is over: {colour_name(board.turn)} is stalemated, a draw."
    if board.is_insufficient_material():
        return "The game is over, a draw: neither side has enough men to mate."
    if board.is_fivefold_repetition():
        return "The game is over, a draw: this position has stood here five times."
    return "The game is over, a draw: seventy-five moves have passed without a capture or a pawn's move."


def plainly(board: chess.Board, move: chess.Move) -> str:
    """A move in words a listener can place: "the knight on f6 takes on e4"."""
    if board.is_castling(move):
        return f"castling {'kingside' if board.is_kingside_castling(move) else 'queenside'}"
    verb = "takes on" if board.is_capture(move) else "to"
    became = f", becoming a {chess.piece_name(move.promotion)}" if move.promotion else ""
    return f"the {man_at(board, move.from_square)} {verb} {chess.SQUARE_NAMES[move.to_square]}{became}"


def can_clause(board: chess.Board, move: chess.Move, can: str = "can") -> str:
    """A move as a clause: "the queen on h5 can take on f7", "White can castle kingside"."""
    if board.is_castling(move):
        wing = "kingside" if board.is_kingside_castling(move) else "queenside"
        return f"{colour_name(board.turn)} {can} castle {wing}"
    verb = "take on" if board.is_capture(move) else "go to"
    became = f" and become a {chess.piece_name(move.promotion)}" if move.promotion else ""
    here = chess.SQUARE_NAMES[move.to_square]
    return f"the {man_at(board, move.from_square)} {can} {verb} {here}{became}"


def short(board: chess.Board, move: chess.Move) -> str:
    """A move as short as it can be said: "knight takes on e4", "rook to e1", "castling kingside"."""
    if board.is_castling(move):
        return plainly(board, move)
    man = chess.piece_name(board.piece_type_at(move.from_square) or chess.PAWN)
    verb = "takes on" if board.is_capture(move) else "to"
    became = f", becoming a {chess.piece_name(move.promotion)}" if move.promotion else ""
    twins = [
        other
        for other in board.legal_moves
        if other.to_square == move.to_square
        and other.from_square != move.from_square
        and board.piece_type_at(other.from_square) == board.piece_type_at(move.from_square)
    ]
    on = f" on {chess.SQUARE_NAMES[move.from_square]}" if twins else ""
    return f"{man}{on} {verb} {chess.SQUARE_NAMES[move.to_square]}{became}"


def taken_at(board: chess.Board, move: chess.Move) -> chess.Square | None:
    """Where the man stands that a move takes, or None."""
    if not board.is_capture(move):
        return None
    if board.is_en_passant(move):
        return chess.square(move.to_square & 7, move.from_square >> 3)
    return move.to_square


__all__ = ["Made", "can_clause", "capital", "made", "over_now", "plainly", "short", "taken_at"]
