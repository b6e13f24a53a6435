"""The inside of a script's brace."""

from __future__ import annotations

import chess
import pytest

from player.wording.hearing import Ambiguous, Illegal, NotAMove
from player.wording.turns import hear_turns


def _sans(board: chess.Board, deed: str, language: str = "en") -> list[str]:
    moves = hear_turns(board, deed, language=language)
    assert isinstance(moves, tuple), moves
    board = board.copy()
    out = []
    for move in moves:
        out.append(board.san(move))
        board.push(move)
    return out


@pytest.mark.parametrize(
    ("deed", "sans"),
    [
        ("knight to f3", ["Nf3"]),
        ("e4", ["e4"]),
        ("e2 e4", ["e4"]),
        ("e2e4 e7e5", ["e4", "e5"]),
        ("e4 e5", ["e4", "e5"]),
        ("1. e4 e5 2. Nf3 Nc6 3. Bb5", ["e4", "e5", "Nf3", "Nc6", "Bb5"]),
        ("1.e4 e5 2.Nf3", ["e4", "e5", "Nf3"]),
        ("1 e4 1... e5", ["e4", "e5"]),
        ("1.e4 1...e5 2 Nf3", ["e4", "e5", "Nf3"]),
        ("1.e4, e5", ["e4", "e5"]),
        ("e4! e5?!", ["e4", "e5"]),
        ("e4 a6 e5 d5 exd6 e.p. cxd6", ["e4", "a6", "e5", "d5", "exd6", "cxd6"]),
        ("e4 a6 e5 d5 exd6e.p.", ["e4", "a6", "e5", "d5", "exd6"]),
        ("e4 e5 Nf3 Nc6 Bc4 Bc5 0-0 Nf6", ["e4", "e5", "Nf3", "Nc6", "Bc4", "Bc5", "O-O", "Nf6"]),
        ("♘f3 ♞f6", ["Nf3", "Nf6"]),
        ("e4 d5 exd5 Qxd5", ["e4", "d5", "exd5", "Qxd5"]),
        ("e4 d5 ed5 Qd5", ["e4", "d5", "exd5", "Qxd5"]),
        ("push the e-pawn two squares", ["e4"]),
    ],
)
def test_one_move_in_words_or_several_in_notation(deed: str, sans: list[str]) -> None:
    assert _sans(chess.Board(), deed) == sans


BOTH = chess.Board("r1bqk2r/pppp1ppp/2n2n2/2b1p3/2B1P3/2N2N2/PPPP1PPP/R1BQK2R w KQkq - 0 5")


@pytest.mark.parametrize(
    "deed",
    ["both sides castle",
    "Both sides castle", "both castle", "both sides now castle", "White and Black castle",
             "both players castle", "both sides castle."],
)  # fmt: skip
def test_both_sides_castle_is_two_moves(deed: str) -> None:
    assert _sans(BOTH, deed) == ["O-O", "O-O"]


def test_both_sides_castle_is_said_to_fail_where_the_second_cannot() -> None:
    board = chess.Board("r1bqk1nr/pppp1ppp/2n5/2b1p3/2B1P3/2N2N2/PPPP1PPP/R1BQK2R w KQkq - 0 5")
    heard = hear_turns(board, "both sides castle")
    assert isinstance(heard, Illegal)
    assert heard.at == 1 and heard.reason == "blocked" and "g8" in heard.sentence


def test_an_error_says_at_which_move_and_where() -> None:
    heard = hear_turns(chess.Board(), "1. e4 e5 2. Nf3 Nd6 3. Bb5")
    assert isinstance(heard, Illegal)
    assert heard.at == 3 and heard.reason == "wrong-movement"
    assert chess.Board(heard.fen).turn == chess.BLACK
    unclear = hear_turns(chess.Board("4k3/8/8/8/8/5N2/4p3/1N2K3 w - - 0 1"), "Nd2")
    assert isinstance(unclear, Ambiguous)
    assert sorted(unclear.sans()) == ["Nbd2", "Nfd2"]
    nothing = hear_turns(chess.Board(), "e4 banana")
    assert isinstance(nothing, NotAMove)
    empty = hear_turns(chess.Board(), " ")
    assert isinstance(empty, NotAMove)


def test_exact_notation_with_the_right_capitals_wins() -> None:
    board = chess.Board("4k3/8/8/8/8/2n5/1P1B4/4K3 w - - 0 1")
    assert _sans(board, "bxc3") == ["bxc3"]
    assert _sans(board, "Bxc3 Kd7") == ["Bxc3", "Kd7"]
    assert _sans(board, "bc3 Kd7") == ["bxc3", "Kd7"]


def test_the_board_is_left_as_it_was() -> None:
    board = chess.Board()
    hear_turns(board, "e4 e5 Nf3")
    assert board == chess.Board() and not board.move_stack


@pytest.mark.parametrize(
    ("code", "deed", "sans"),
    [
        ("de", "e4 e5 Sf3 Sc6 Lb5", ["e4", "e5", "Nf3", "Nc6", "Bb5"]),
        ("de", "Springer nach f3", ["Nf3"]),
        ("fr", "1.e4 e5 2.Cf3 Cc6 3.Fb5", ["e4", "e5", "Nf3", "Nc6", "Bb5"]),
        ("es", "1.e4 e5 2.Cf3 Cc6 3.Ab5", ["e4", "e5", "Nf3", "Nc6", "Bb5"]),
        ("es", "caballo a f3", ["Nf3"]),
        ("fr", "cavalier en f3", ["Nf3"]),
    ],
)
def test_braces_use_the_letters_and_words_of_the_language(code: str, deed: str, sans: list[str]) -> None:
    assert _sans(chess.Board(), deed, code) == sans


@pytest.mark.parametrize(
    ("code", "deed"),
    [("de", "beide Seiten rochieren"), ("fr", "les deux camps roquent"), ("es", "ambos bandos enrocan")],
)
def test_both_sides_castle_in_other_languages(code: str, deed: str) -> None:
    assert _sans(BOTH, deed, code) == ["O-O", "O-O"]
