"""A coach's question answered from the board, and what is true of a wrong answer to it."""

from __future__ import annotations

import re
from typing import Literal

import chess

from player.wording.asked import answer_query, ask_board, query_of
from player.wording.asked.forms import Query
from player.wording.asked.reply import Scene, capital
from player.wording.asked.words import Man, plain_question
from player.wording.names import man_at


def _question_in(text: str) -> Query | None:
    """The question of a text: its last sentence that ends with a question mark, or the whole."""
    sentences = re.findall(r"[^.!?]+\?", text)
    return query_of((sentences[-1] if sentences else text).strip())


def computed_answers(
    board: chess.Board, text: str, kind: Literal["square", "count"]
) -> tuple[str, ...] | None:
    """The answer to a question for squares or a number, proved from the board; None where it is not known.

    Squares come as names from a1 on, a number in digits.
    """
    query = _question_in(text)
    if query is None:
        return None
    if query.kind == "sees" and query.men and len(Scene(board, query, board.turn).men()) != 1:
        return None  # "What does the knight watch?" has no one answer where several knights stand.
    reply = answer_query(query, board)
    if reply.standing != "board":
        return None
    if kind == "count":
        return None if reply.number is None else (str(reply.number),)
    return tuple(chess.SQUARE_NAMES[square] for square in sorted(set(reply.squares))) or None


_OF_A_SQUARE = {
    "pins": "is {square} pinned",
    "is pinned": "is {square} pinned",
    "pinned to": "is {square} pinned",
    "hanging": "is {square} hanging",
    "unguarded": "is {square} guarded",
    "attacked men": "is {square} attacked",
}


def true_of(board: chess.Board, text: str, square: chess.Square) -> str:
    """One sentence that is true of a square that was a wrong answer to this question."""
    query = _question_in(text)
    here = chess.SQUARE_NAMES[square]
    stands = capital(Scene(board, query or Query("", "", (), ""), board.turn).stands(square))
    if query is None:
        return stands
    asked = ""
    occupied = board.piece_at(square) is not None
    if occupied and query.kind in _OF_A_SQUARE:
        asked = _OF_A_SQUARE[query.kind].format(square=here)
    elif occupied and query.kind in ("attackers", "guards") and query.squares:
        verb = "attack" if query.kind == "attackers" else "guard"
        asked = f"does the {man_at(board, square)} {verb} {chess.SQUARE_NAMES[query.squares[0]]}"
    elif query.kind in ("moves", "safe") and query.men:
        men = Scene(board, query, board.turn).men()
        if len(men) == 1:
            man = man_at(board, men[0])
            asked = f"is {here} safe for the {man}" if query.kind == "safe" else f"can the {man} go to {here}"
    reply = ask_board(board, asked) if asked else None
    if reply is None or reply.standing != "board":
        return stands
    return capital(re.sub(r"^(?:Yes|No)[.:,]? ", "", reply.text))


def man_meant(board: chess.Board, said: str) -> chess.Square | None:
    """Where the one man stands that an answer names by its kind ("the black queen"); None where none
    or several.
    """
    things = plain_question(said).things
    if len(things) != 1 or not isinstance(things[0][1], Man):
        return None
    query = Query("where", "", things, said)
    found = Scene(board, query, board.turn).men()
    return found[0] if len(found) == 1 else None
