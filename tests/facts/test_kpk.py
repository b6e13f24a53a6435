"""The table of king and pawn against king: counted, and worked out anew."""

from __future__ import annotations

import zlib

import chess

from player.facts.kpk import DATA, white_wins
from scripts.kpk import bits


def test_the_file_is_what_the_script_makes() -> None:
    assert zlib.decompress(DATA.read_bytes()) == bits()


def test_as_many_wins_as_published() -> None:
    # Published counts, pawn on files a to d: 62480 won with White to move, 48802 lost with Black to move.
    found = {True: 0, False: 0}
    for turn in (True, False):
        for file in range(4):
            for rank in range(1, 7):
                for white in chess.SQUARES:
                    for black in chess.SQUARES:
                        found[turn] += white_wins(turn, chess.square(file, rank), white, black)
    assert found == {True: 62480, False: 48802}
