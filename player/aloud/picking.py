"""Picking by taps alone: a move by its man, a square by file and rank, a number. Data only."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import groupby

import chess

from player.stage.inputs import Did, Typed
from player.wording.languages import language
from player.wording.names import colour_name, name, with_article
from player.wording.say import Naming, square_said

Deed = Did | Typed
Items = tuple["Item", ...]

_TEN = 10
_MOST = 40


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that is offered in words: it does something, or leads to further items.

    `stays` leaves a lesson that was going on held.
    """

    words: str
    deeds: tuple[Deed, ...] = ()
    leads: Callable[[], Items] | None = None
    stays: bool = False


Act = Callable[[str], Deed]


def moves(board: chess.Board, act: Act, naming: Naming = "letters") -> Items:
    """The legal moves: a kind of man, then which one, then where to; what leaves no choice is passed over."""
    legal = sorted(board.legal_moves, key=lambda move: (_kind(board, move.from_square), move.from_square))
    grouped = groupby(legal, key=lambda move: _kind(board, move.from_square))
    kinds = [(kind, tuple(group)) for kind, group in grouped]
    if len(legal) == 1:
        return tuple(_move(board, move, act, naming, whole=True) for move in legal)
    return tuple(_of_kind(board, kind, of, act, naming) for kind, of in kinds)


def _kind(board: chess.Board, square: chess.Square) -> int:
    return board.piece_type_at(square) or chess.PAWN


def _of_kind(
    board: chess.Board, kind: chess.PieceType, legal: tuple[chess.Move, ...], act: Act, naming: Naming
) -> Item:
    men = [(square, tuple(of)) for square, of in groupby(legal, key=lambda move: move.from_square)]
    if len(men) == 1:
        return _of_man(board, men[0][0], men[0][1], act, naming)
    return Item(
        f"{_capital(with_article(kind))}, one of {len(men)} that can move",
        leads=lambda: tuple(_of_man(board, square, of, act, naming) for square, of in men),
    )


def _of_man(
    board: chess.Board, square: chess.Square, legal: tuple[chess.Move, ...], act: Act, naming: Naming
) -> Item:
    if len(legal) == 1:
        return _move(board, legal[0], act, naming, whole=True)
    words = f"The {name(_kind(board, square))} on {said(square, naming)}, {len(legal)} moves"
    return Item(words, leads=lambda: tuple(_move(board, one, act, naming, whole=False) for one in legal))


def _move(board: chess.Board, move: chess.Move, act: Act, naming: Naming, *, whole: bool) -> Item:
    deeds = (act(move.uci()),)
    man = f"The {name(_kind(board, move.from_square))} on {said(move.from_square, naming)} " if whole else ""
    if board.is_castling(move):
        return Item(f"Castle {'kingside' if board.is_kingside_castling(move) else 'queenside'}", deeds)
    victim = chess.PAWN if board.is_en_passant(move) else board.piece_type_at(move.to_square)
    does = f"takes the {name(victim)} on " if victim else "to "
    becomes = f", becoming {with_article(move.promotion)}" if move.promotion else ""
    return Item(_capital(f"{man}{does}{said(move.to_square, naming)}{becomes}"), deeds)


def squares(then: Callable[[str], Item], naming: Naming = "letters") -> Items:
    """Every square: the file, then the rank."""
    return tuple(_file(file, then, naming) for file in range(8))


def _file(file: int, then: Callable[[str], Item], naming: Naming) -> Item:
    named = said(chess.square(file, 0), naming).rpartition(" ")[0] or chess.FILE_NAMES[file]
    return Item(
        f"On the {named}-file",
        leads=lambda: tuple(then(chess.square_name(chess.square(file, rank))) for rank in range(8)),
    )


def some_squares(act: Act, naming: Naming = "letters", before: tuple[str, ...] = ()) -> Items:
    """One square or more: after each, whether that is all."""

    def then(square: str) -> Item:
        picked = (*before, square)
        spoken = said(chess.parse_square(square), naming)
        return Item(
            _capital(spoken),
            leads=lambda: (
                Item(f"That is all: {' and '.join(picked)}", (act(" ".join(picked)),)),
                Item("And another square", leads=lambda: some_squares(act, naming, picked)),
            ),
        )

    return squares(then, naming)


def men(board: chess.Board, act: Act, naming: Naming = "letters") -> Items:
    """Every man on the board by its square: a side, then the man; `act` gets the square's name."""

    def of(colour: chess.Color) -> Items:
        found = [(square, piece) for square, piece in board.piece_map().items() if piece.color == colour]
        found.sort(key=lambda one: (-one[1].piece_type, one[0]))
        return tuple(
            Item(f"The {name(piece.piece_type)} on {said(square, naming)}", (act(chess.square_name(square)),))
            for square, piece in found
        )

    sides = [side for side in (board.turn, not board.turn) if board.occupied_co[side]]
    return tuple(Item(f"A man of {colour_name(side)}'s", leads=lambda side=side: of(side)) for side in sides)  # type: ignore[misc]


def numbers(act: Act) -> Items:
    """Numbers from none to ten, and on."""

    def of(wanted: Iterable[int]) -> Items:
        return tuple(Item(str(number) if number else "None", (act(str(number)),)) for number in wanted)

    return (*of(range(_TEN + 1)), Item("More than ten", leads=lambda: of(range(_TEN + 1, _MOST + 1))))


def said(square: chess.Square, naming: Naming) -> str:
    """A square as it is said."""
    return square_said(square, "short", naming, language("en"))


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
