"""Help with a question, rung by rung: the idea, the man, the area, and the move with its reason."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

import chess

from player.facts.exchange import Nodes, OutOfNodes
from player.facts.place import Place
from player.facts.replies.deeds import Moved, moved
from player.facts.replies.finding import Deed
from player.facts.replies.harm import kept, mates_at_once
from player.facts.replies.question import deeds_with_meets, threats_here
from player.wording.names import listed
from player.wording.replies_say import opening, worth
from player.wording.replies_words import merits_of

RUNGS = 4
_WINS = 600

_IDEAS = {
    "mate": "Look at the enemy king: how many squares has he left?",
    "check": "Begin with the checks.",
    "promotes": "Somebody is about to be promoted.",
    "castles": "Think of your own king first.",
    "meets mate": "What does the other side threaten? Answer that first.",
    "meets": "Something of yours is in danger. Answer that first.",
    "takes": "Look at what can be taken.",
    "outpost": "Look for a square that no pawn can ever attack.",
    "pins": "Two men of the other side stand on one line.",
    "hits": "Look for something to attack.",
    "uncovers": "Somebody stands in the way of a stronger man.",
    "chases": "One of their men could be asked to move.",
    "guards": "One of your men could do with another guard.",
    "centre": "Who has a say in the middle of the board?",
    "develops": "Somebody is still at home.",
    "opens": "One of your men needs more room.",
    "file": "Heavy men like files without pawns.",
    "seventh": "How far down the board can a heavy man go?",
    "connects": "Two of your men would like to see each other.",
    "passed": "Which pawn has no pawn left in its way?",
    "opposition": "Think of how the two kings stand to each other.",
    "nearer": "In an ending everybody walks.",
    "room": "Does your king have a way out at the back?",
    "bars": "Which square would the other side like to use?",
    "eyes": "Which square in the middle would you like to watch?",
    "presses": "Which of their men could be looked at once more?",
}
_PLAIN = "Ask each of your men whether it has a better square."


@lru_cache(maxsize=64)
def rungs(place: Place, answer: str, about: tuple[str, ...] = ()) -> tuple[str, ...]:
    """The four rungs for a question whose answer is this legal move (UCI). The last one names it.

    `about` are the ideas the coach has named for the question. ValueError where the move is not legal.
    """
    board = place.board()
    move = chess.Move.from_uci(answer)
    if not board.is_legal(move):
        raise ValueError(f"{answer} is not legal here")
    made = moved(board, move)
    done = deeds_with_meets(made, threats_here(board))
    return _idea(made, done, about), _man(made), _area(made), _move(made, done)


def left(place: Place, answer: str, about: tuple[str, ...], coach: Sequence[str]) -> tuple[str, ...]:
    """The rungs that the coach's own nudges (their texts) leave, to be given after them."""
    return rungs(place, answer, about)[reached(place, answer, coach) :]


def reached(place: Place, answer: str, coach: Sequence[str]) -> int:
    """How many rungs the coach's nudges have climbed: as far as what they name, or as many as there are.

    The last rung is climbed only where the move itself is named, or where there are four.
    """
    board = place.board()
    move = chess.Move.from_uci(answer)
    highest = min(len(coach), RUNGS - 1)
    for text in coach:
        highest = max(highest, _named(board, move, text.casefold()))
    return RUNGS if len(coach) >= RUNGS else highest


def _named(board: chess.Board, move: chess.Move, text: str) -> int:
    """What a text names: 4 the move, 3 a place it has to do with, 2 the man, 0 none of these."""
    man = chess.piece_name(board.piece_type_at(move.from_square) or chess.PAWN)
    to = chess.SQUARE_NAMES[move.to_square]
    kind = bool(re.search(rf"\b{man}\b", text))
    if (kind and re.search(rf"\b{to}\b", text)) or (board.is_castling(move) and "castle" in text):
        return RUNGS
    if re.search(rf"\b{to}\b|\b{to[0]}-file\b|\bkingside\b|\bqueenside\b", text):
        return 3
    return 2 if kind else 0


def _idea(made: Moved, done: Sequence[Deed], about: tuple[str, ...]) -> str:
    if about:
        return f"Think of {about[0]}."
    if mates_at_once(made.board) and made.after.is_checkmate():
        return _IDEAS["mate"]
    return next((_IDEAS[deed.kind] for deed in done if deed.kind in _IDEAS), _PLAIN)


def _man(made: Moved) -> str:
    if made.board.is_castling(made.move):
        return "The king moves, and he does not move alone."
    name = chess.piece_name(made.man)
    alone = len(made.board.pieces(made.man, made.us)) == 1
    if made.man == chess.PAWN:
        return "It is a pawn's move." if not alone else "It is the pawn's move."
    return f"It is a move of {'the' if alone else 'a'} {name}."


def _area(made: Moved) -> str:
    """The smallest of file, wing and half in which the man's kind has another move too."""
    board, to = made.board, made.move.to_square
    if board.is_castling(made.move):
        return f"Look along {'White' if made.us else 'Black'}'s first rank."
    others = [
        move.to_square
        for move in board.legal_moves
        if board.piece_type_at(move.from_square) == made.man and move.to_square != to
    ]
    if any(square & 7 == to & 7 for square in others):
        return f"Look at the {'abcdefgh'[to & 7]}-file."
    wing = _wing(to)
    if any(_wing(square) == wing for square in others):
        return f"Look at the {wing}."
    return "Look at your own half of the board." if (to >> 3 < 4) == made.us else "Look at the enemy's half."


def _wing(square: chess.Square) -> str:
    return "queenside" if square & 7 < 3 else "middle files" if square & 7 < 5 else "kingside"


def _won(made: Moved) -> int:
    """What the move wins against every answer, in pawns, as captures settle it; 0 where it takes too long."""
    try:
        return max(0, kept(made.board, made.move, 1, Nodes(_WINS)))
    except OutOfNodes:
        return 0


def _move(made: Moved, done: Sequence[Deed]) -> str:
    first = opening(made.board, made.move)
    if made.after.is_checkmate():
        return f"{first[:1].upper()}{first[1:]} is mate."
    reasons = [text for _, text in merits_of(made.board, made.after, done, made.move.to_square)]
    won = _won(made)
    if won:
        reasons.insert(0, f"wins at least {worth(won)}")
    if not reasons:
        return f"The move is {first}."
    return f"{first[:1].upper()}{first[1:]}, because it {listed(reasons[:2])}."
