"""What people say around a move, as an answer at a question."""

from __future__ import annotations

import chess
import pytest

from player.wording.hear import MoveHeard, NotAMove, hear


def board() -> chess.Board:
    out = chess.Board()
    for san in "Nf3 d5 g3 Nf6 Bg2 e6 d3 Be7".split():  # noqa: SIM905
        out.push_san(san)
    return out


@pytest.mark.parametrize(
    ("said", "uci"),
    [
        ("I think castling is best", "e1g1"),
        ("knight c3 looks like the right move", "b1c3"),
        ("Nb1 to d2 because it guards e4", "b1d2"),
        ("knight c3, since it develops a piece", "b1c3"),
        ("castle to get the king into safety", "e1g1"),
        ("c4, which hits d5", "c2c4"),
        ("h3 is a good idea", "h2h3"),
    ],
)
def test_praise_and_reasons_are_left_out(said: str, uci: str) -> None:
    assert hear(board(), said) == MoveHeard(chess.Move.from_uci(uci))


@pytest.mark.parametrize(
    ("said", "part"),
    [
        ("Sc3", 'In German "Sc3" is Nc3'),
        ("Cc3", 'In Spanish "Cc3" is Nc3'),
        ("caballo c3", "is Nc3"),
        ("Sd2", "no letter of a man here"),
        ("Zc3", "no letter of a man here"),
        ("O-O Be7 d3", "One move at a time"),
        ("1. e4 e5 2. Nf3 Nc6 3. Bb5", "One move at a time"),
        ("is it Nbd2?", "If Nbd2 is your answer"),
        ("Nd2, right?", "is your answer, say it without the question"),
        ("castling is not best", "what not to play"),
        ("Nbd2 is bad", "Say the move by itself"),
    ],
)
def test_what_is_no_answer_is_pointed_the_way(said: str, part: str) -> None:
    heard = hear(board(), said)
    assert isinstance(heard, NotAMove)
    assert part in heard.sentence


def test_a_script_takes_only_what_is_written() -> None:
    assert isinstance(hear(board(), "castling is best", script=True), NotAMove)
