"""The phrases an ear listens for: every legal move in the wordings that are understood, and commands.

A phrase is a row of slots, and a slot holds the ways to say one piece of it, "" where it may be left out. The
same phrases make the grammar for a recogniser (`spoken_grammar.py`), tell which string is a whole phrase of
ours and what it means, and list what can be said. English only: so is the recogniser's model.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import chess

from player.wording.languages import Language
from player.wording.languages import language as language_of
from player.wording.match import retaken, taken_square

Naming = Literal["letters", "fide", "alphabet"]
Slot = tuple[str, ...]

NAMINGS: tuple[Naming, ...] = ("letters", "fide", "alphabet")


@dataclass(frozen=True, slots=True)
class Phrase:
    """One wording of one meaning. `meaning` is a UCI move or a command's name; `weight` its likelihood."""

    meaning: str
    slots: tuple[Slot, ...]
    weight: float = 1.0


def move_phrases(
    board: chess.Board,
    *,
    moves: Iterable[chess.Move] | None = None,
    namings: Sequence[Naming] = NAMINGS,
    likely: Mapping[str, float] | None = None,
) -> list[Phrase]:
    """The phrases of the legal moves, or of these among them. `likely` has weights by UCI, 1 being usual.

    A phrase that fits several moves ("knight d2" where two knights go there) stands under each of them.
    """
    words = _Words(language_of("en"), tuple(namings))
    legal = list(board.legal_moves)
    out: list[Phrase] = []
    for move in legal if moves is None else moves:
        weight = (likely or {}).get(move.uci(), 1.0)
        rows = (
            list(_castling(board, move))
            if board.is_castling(move)
            else list(_rows(board, move, legal, words))
        )
        tail = _tail(board, move)
        out += [Phrase(move.uci(), (*row, *tail), weight * share) for row, share in rows]
    return out


def command_phrases(commands: Mapping[str, Sequence[str]], weight: float = 1.0) -> list[Phrase]:
    """The phrases of commands: by name, the ways to say each."""
    return [
        Phrase(name, tuple((word,) for word in said.split()), weight)
        for name, ways in commands.items()
        for said in ways
        if said and all(word.isalpha() for word in said.split())
    ]


def choice_phrases(board: chess.Board, first: str, second: str) -> list[Phrase]:
    """What settles "did you mean A or B?" between two meanings: either of them in full, its square by names
    that cannot be confused, what only it has (man, file, rank), "the first", "the second", "neither".
    """
    out: list[Phrase] = []
    pair = (first, second)
    moves = [_move(board, meaning) for meaning in pair]
    for meaning, move, other, place in zip(pair, moves, reversed(moves), ("first", "second"), strict=True):
        out.append(Phrase(meaning, (("the", ""), (place,), ("one", "")), 2.0))
        if move is None:
            out.append(Phrase(meaning, tuple((word,) for word in meaning.split())))
            continue
        out += move_phrases(board, moves=[move])
        out += [Phrase(meaning, row, 2.0) for row in _parting(board, move, other)]
    out += command_phrases({"no": ("neither", "no", "none of them")})
    return out


class _Words:
    """The words of squares and men in the namings listened for."""

    def __init__(self, words: Language, namings: tuple[Naming, ...]) -> None:
        self._words = words
        letters = ("ay", "b", "c", "d", "e", "f", "g", "h")
        names = {naming: words.files[naming] for naming in namings if naming != "letters"}
        self._files = [
            (*((letters[n],) if "letters" in namings else ()), *(row[n].casefold() for row in names.values()))
            for n in range(8)
        ]

    def file(self, index: int) -> Slot:
        return self._files[index]

    def rank(self, index: int) -> Slot:
        return (self._words.ranks[index],)

    def square(self, square: chess.Square) -> tuple[Slot, Slot]:
        return self.file(square & 7), self.rank(square >> 3)

    def man(self, kind: chess.PieceType) -> str:
        return self._words.pieces[kind]


_Row = tuple[tuple[Slot, ...], float]


def _rows(board: chess.Board, move: chess.Move, legal: Sequence[chess.Move], words: _Words) -> Iterable[_Row]:
    """The wordings of a move but for castling, each with its share of likelihood."""
    kind = board.piece_type_at(move.from_square) or chess.PAWN
    whence, where = words.square(move.from_square), words.square(move.to_square)
    takes = board.is_capture(move)
    man: Slot = (words.man(kind),)
    to: Slot = ("takes", "takes on", "captures", "take", "") if takes else ("to", "", "goes to", "moves to")
    the: Slot = ("", "the")
    victims = _victims(board, move, words)
    arrivals: list[tuple[Slot, ...]] = [(to, *where)]
    if takes:
        arrivals.append((("takes", "captures", "take"), ("", "the"), victims, ("on",), *where))
    promoted = (_promotion(move.promotion, words),) if move.promotion else ()
    rivals = [
        one for one in legal
        if one.to_square == move.to_square and one.from_square != move.from_square
        and board.piece_type_at(one.from_square) == kind
    ]  # fmt: skip
    from_: Slot = ("from", "on")
    for arrival in arrivals:
        if kind == chess.PAWN:
            yield (the, man, *arrival, *promoted), 1.0
            if takes:
                yield (the, whence[0], man, *arrival, *promoted), 1.0
                yield (whence[0], *arrival, *promoted), 1.0
        else:
            yield (the, man, *arrival), 0.4 if rivals else 1.0
        yield (the, man, from_, *whence, *arrival, *promoted), 0.5
        if kind != chess.PAWN:
            yield (the, man, *whence, *arrival), 0.2
        if rivals:
            if any(one.from_square & 7 != move.from_square & 7 for one in rivals):
                yield (the, man, ("", "from", "on"), whence[0], *arrival), 1.0
            if any(one.from_square >> 3 != move.from_square >> 3 for one in rivals):
                yield (the, man, ("", "from", "on"), whence[1], *arrival), 0.7
    if kind == chess.PAWN and not takes:
        yield (*where, *promoted), 2.0
    yield (*whence, to, *where, *promoted), 0.3
    if takes:
        yield (("takes", "take"), ("", "on"), *where, *promoted), 0.2
        if not move.promotion:
            yield (the, man, ("takes", "captures"), ("", "the"), victims), 0.2
    if takes and move.to_square == retaken(board):
        yield (("recapture", "take back", "recaptures"),), 0.3
        yield (the, man, ("recaptures", "takes back")), 0.3


def _victims(board: chess.Board, move: chess.Move, words: _Words) -> Slot:
    kind = board.piece_type_at(taken_square(board, move)) if board.is_capture(move) else None
    return (words.man(kind),) if kind else ()


def _promotion(kind: chess.PieceType, words: _Words) -> Slot:
    man = words.man(kind)
    return (
        man, f"promoting to {man}", f"promotes to {man}", f"promoting to a {man}",
        f"becomes a {man}", f"equals {man}",
    )  # fmt: skip


def _castling(board: chess.Board, move: chess.Move) -> Iterable[_Row]:
    sides: Slot = ("kingside", "short") if board.is_kingside_castling(move) else ("queenside", "long")
    yield (("castles", "castle", "castling"), sides), 1.0
    yield (sides, ("castle", "castles", "castling")), 0.5
    yield (("castles", "castle"),), 0.3


def _tail(board: chess.Board, move: chess.Move) -> tuple[Slot, ...]:
    passant: tuple[Slot, ...] = (("", "en passant"),) if board.is_en_passant(move) else ()
    if not board.gives_check(move):
        return passant
    after = board.copy(stack=False)
    after.push(move)
    return (*passant, ("checkmate", "", "mate", "check") if after.is_checkmate() else ("check", ""))


def _parting(board: chess.Board, move: chess.Move, other: chess.Move | None) -> Iterable[tuple[Slot, ...]]:
    """One word, or a square, that only this move of the two has."""
    words = _Words(language_of("en"), ("fide", "alphabet", "letters"))
    kind, where = board.piece_type_at(move.from_square), move.to_square
    if other is None or kind != board.piece_type_at(other.from_square):
        yield (("", "the"), (words.man(kind or chess.PAWN),))
    squares = [(where, None if other is None else other.to_square)]
    squares.append((move.from_square, None if other is None else other.from_square))
    for ours, theirs in squares:
        if theirs == ours:
            continue
        yield words.square(ours)
        if theirs is None or theirs & 7 != ours & 7:
            yield (words.file(ours & 7),)
        if theirs is None or theirs >> 3 != ours >> 3:
            yield (words.rank(ours >> 3),)
    if move.promotion and other is not None and other.promotion != move.promotion:
        yield (("", "a"), (words.man(move.promotion),))
    if board.is_castling(move):
        yield (("kingside", "short") if board.is_kingside_castling(move) else ("queenside", "long"),)


def _move(board: chess.Board, meaning: str) -> chess.Move | None:
    return next((move for move in board.legal_moves if move.uci() == meaning), None)
