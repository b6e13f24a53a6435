"""Unseen positions out of games."""

from __future__ import annotations

import io
from pathlib import Path

import chess
import chess.pgn
import pytest

from player.learner.from_games import DEEDS, Sought, moments, only_move
from tests.cli.running import moveteller

GAMES = """[White "Ann"]
[Black "Bert"]

1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0

[White "Cleo"]
[Black "Dan"]

1. e4 e5 2. Nf3 Nc6 3. Bc4 Nd4 4. Nxe5 Qg5 5. Nxf7 Qxg2 6. Rf1 Qxe4+ 7. Be2 Nf3# 0-1
"""


def games() -> list[chess.pgn.Game]:
    text, out = io.StringIO(GAMES), []
    while (game := chess.pgn.read_game(text)) is not None:
        out.append(game)
    return out


def mates(board: chess.Board) -> list[chess.Move]:
    found = []
    for move in board.legal_moves:
        board.push(move)
        if board.is_checkmate():
            found.append(move)
        board.pop()
    return found


def test_the_mates_of_the_games_are_found_and_are_the_only_ones() -> None:
    found = moments(games(), [Sought("the end", "is mate", "k")], frozenset())
    assert found
    for one in found:
        board = chess.Board(one.fen)
        assert [move.uci() for move in mates(board)] == list(one.answers)
    assert "Ann and Bert" in found[0].how


def test_none_is_from_the_series_and_none_comes_twice() -> None:
    first = moments(games(), [Sought("the end", "is mate", "k")], frozenset())
    seen = frozenset(" ".join(one.fen.split(" ")[:4]) for one in first)
    assert moments(games(), [Sought("the end", "is mate", "k")], seen) == []
    assert len({one.fen for one in first}) == len(first)


@pytest.mark.parametrize("deed", DEEDS)
def test_two_moves_that_do_it_make_no_question(deed: str) -> None:
    board = chess.Board("7k/8/6K1/8/8/8/8/QR6 w - - 0 1")
    assert only_move(board, deed) is None or deed not in ("is mate", "is check")


def test_they_are_asked_from_the_command_line(tmp_path: Path) -> None:
    (tmp_path / "g.pgn").write_text(GAMES * 2, encoding="utf-8")
    lesson = (
        "title: Small\n\nSo {e4 e5 Bc4 Nc6 Qh5 d6}.\n\nquestion: How does it end?\n  about: the end\n\n"
        "{Qxf7}. And there it ends.\n"
    )
    (tmp_path / "small.lesson").write_text(lesson, encoding="utf-8")
    moveteller(tmp_path, "play", "small", "--lines", typed="\n\nQxf7\n\n\n")
    ran = moveteller(tmp_path, "revisit", "--new", "--game", "g.pgn", "--lines", typed="Qxf7\n\nquit\n")
    assert ran.code == 0 and "from a game between Ann and Bert" in ran.out
    assert "White to move. Which move is mate?" in ran.out and "Yes: Qxf7#." in ran.out
    missing = moveteller(tmp_path, "revisit", "--new", "--game", "none.pgn", "--lines")
    assert missing.code == 2 and "not there" in missing.err
