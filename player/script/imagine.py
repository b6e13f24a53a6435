"""An imagined position: the board changed for argument's sake."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

import chess

from player.facts.place import Place

_MEN = {name: number for number, name in enumerate(chess.PIECE_NAMES) if name}
_NAMES = "|".join(_MEN)


@dataclass(frozen=True, slots=True)
class BadChange:
    """A change that cannot be made: what is wrong, the part of the list, and a right example."""

    message: str
    text: str
    fix: str


def imagined(board: chess.Board, changes: str) -> tuple[Place, list[BadChange]]:
    """The place after a comma list of changes; those that cannot be made are left out and told.

    Castling rights that no longer fit fall, and so does en passant.
    """
    made = board.copy(stack=False)
    made.ep_square = None
    bad: list[BadChange] = []
    for text in re.split(r"[,;]|\band\b", changes):
        change = " ".join(text.split())
        if change:
            wrong = _change(made, change)
            if wrong is not None:
                bad.append(wrong)
    made.castling_rights = made.clean_castling_rights()
    return Place(made.fen()), bad


def _change(board: chess.Board, change: str) -> BadChange | None:
    for pattern, do in _CHANGES:
        found = pattern.fullmatch(change)
        if found:
            return do(board, found)
    return BadChange(
        "This is no change of the board.",
        change,
        _meant(change) or "imagine: remove f3, white rook on e1, d2 to d4, Black to move",
    )


def _meant(change: str) -> str:
    """The removal that was most likely meant by words about a man that goes; else ""."""
    squares = re.findall(r"[a-h][1-8]", change.lower())
    if not squares or not re.search(
        r"\b(?:without|no|not|minus|gone|off|away|delete|takes? out)\b", change.lower()
    ):
        return ""
    return "imagine: " + ", ".join(f"remove {square}" for square in dict.fromkeys(squares[:8]))


def _remove(board: chess.Board, found: re.Match[str]) -> BadChange | None:
    square = chess.parse_square(found["square"].lower())
    man = board.piece_at(square)
    if man is None:
        return BadChange(f"Nothing stands on {found['square']}.", found[0], "")
    named = found["man"]
    if named and _MEN[named.lower()] != man.piece_type:
        name = chess.PIECE_NAMES[man.piece_type]
        return BadChange(f"A {name} stands on {found['square']}.", found[0], f"remove {found['square']}")
    if found["color"] and (found["color"].lower() == "white") != man.color:
        return BadChange(f"That man on {found['square']} is not {found['color'].lower()}.", found[0], "")
    board.remove_piece_at(square)
    return None


def _put(board: chess.Board, found: re.Match[str]) -> BadChange | None:
    man = chess.Piece(_MEN[found["man"].lower()], found["color"].lower() == "white")
    board.set_piece_at(chess.parse_square(found["square"].lower()), man)
    return None


def _lift(board: chess.Board, found: re.Match[str]) -> BadChange | None:
    start, end = chess.parse_square(found["square"].lower()), chess.parse_square(found["to"].lower())
    if board.piece_at(start) is None:
        return BadChange(f"Nothing stands on {found['square']}.", found[0], "")
    man = board.remove_piece_at(start)
    board.set_piece_at(end, man)
    return None


def _turn(board: chess.Board, found: re.Match[str]) -> BadChange | None:
    board.turn = found["color"].lower() == "white"
    return None


def _pass(board: chess.Board, found: re.Match[str]) -> BadChange | None:
    if board.turn == chess.BLACK:
        board.fullmove_number += 1
    board.turn = not board.turn
    return None


def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(text, re.IGNORECASE)


_CHANGES: list[tuple[re.Pattern[str], Callable[[chess.Board, re.Match[str]], BadChange | None]]] = [
    (
        _pattern(
            rf"remove (?:(?:the |a )?(?:(?P<color>white|black) )?(?P<man>{_NAMES}) (?:on |from )?)?"
            r"(?P<square>[a-h][1-8])"
        ),
        _remove,
    ),
    (
        _pattern(rf"(?:a |the )?(?P<color>white|black) (?P<man>{_NAMES}) (?:on |to )?(?P<square>[a-h][1-8])"),
        _put,
    ),
    (_pattern(r"(?P<square>[a-h][1-8])(?: to |\s?-\s?)(?P<to>[a-h][1-8])"), _lift),
    (_pattern(r"(?P<color>white|black) to move"), _turn),
    (_pattern(r"pass"), _pass),
]
