"""A true reply to a wrong move: what refutes it, in one sentence."""

from __future__ import annotations

import re

import chess

from player.facts.refute import Refutation, refutation
from player.wording.names import colour_name, listed, man_at
from player.wording.say import say


def refuted_sentence(board: chess.Board, move: chess.Move) -> tuple[str, str]:
    """The sentence about this very move, and whose word it is: "board" where proved, else "unknown".

    ValueError where the move is not legal.
    """
    said = _said(board, move)
    found = refutation(board, move)
    if found is None:
        origin = chess.SQUARE_NAMES[move.from_square]
        return f"Why not {said} from {origin}, nobody has said.", "unknown"
    return _proved(board, move, said, found), "board"


def _proved(board: chess.Board, move: chess.Move, said: str, found: Refutation) -> str:
    after = board.copy()
    after.push(move)
    own, other = colour_name(board.turn), colour_name(not board.turn)
    if found.kind == "stalemate":
        return f"After {said} {other} has no move and is not in check: stalemate, a draw."
    if found.kind == "win lost":
        now = f"{other} wins" if found.gain > 0 else "it is a draw"
        return f"{own} was winning here; after {said} {now} with best play."
    if found.kind == "draw lost":
        return f"This was a draw; after {said} {other} wins with best play."
    assert found.reply is not None and found.square is not None
    reply = _said(after, found.reply)
    if found.kind == "mate":
        return f"After {said} comes {reply}, and that is mate."
    if found.kind == "fork":
        men = listed([f"the {man_at(after, square)}" for square in found.forked[:3]])
        return f"After {said} comes {reply}, which hits {men} and wins material."
    taker = man_at(after, found.reply.from_square)
    taken = after.piece_at(found.square)
    if taken is None:
        return f"After {said} comes {reply}."
    own_man = "it" if found.square == _stands(board, move) else f"the {man_at(after, found.square)}"
    turned = f" and becomes a {chess.piece_name(found.reply.promotion)}" if found.reply.promotion else ""
    return f"After {said} the {taker} takes {own_man}{turned}."


def _stands(board: chess.Board, move: chess.Move) -> chess.Square | None:
    """Where the man that moved then stands; None for castling, when "it" would be two men."""
    return None if board.is_castling(move) else move.to_square


def _said(board: chess.Board, move: chess.Move) -> str:
    """The move in a few words, without its marks."""
    return re.sub(r", (?:check|mate|checkmate)$", "", say(board, move, depth="short").spoken)
