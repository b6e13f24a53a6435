"""Positions of many sorts, the same ones for the same seed."""

from __future__ import annotations

import random
from collections.abc import Iterator

import chess

KINDS = (
    "game",
    "sparse",
    "ending",
    "tactics",
    "castling",
    "en passant",
    "promotion",
    "pawns",
    "kpk",
    "lines",
    "corner",
)


def positions(seed: int, count: int) -> Iterator[tuple[chess.Board, chess.Move | None]]:
    """`count` legal positions that go on, each with the move that led there where one did."""
    rng = random.Random(seed)
    made = 0
    while made < count:
        found = position(rng, KINDS[made % len(KINDS)])
        if found is None:
            continue
        made += 1
        yield found


def position(rng: random.Random, kind: str) -> tuple[chess.Board, chess.Move | None] | None:
    """A position of that kind, or nothing when the draw was no legal position."""
    if kind == "game":
        return _played(rng, chess.Board(), rng.randrange(4, 120))
    if kind == "castling":
        board = chess.Board("r3k2r/pppq1ppp/2npbn2/2b1p3/2B1P3/2NPBN2/PPPQ1PPP/R3K2R w KQkq - 0 1")
        return _played(rng, board, rng.randrange(0, 12))
    if kind == "en passant":
        return _double_step(rng)
    if kind == "lines":
        return _lined(rng), None
    drawn = _drawn(rng, kind)
    if drawn is None:
        return None
    return _played(rng, drawn, rng.randrange(0, 3))


def _played(rng: random.Random, board: chess.Board, plies: int) -> tuple[chess.Board, chess.Move | None]:
    last = None
    for _ in range(plies):
        moves = list(board.legal_moves)
        if not moves:
            break
        takes = [move for move in moves if board.is_capture(move)]
        last = rng.choice(takes if takes and rng.random() < 0.25 else moves)
        board.push(last)
    return board, last


MEN = {
    "sparse": ("QRBNPqrbnp", 2, 9),
    "ending": ("RBNPPPrbnppp", 1, 7),
    "tactics": ("QRRBBNNqrrbbnn", 5, 12),
    "promotion": ("PPPPppppRr", 2, 6),
    "pawns": ("PPPPPPPpppppppBbNn", 6, 16),
    "kpk": ("Pp", 1, 1),
    "corner": ("QRQRQRBNp", 1, 3),
}


def _drawn(rng: random.Random, kind: str) -> chess.Board | None:
    letters, least, most = MEN[kind]
    board = chess.Board(None)
    squares = list(chess.SQUARES)
    rng.shuffle(squares)
    if kind == "pawns" and rng.random() < 0.3:  # kings face to face, for the opposition
        middle = rng.choice([s for s in chess.SQUARES if 1 <= s % 8 <= 6 and 1 <= s // 8 <= 6])
        gap = rng.choice([1, 8])
        squares = [middle - gap, middle + gap] + [
            s for s in squares if s not in (middle - gap, middle, middle + gap)
        ]
        letters = "PPpp"
    if kind == "corner":  # the lone king in or by a corner, with mates and stalemates about
        corner = rng.choice([0, 1, 7, 8, 56, 62, 63])
        near = [square for square in squares if chess.square_distance(square, corner) == 2]
        squares = [corner, near[0]] + [square for square in squares if square not in (corner, near[0])]
        letters = letters if rng.random() < 0.7 else letters + "Pp"
    # The lone king comes first where it is to have the corner.
    kings = ["k", "K"] if kind == "corner" else ["K", "k"]
    men = kings + [rng.choice(letters) for _ in range(rng.randint(least, most))]
    for letter in men:
        for at, square in enumerate(squares):
            if letter in "Pp" and square // 8 in (0, 7):
                continue
            if (
                letter in "Pp"
                and kind == "promotion"
                and square // 8 not in ((5, 6) if letter == "P" else (1, 2))
            ):
                continue
            board.set_piece_at(square, chess.Piece.from_symbol(letter))
            squares.pop(at)
            break
    board.turn = rng.random() < 0.5
    if not board.is_valid() and rng.random() < 0.9:
        board.turn = not board.turn
    return board if board.is_valid() else None


def _lined(rng: random.Random) -> chess.Board:
    """A slider with two or three men on its line, and a few more: pins, skewers and discoveries."""
    while True:
        board = chess.Board(None)
        square = rng.randrange(64)
        straight = rng.random() < 0.5
        steps = [(1, 0), (-1, 0), (0, 1), (0, -1)] if straight else [(1, 1), (1, -1), (-1, 1), (-1, -1)]
        file_step, rank_step = rng.choice(steps)
        line = [
            chess.square(square % 8 + file_step * n, square // 8 + rank_step * n)
            for n in range(8)
            if 0 <= square % 8 + file_step * n < 8 and 0 <= square // 8 + rank_step * n < 8
        ]
        side = rng.random() < 0.5
        chosen = sorted(rng.sample(range(len(line)), min(3, len(line))))
        letters = [rng.choice("RQ" if straight else "BQ"), rng.choice("NNBRQPnbrqp"), rng.choice("kkkqrbn")]
        for at, letter in zip(chosen, letters, strict=False):
            if not (letter in "Pp" and line[at] // 8 in (0, 7)):
                board.set_piece_at(line[at], chess.Piece.from_symbol(letter if side else letter.swapcase()))
        free = [one for one in chess.SQUARES if board.piece_at(one) is None and one // 8 not in (0, 7)]
        rng.shuffle(free)
        kings = [letter for letter in "Kk" if board.king(letter == "K") is None]
        for letter in kings + [rng.choice("QRBNPPqrbnpp") for _ in range(rng.randint(0, 5))]:
            board.set_piece_at(free.pop(), chess.Piece.from_symbol(letter))
        for turn in (side, not side):
            board.turn = turn
            if board.is_valid():
                return board


def _double_step(rng: random.Random) -> tuple[chess.Board, chess.Move | None] | None:
    """A pawn that has just gone two squares past an enemy pawn."""
    board = chess.Board(None)
    file = rng.randrange(8)
    beside = rng.choice([f for f in (file - 1, file + 1) if 0 <= f < 8])
    board.set_piece_at(chess.square(file, 1), chess.Piece(chess.PAWN, chess.WHITE))
    board.set_piece_at(chess.square(beside, 3), chess.Piece(chess.PAWN, chess.BLACK))
    kept = {chess.square(file, 2), chess.square(file, 3)}
    free = [s for s in chess.SQUARES if board.piece_at(s) is None and s not in kept]
    rng.shuffle(free)
    for letter in "Kk" + "".join(rng.choice("QRBNqrbnPp") for _ in range(rng.randint(0, 6))):
        square = next(s for s in free if letter not in "Pp" or s // 8 not in (0, 7))
        free.remove(square)
        board.set_piece_at(square, chess.Piece.from_symbol(letter))
    step = chess.Move(chess.square(file, 1), chess.square(file, 3))
    if not board.is_valid() or not board.is_legal(step):
        return None
    if rng.random() < 0.5:
        board = board.mirror()
        step = chess.Move(step.from_square ^ 56, step.to_square ^ 56)
    board.push(step)
    return board, step
