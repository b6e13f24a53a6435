"""What is said of a move is so: every finding is judged a second time, and a few are known beforehand."""

from __future__ import annotations

from pathlib import Path

import chess
import pytest

from player.facts.replies.choose import find
from player.facts.replies.finding import Deed, Drawback, Finding
from player.facts.replies.question import question
from tests.facts.replies.again import TooLong, wrong

_ROWS = [
    tuple(line.rsplit(" ", 1))
    for line in (Path(__file__).parents[2] / "corpus" / "middlegames.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]


def judged(fen: str, answer: str) -> tuple[int, int, list[str]]:
    """How many moves, how many of them too long to judge, and what was not so."""
    board = chess.Board(fen)
    asked = question(board, chess.Move.from_uci(answer))
    moves = late = 0
    bad: list[str] = []
    for move in board.legal_moves:
        if move.uci() == answer:
            continue
        moves += 1
        try:
            bad += [f"{fen} {answer} {move}: {one}" for one in wrong(asked, find(asked, move))]
        except TooLong:
            late += 1
    return moves, late, bad


@pytest.mark.parametrize("row", _ROWS[::14], ids=range(len(_ROWS[::14])))
def test_nothing_is_said_that_is_not_so(row: tuple[str, str]) -> None:
    moves, late, bad = judged(*row)
    assert not bad
    assert late * 10 <= moves


@pytest.mark.large
@pytest.mark.parametrize("row", _ROWS, ids=range(len(_ROWS)))
def test_nothing_is_said_that_is_not_so_over_two_hundred_positions(row: tuple[str, str]) -> None:
    moves, late, bad = judged(*row)
    assert not bad
    assert late * 10 <= moves


def found(board: chess.Board, san: str, answer: str | None = None, told: str = "") -> Finding:
    moves: list[chess.Move] = []
    line = board.copy()
    for one in told.split():
        moves.append(line.push_san(one))
    asked = question(board, board.parse_san(answer) if answer else None, tuple(moves))
    return find(asked, board.parse_san(san))


def after(sans: str, fen: str = chess.STARTING_FEN) -> chess.Board:
    board = chess.Board(fen)
    for san in sans.split():
        board.push_san(san)
    return board


def test_fools_mate_is_the_most_telling_thing() -> None:
    # Fool's mate, from memory: 1. f3 e5 2. g4 Qh4 is mate.
    what = found(after("f3 e5"), "g4")
    assert (what.kind, what.count, what.reply) == ("mate", 1, chess.Move.from_uci("d8h4"))


def test_a_threat_of_mate_that_is_not_met_is_called_a_threat() -> None:
    # The scholar's mate, from memory: 1. e4 e5 2. Bc4 Nc6 3. Qh5, and f7 must be looked after.
    board = after("e4 e5 Bc4 Nc6 Qh5")
    what = found(board, "Nf6", "g6")
    assert (what.kind, what.cause, what.reply) == ("mate", "stands", chess.Move.from_uci("h5f7"))
    assert Deed("meets mate", chess.F7) in found(board, "Qe7", "g6").merits


@pytest.mark.parametrize(
    ("fen", "san", "kind", "cause"),
    [
        ("rnbqkb1r/ppp1pppp/5n2/3p4/8/5NP1/PPPPPP1P/RNBQKB1R w KQkq - 0 3", "e4", "wins", "goes there"),
        ("4k3/8/7p/6B1/8/8/8/4K3 w - - 0 1", "Ke2", "wins", "stands"),
        ("4k3/8/5n2/8/4P3/2N5/8/4K3 w - - 0 1", "Na4", "wins", "unguarded"),
        ("4k3/1b6/8/3P4/4N3/8/6R1/4K3 w - - 0 1", "Kd1", "wins", "stands"),
        ("7k/8/5K2/8/8/8/6Q1/8 w - - 0 1", "Qg6", "stalemate", ""),
        ("4k3/8/4K3/4P3/8/8/8/8 w - - 0 1", "Kd5", "win lost", ""),
        ("8/8/8/8/P4k2/8/8/7K b - - 0 1", "Kf3", "draw lost", ""),
        ("6k1/8/8/8/2n5/8/8/1R3R1K w - - 0 1", "Kg2", "fork", ""),
    ],
)
def test_what_is_allowed_is_told_with_why(fen: str, san: str, kind: str, cause: str) -> None:
    what = found(chess.Board(fen), san)
    assert (what.kind, what.cause) == (kind, cause)


def test_a_pawn_taken_in_passing_is_named_where_it_stands() -> None:
    what = found(chess.Board("4k3/8/8/8/3p4/8/4P3/4K3 w - - 0 1"), "e4")
    assert (what.kind, what.square, what.reply) == ("wins", chess.E4, chess.Move.from_uci("d4e3"))


def test_winning_first_and_losing_less_is_nothing_against_a_move() -> None:
    assert found(chess.Board("4k3/8/3p4/4q3/8/5N2/8/4K3 w - - 0 1"), "Nxe5").kind == "sound"


def test_what_checks_and_a_mate_would_answer_is_no_blow() -> None:
    # The sacrifice that is called after Legal, from memory: the queen may be taken, and mate follows.
    what = found(after("e4 e5 Nf3 d6 Bc4 Bg4 Nc3 g6"), "Nxe5", "h3")
    assert what.kind != "wins" and what.reply is None


def test_room_is_given_where_it_grows_and_the_middle_left_where_nothing_there_moves() -> None:
    board = chess.Board("1k2rb2/pp1rp3/2n3p1/3p1pPp/3P1P2/2N1P3/PRP5/1NBQK1R1 w - - 5 26")
    assert Deed("opens", chess.D1) not in found(board, "Ke2", "Bd2").merits
    board = chess.Board("r1bqkb1r/p2ppppp/npp2n2/4N3/3P1B1P/8/PPPNPPP1/R2QKB1R w KQkq - 2 7")
    assert not any(deed.kind == "centre" for deed in found(board, "Nd3", "e4").misses)


def test_the_square_a_pawn_would_queen_on_holds_no_man_to_look_after() -> None:
    board = chess.Board("8/2P3k1/1p1K4/3P4/8/8/5p2/8 w - - 0 1")
    assert not any(deed.kind == "meets" for deed in found(board, "Kd7", "c8=Q").merits)


def test_a_knight_that_takes_an_outpost_is_not_told_to_take_none() -> None:
    board = chess.Board("5b1r/rp1k2pp/n6n/2p1p3/2P4P/2N2P2/1P1P2P1/R1B1K1NR w - - 0 18")
    assert not any(deed.kind == "outpost" for deed in found(board, "Nd5", "Nb5").misses)


def test_a_quiet_blow_is_not_proved_against_a_pawn_about_to_queen() -> None:
    # The pawn goes on to d7, and the king that takes the knight cannot stop it.
    assert found(chess.Board("8/8/3Pk1K1/N7/8/8/8/8 w - - 0 1"), "Nc4", "Nb7").kind == "differs"


def test_a_man_that_the_answer_leaves_in_danger_too_is_not_said_to_be_unsaved() -> None:
    board = chess.Board("4k3/8/2n4p/6B1/8/8/P7/4K3 w - - 0 1")
    assert found(board, "Kd1", "Bd2").cause == "stands"
    assert found(board, "Kd1", "a4").cause == ""


def test_a_mate_and_a_man_let_go_are_told() -> None:
    # A mate on the last rank, from memory.
    board = chess.Board("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1")
    assert (found(board, "h3", "Ra8#").kind, found(board, "h3", "Ra8#").count) == ("missed mate", 1)
    board = chess.Board("4k3/8/8/3n4/8/2N5/8/4K3 w - - 0 1")
    what = found(board, "Ne4", "Nxd5")
    assert (what.kind, what.square, what.gain) == ("missed win", chess.D5, 3)


def test_what_mates_or_wins_as_well_is_told_so() -> None:
    board = chess.Board("6k1/5ppp/8/8/8/8/5PPP/R3R1K1 w - - 0 1")
    assert found(board, "Re8#", "Ra8#").kind == "mates too"
    board = chess.Board("4k3/8/8/3n4/8/2N2B2/8/4K3 w - - 0 1")
    assert found(board, "Bxd5", "Nxd5").kind == "wins too"


def test_a_move_of_the_telling_that_comes_to_the_same_is_another_order() -> None:
    what = found(chess.Board(), "g3", "Nf3", "Nf3 d5 g3 Nf6")
    assert (what.kind, what.count) == ("order", 1)
    assert found(chess.Board(), "c3", "Nf3", "Nf3 d5 g3 Nf6").kind == "differs"


def test_another_order_that_is_not_legal_is_none() -> None:
    # Castling cannot come before the bishop has left f1.
    board = after("Nf3 d5 g3 Nf6")
    assert not board.is_legal(chess.Move.from_uci("e1g1"))
    what = found(board, "d3", "Bg2", "Bg2 e6 d3")
    assert what.kind == "order"


def test_a_difference_is_what_the_answer_does_and_the_move_does_not() -> None:
    # The set-up of the demo lessons: castling is wanted; d3 opens the bishop's road and leaves the king.
    board = after("Nf3 d5 g3 Nf6 Bg2 e6")
    what = found(board, "d3", "O-O")
    assert what.kind == "differs"
    assert Deed("castles") in what.misses
    assert Deed("opens", chess.C1) in what.merits
    knight = found(board, "Nc3", "O-O")
    assert Deed("develops", chess.B1) in knight.merits
    assert Drawback("chased", chess.C3, chess.D4) in knight.drawbacks
    assert Drawback("castling gone") in found(board, "Kf1", "O-O").drawbacks


def test_a_lesson_without_an_answer_still_has_something_to_say() -> None:
    what = found(chess.Board(), "e4")
    assert what.kind == "sound"
    assert Deed("centre", chess.E4) in what.merits


def test_an_illegal_move_or_answer_is_refused() -> None:
    with pytest.raises(ValueError, match="not legal"):
        find(question(chess.Board()), chess.Move.from_uci("e2e5"))
    with pytest.raises(ValueError, match="not legal"):
        question(chess.Board(), chess.Move.from_uci("e2e5"))
