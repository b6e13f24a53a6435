"""A true reply to a wrong move: what refutes it, in one sentence."""

from __future__ import annotations

import chess

from player.facts.refute import refutation
from player.wording.say import say


def refuted_sentence(board: chess.Board, move: chess.Move) -> tuple[str, str]:
    """The sentence about this very move, and whose word it is: "board" where proved, else "unknown"."""
    shown = say(board, move).shown
    found = refutation(board, move)
    if found is None:
        here = "White" if board.turn else "Black"
        origin = chess.square_name(move.from_square)
        return f"Not {shown}; what {here} misses by it from {origin}, nobody has said.", "unknown"
    after = board.copy()
    after.push(move)
    reply = say(after, found.reply).shown
    if found.kind == "mate":
        return f"After {shown} comes {reply}, and that is mate.", "board"
    square = chess.square_name(found.square)
    taken = after.piece_at(found.square)
    if taken is None:
        return f"After {shown} comes {reply}, and that wins material on {square}.", "board"
    man = chess.piece_name(taken.piece_type)
    return f"After {shown} comes {reply}, and the {man} on {square} falls.", "board"
