"""The small search finds what a plain search without any cutting off finds, and a book's mates."""

from __future__ import annotations

import random

import chess
import pytest

from player.engine.small import SmallSearch
from player.engine.view import View
from player.facts.place import Place
from tests.outside.claims_published import WIN_AT_CHESS

WORTH = {1: 1, 2: 3, 3: 3, 4: 5, 5: 9, 6: 0}
MATE = 1000


def plain(board: chess.Board, depth: int, ply: int = 1, checks: int = 2) -> int:
    """Every line to its end, nothing cut off: written apart from the search, from its description."""
    if depth == 0 and checks and board.is_check():
        return plain(board, 1, ply, checks - 1)
    if depth == 0:
        return men(board) + captures(board)
    if board.is_insufficient_material():
        return 0
    worths = []
    for move in board.legal_moves:
        after = board.copy(stack=False)
        after.push(move)
        worths.append(-plain(after, depth - 1, ply + 1, checks))
    if not worths:
        return ply - MATE if board.is_check() else 0
    return max(worths)


def captures(board: chess.Board) -> int:
    """What the side to move gains by captures, where both may stop at any time."""
    best = 0
    for move in board.legal_moves:
        if board.is_capture(move):
            after = board.copy(stack=False)
            after.push(move)
            best = max(best, -men(after) - men(board) - captures(after))
    return best


def men(board: chess.Board) -> int:
    return sum(
        (1 if man.color == board.turn else -1) * WORTH[man.piece_type] for man in board.piece_map().values()
    )


def few_men(chance: random.Random) -> chess.Board:
    """A legal position with the kings and four other men, where either side may have moves."""
    while True:
        board = chess.Board(None)
        squares = chance.sample(range(64), 6)
        board.set_piece_at(squares[0], chess.Piece(chess.KING, chess.WHITE))
        board.set_piece_at(squares[1], chess.Piece(chess.KING, chess.BLACK))
        for square in squares[2:]:
            kind = chance.choice([chess.PAWN, chess.PAWN, chess.KNIGHT, chess.BISHOP, chess.ROOK])
            board.set_piece_at(square, chess.Piece(kind, chance.random() < 0.5))
        board.turn = chance.random() < 0.5
        if board.is_valid() and any(board.legal_moves):
            return board


@pytest.mark.parametrize("seed", range(6))
def test_it_finds_what_a_plain_search_finds(seed: int) -> None:
    chance = random.Random(seed)
    board = few_men(chance)
    moves = chance.sample(list(board.legal_moves), min(2, board.legal_moves.count()))
    views = SmallSearch(10**6).judge(Place(board.fen()), [move.uci() for move in moves])
    for move in moves:
        after = board.copy(stack=False)
        after.push(move)
        worth = -plain(after, 3)
        view = views[move.uci()]
        if abs(worth) > MATE // 2:
            assert (view.mate > 0) == (worth > 0)
            assert abs(view.mate) == (MATE - abs(worth) + 1) // 2
        else:
            assert (view.pawns, view.mate) == (worth, 0)


@pytest.mark.parametrize(("name", "fen", "moves", "key"), [one for one in WIN_AT_CHESS if one[2] == 2][::3])
def test_mates_in_two_of_a_published_list(name: str, fen: str, moves: int, key: str) -> None:
    """Win at Chess, as `claims_published` names it."""
    move = chess.Board(fen).parse_san(key).uci()
    assert SmallSearch(10**6).judge(Place(fen), [move])[move].mate == moves


def test_what_it_fears_is_in_its_line() -> None:
    """The fool's mate (common knowledge): after g4 the queen mates on h4."""
    place = Place().then("f2f3", "e7e5")
    views = SmallSearch().judge(place, ["g2g4", "e2e4"])
    assert views["g2g4"] == View(-100.0, -1, ("d8h4",))
    assert views["e2e4"].pawns == 0.0


def test_the_same_question_gets_the_same_answer_and_every_move_one_depth() -> None:
    place = Place("r1bqkb1r/pppp1ppp/2n2n2/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR w KQkq - 4 4")
    moves = ["h5f7", "h5e5", "d2d3"]
    first = SmallSearch().judge(place, moves)
    assert first == SmallSearch().judge(place, moves)
    assert first["h5f7"].mate == 1 and first["h5e5"].pawns < -7
    shallow = SmallSearch(40).judge(place, moves)
    assert set(shallow) in (set(), set(moves))


def test_what_cannot_be_searched_has_no_view() -> None:
    assert SmallSearch().judge(Place(), ["e2e5"]) == {}
    assert SmallSearch().judge(Place("8/8/8/3p4/4P3/8/8/8 w - - 0 1"), ["e4d5"]) == {}
    assert SmallSearch(1).judge(Place(), ["e2e4"]) == {}
