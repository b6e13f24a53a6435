"""Illegal answers with their reasons, the truth worked out with python-chess alone."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass

import chess

from tests.wording.positions import positions

_LETTERS = "?PNBRQK"


@dataclass(frozen=True)
class Case:
    """One illegal answer and the reason that must be given."""

    reason: str
    board: chess.Board
    said: str
    squares: tuple[str, ...] = ()


def cases(number: int, seed: int = 7) -> list[Case]:
    """About this many cases, the kinds in turn."""
    source = random.Random(seed)
    makers = (
        _no_such, _not_your_turn, _own, _blocked, _wrong, _pinned, _king_in_check, _no_capture, _promote,
        _off, _castling,
    )  # fmt: skip
    out: list[Case] = []
    boards = positions(max(40, number // 5), seed)
    for at in range(number * 20):
        found = list(makers[at % len(makers)](source.choice(boards), source))
        if found:
            out.append(source.choice(found))
        if len(out) == number:
            break
    return out


def _name(board: chess.Board, square: chess.Square) -> str:
    return chess.piece_name(board.piece_type_at(square) or 0)


def _theirs(board: chess.Board) -> chess.Board:
    other = board.copy(stack=False)
    other.push(chess.Move.null())
    return other


def _explicit(board: chess.Board, origin: int, target: int, source: random.Random) -> str:
    a, b = chess.square_name(origin), chess.square_name(target)
    kind = board.piece_type_at(origin) or 0
    letter = "" if kind == chess.PAWN else _LETTERS[kind]
    forms = (
        f"{letter}{a}{b}",
        f"{letter}{a}-{b}",
        f"{_name(board, origin)} from {a} to {b}",
        f"{_name(board, origin)} {a} to {b}",
    )
    return source.choice(forms if kind != chess.PAWN or target >> 3 not in (0, 7) else forms[:2])


def _shape(board: chess.Board, origin: int) -> chess.SquareSet:
    """Where the man on `origin` could go on an empty board, a pawn straight ahead and aslant."""
    piece = board.piece_at(origin)
    assert piece is not None
    empty = chess.Board(None)
    empty.set_piece_at(origin, piece)
    out = empty.attacks(origin)
    if piece.piece_type == chess.PAWN:
        step = 8 if piece.color else -8
        out.add(origin + step)
        if origin >> 3 == (1 if piece.color else 6):
            out.add(origin + 2 * step)
    return out


def _no_such(board: chess.Board, source: random.Random) -> Iterator[Case]:
    other = None if board.is_check() else _theirs(board)
    for kind in (chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.QUEEN):
        if not board.pieces(kind, board.turn):
            target = source.choice([s for s in chess.SQUARES if board.piece_at(s) is None])
            if other and any(
                m.to_square == target and other.piece_type_at(m.from_square) == kind
                for m in other.legal_moves
            ):
                continue
            name = chess.square_name(target)
            yield Case(
                "no-such-piece",
                board,
                source.choice((f"{_LETTERS[kind]}{name}", f"{chess.piece_name(kind)} to {name}")),
            )
    square = source.choice([s for s in chess.SQUARES if board.piece_at(s) is None])
    target = source.choice([s for s in chess.SQUARES if s != square])
    yield Case("no-such-piece", board, f"{chess.square_name(square)}{chess.square_name(target)}")


def _not_your_turn(board: chess.Board, source: random.Random) -> Iterator[Case]:
    if board.is_check():
        return
    other = _theirs(board)
    for move in other.legal_moves:
        if move.promotion is None:
            yield Case("not-your-turn", board, _explicit(other, move.from_square, move.to_square, source))


def _own(board: chess.Board, source: random.Random) -> Iterator[Case]:
    for origin in chess.SquareSet(board.occupied_co[board.turn]):
        kind = board.piece_type_at(origin)
        for target in board.attacks(origin) & chess.SquareSet(board.occupied_co[board.turn]):
            if kind != chess.PAWN:
                where = (chess.square_name(target),)
                name = chess.square_name(target)
                said = source.choice(
                    (f"{_LETTERS[kind or 0]}{name}", f"{chess.piece_name(kind or 0)} to {name}")
                )
                yield Case("own-piece", board, said, where)


def _blocked(board: chess.Board, source: random.Random) -> Iterator[Case]:
    for origin in chess.SquareSet(board.occupied_co[board.turn]):
        for target in _shape(board, origin) - board.attacks(origin):
            there = board.color_at(target)
            pawn = board.piece_type_at(origin) == chess.PAWN
            if there == board.turn or (pawn and target >> 3 in (0, 7)):
                continue
            way = list(chess.SquareSet(chess.between(origin, target))) + ([target] if pawn else [])
            men = [s for s in way if board.piece_at(s)]
            if men and (not pawn or origin & 7 == target & 7):
                yield Case("blocked", board, _explicit(board, origin, target, source))


def _wrong(board: chess.Board, source: random.Random) -> Iterator[Case]:
    for origin in chess.SquareSet(board.occupied_co[board.turn]):
        kind = board.piece_type_at(origin)
        for target in chess.SquareSet(~(int(_shape(board, origin)) | board.occupied_co[board.turn])):
            if kind == chess.PAWN and (target >> 3 in (0, 7) or target & 7 != origin & 7):
                continue
            if kind == chess.KING and abs(origin - target) == 2:
                continue
            yield Case("wrong-movement", board, _explicit(board, origin, target, source))


def _pinned(board: chess.Board, source: random.Random) -> Iterator[Case]:
    """A man of ours put between our king and a slider of theirs, on a board with few others."""
    king, slider = source.choice(chess.SQUARES), source.choice(chess.SQUARES)
    way = list(chess.SquareSet(chess.between(king, slider)))
    if not way:
        return
    straight = king & 7 == slider & 7 or king >> 3 == slider >> 3
    colour = source.random() < 0.5
    made = chess.Board(None)
    made.turn = colour
    made.set_piece_at(king, chess.Piece(chess.KING, colour))
    pinner = source.choice((chess.QUEEN, chess.ROOK if straight else chess.BISHOP))
    made.set_piece_at(slider, chess.Piece(pinner, not colour))
    kind = source.choice((chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.QUEEN))
    made.set_piece_at(source.choice(way), chess.Piece(kind, colour))
    other = source.choice([s for s in chess.SQUARES if made.piece_at(s) is None])
    made.set_piece_at(other, chess.Piece(chess.KING, not colour))
    if not made.is_valid() or made.is_check():
        return
    for move in made.pseudo_legal_moves:
        if made.is_pinned(colour, move.from_square) and not made.is_legal(move):
            said = f"{_LETTERS[kind]}{chess.square_name(move.to_square)}"
            spoken = f"{chess.piece_name(kind)} to {chess.square_name(move.to_square)}"
            yield Case("pinned", made, source.choice((said, spoken)), (chess.square_name(move.from_square),))


def _king_in_check(board: chess.Board, source: random.Random) -> Iterator[Case]:
    king = board.king(board.turn)
    for move in board.pseudo_legal_moves:
        if board.is_legal(move) or board.is_castling(move) or move.promotion:
            continue
        if move.from_square == king or (
            board.is_check() and not board.is_pinned(board.turn, move.from_square)
        ):
            yield Case(
                "leaves-king-in-check", board, _explicit(board, move.from_square, move.to_square, source)
            )


def _no_capture(board: chess.Board, source: random.Random) -> Iterator[Case]:
    for move in board.legal_moves:
        kind = board.piece_type_at(move.from_square)
        if board.is_capture(move) or board.is_castling(move) or kind == chess.PAWN:
            continue
        a, b = chess.square_name(move.from_square), chess.square_name(move.to_square)
        said = source.choice(
            (f"{_LETTERS[kind or 0]}{a}x{b}", f"{chess.piece_name(kind or 0)} on {a} takes {b}")
        )
        yield Case("no-capture-there", board, said, (b,))


def _promote(board: chess.Board, source: random.Random) -> Iterator[Case]:
    made = chess.Board("7k/PPPP4/8/8/8/8/8/K7 w - - 0 1")
    made = source.choice((made, made.mirror()))
    for move in made.legal_moves:
        if move.promotion == chess.QUEEN:
            yield Case("must-promote", made, f"{move.uci()[:4]}{source.choice(('=K', 'k', '=P', '(K)'))}")


def _off(board: chess.Board, source: random.Random) -> Iterator[Case]:
    square = source.choice(("i4", "d9", "j1", "a0", "h9", "s5"))
    yield Case(
        "off-board",
        board,
        source.choice((square, f"N{square}", f"knight to {square}", f"the rook takes {square}")),
    )


def _castling(board: chess.Board, source: random.Random) -> Iterator[Case]:
    """The same men as in the position, but for the castling ranks: built so that exactly one thing is
    wrong.
    """
    mine = chess.Board("4k3/p6p/8/8/8/8/P6P/R3K2R w KQ - 0 1")
    short = source.random() < 0.5
    said = source.choice(
        ("O-O", "0-0", "castle kingside", "castles short")
        if short
        else ("O-O-O", "castle queenside", "castle long")
    )
    crossed, target = (chess.F1, chess.G1) if short else (chess.D1, chess.C1)
    rook = chess.Piece(chess.ROOK, chess.BLACK)

    def with_men(men: dict[int, chess.Piece], rights: str = "KQ") -> chess.Board:
        made = mine.copy()
        for square, piece in men.items():
            made.set_piece_at(square, piece)
        made.set_castling_fen(rights)
        return made if source.random() < 0.5 else made.mirror()

    at = source.choice((chess.D1, chess.C1, chess.B1)) if not short else source.choice((chess.F1, chess.G1))
    yield Case("no-castling-right", with_men({}, "Q" if short else "K"), said)
    yield Case("castling-out-of-check", with_men({chess.E5: rook}), said)
    yield Case("castling-through-check", with_men({crossed + 32: rook}), said)
    yield Case("leaves-king-in-check", with_men({target + 32: rook}), said)
    yield Case("blocked", with_men({at: chess.Piece(chess.KNIGHT, chess.WHITE)}), said)
