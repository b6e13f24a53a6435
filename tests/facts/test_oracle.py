"""Geometric claims against a slow reading of their definitions, square by square, over random positions."""

from __future__ import annotations

import chess
import pytest

from tests.facts.claimed import holds, some_boards

BOARDS = some_boards(120)
STEPS = {
    chess.ROOK: [(0, 1), (0, -1), (1, 0), (-1, 0)],
    chess.BISHOP: [(1, 1), (1, -1), (-1, 1), (-1, -1)],
}
STEPS[chess.QUEEN] = STEPS[chess.ROOK] + STEPS[chess.BISHOP]


def at(board: chess.Board, file: int, rank: int) -> chess.Piece | None:
    return board.piece_at(chess.square(file, rank))


def hits(board: chess.Board, origin: int, target: int) -> bool:
    """Whether the man on `origin` attacks `target`, walked out step by step."""
    piece = board.piece_at(origin)
    assert piece is not None
    file, rank = origin % 8, origin // 8
    to_file, to_rank = target % 8 - file, target // 8 - rank
    if piece.piece_type == chess.KNIGHT:
        return sorted((abs(to_file), abs(to_rank))) == [1, 2]
    if piece.piece_type == chess.KING:
        return max(abs(to_file), abs(to_rank)) == 1
    if piece.piece_type == chess.PAWN:
        return abs(to_file) == 1 and to_rank == (1 if piece.color else -1)
    for step_file, step_rank in STEPS[piece.piece_type]:
        there = (file + step_file, rank + step_rank)
        while 0 <= there[0] <= 7 and 0 <= there[1] <= 7:
            if chess.square(*there) == target:
                return True
            if at(board, *there):
                break
            there = (there[0] + step_file, there[1] + step_rank)
    return False


def hitters(board: chess.Board, colour: bool, target: int) -> int:
    return sum(
        hits(board, square, target) for square, man in board.piece_map().items() if man.color == colour
    )


def side(colour: bool) -> str:
    return "White" if colour else "Black"


@pytest.mark.parametrize("number", range(0, 120, 2))
def test_attacks_and_guards(number: int) -> None:
    board = BOARDS[number]
    for square in range(number % 4, 64, 4):
        name, man = chess.square_name(square), board.piece_at(square)
        for colour in (True, False):
            count = hitters(board, colour, square)
            assert holds(board, f"{side(colour)} attacks {name} {count} times")
            assert not holds(board, f"{side(colour)} attacks {name} {count + 1} times")
        if man is not None:
            said = f"the {chess.piece_name(man.piece_type)} on {name}"
            guards = hitters(board, man.color, square)
            assert holds(board, f"{said} is guarded {guards} times")
            assert holds(board, f"{said} is undefended") == (guards == 0)
            assert holds(board, f"{said} is attacked") == (hitters(board, not man.color, square) > 0)


def pawns(board: chess.Board, colour: bool) -> list[tuple[int, int]]:
    """File and rank of each pawn, ranks counted from its own side."""
    squares = board.pieces(chess.PAWN, colour)
    return [(square % 8, square // 8 if colour else 7 - square // 8) for square in squares]


@pytest.mark.parametrize("number", range(120))
def test_pawns_and_outposts(number: int) -> None:
    board = BOARDS[number]
    for colour in (True, False):
        own = pawns(board, colour)
        # The other side's pawns, with ranks counted from this side.
        other = [(file, 7 - rank) for file, rank in pawns(board, not colour)]
        for file, rank in own:
            name = chess.square_name(chess.square(file, rank if colour else 7 - rank))
            beside = [r for f, r in own if abs(f - file) == 1]
            passed = not any(abs(f - file) <= 1 and r > rank for f, r in other)
            ahead = chess.square(file, rank + 1 if colour else 6 - rank)
            hit = any(abs(f - file) == 1 and r == rank + 2 for f, r in other)
            backward = (
                bool(beside)
                and all(r > rank for r in beside)
                and board.piece_at(ahead) is None
                and hit
                and not any(f == file and r > rank for f, r in other)
            )
            said = f"the pawn on {name}"
            assert holds(board, f"{said} is passed") == passed
            assert holds(board, f"{said} is isolated") == (not beside)
            assert holds(board, f"{said} is doubled") == (sum(f == file for f, _ in own) > 1)
            assert holds(board, f"{said} is backward") == backward
        for square in range(64):
            file, rank = square % 8, square // 8 if colour else 7 - square // 8
            guarded = any(abs(f - file) == 1 and r == rank - 1 for f, r in own)
            safe = not any(abs(f - file) == 1 and r > rank for f, r in other)
            said = f"{chess.square_name(square)} is an outpost for {side(colour)}"
            if (guarded and safe) or square % 9 == 0:
                assert holds(board, said) == (rank in (3, 4, 5) and guarded and safe)


@pytest.mark.parametrize("number", range(0, 120, 3))
def test_files_and_lines(number: int) -> None:
    board = BOARDS[number]
    for file in range(8):
        count = {colour: sum(f == file for f, _ in pawns(board, colour)) for colour in (True, False)}
        said = f"the {'abcdefgh'[file]}-file is"
        assert holds(board, f"{said} open") == (not count[True] and not count[False])
        assert holds(board, f"{said} closed") == bool(count[True] and count[False])
        for colour in (True, False):
            half = not count[colour] and bool(count[not colour])
            assert holds(board, f"{said} half-open for {side(colour)}") == half
    for first in range(number % 5, 64, 5):
        for second in range(0, 64, 3):
            over_files, over_ranks = second % 8 - first % 8, second // 8 - first // 8
            length = max(abs(over_files), abs(over_ranks))
            line = length > 0 and {abs(over_files), abs(over_ranks)} <= {0, length}
            between = [
                at(board, first % 8 + over_files // length * n, first // 8 + over_ranks // length * n)
                for n in range(1, length)
                if line
            ]
            said = f"{chess.square_name(first)}-{chess.square_name(second)} is"
            assert holds(board, f"{said} open") == (line and not any(between))
            assert holds(board, f"{said} closed") == (line and any(man is not None for man in between))


@pytest.mark.parametrize("number", range(120))
def test_material(number: int) -> None:
    board = BOARDS[number]
    letters = board.board_fen()
    more = {man: letters.count(man.upper()) - letters.count(man) for man in "pnbrq"}
    level = not more["p"] and not more["r"] and not more["q"] and more["n"] + more["b"] == 0
    assert holds(board, "material is equal") == level
    minors = more["n"] + more["b"]
    for pawns_up in range(-2, 3):
        if pawns_up:
            said = f"{side(pawns_up > 0)} is up {abs(pawns_up)} pawns"
            only = more["p"] == pawns_up and not minors and not more["r"] and not more["q"]
            assert holds(board, said) == only
    exchange = (more["p"], minors, more["r"], more["q"]) == (0, -1, 1, 0)
    assert holds(board, "White is up the exchange") == exchange


@pytest.mark.parametrize("number", range(0, 120, 2))
def test_pins_to_the_king(number: int) -> None:
    board = BOARDS[number]
    for square, man in board.piece_map().items():
        king = board.king(man.color)
        if man.piece_type == chess.KING or king is None:
            continue
        said = f"the {chess.piece_name(man.piece_type)} on {chess.square_name(square)} is pinned"
        to_king = holds(board, f"{said} to {chess.square_name(king)}")
        assert to_king == board.is_pinned(man.color, square)
        if to_king:
            assert holds(board, said)


@pytest.mark.parametrize("number", range(0, 120, 2))
def test_what_moves_are(number: int) -> None:
    board = BOARDS[number]
    board = chess.Board(board.fen())
    legal = list(board.legal_moves)
    assert holds(board, f"{side(board.turn)} has {len(legal)} legal moves")
    assert not holds(board, f"{side(not board.turn)} has {len(legal)} legal moves")
    for move in legal[:12]:
        san = board.san(move)
        after = board.copy()
        after.push(move)
        assert holds(board, f"{san} is legal")
        assert holds(board, f"{san} is check") == after.is_check()
        assert holds(board, f"{san} is mate") == after.is_checkmate()
        assert holds(board, f"{san} is stalemate") == after.is_stalemate()
        assert holds(board, f"{san} is double check") == (len(after.checkers()) == 2)
        assert holds(board, f"{san} is the only legal move") == (len(legal) == 1)
