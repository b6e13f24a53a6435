"""A series held against games: counts equal to slow ones, and files as people have them."""

from __future__ import annotations

import io
import random
from collections import Counter
from pathlib import Path

import chess
import chess.pgn
import pytest

from player.check.against import Against, against
from player.check.looked import look
from player.check.orders import Step

LESSON = """\
title: T
coach: Ines
side: white

{Nf3} {d5} {g3} {Nf6} {Bg2} {e6}.

aside: If Black closes the road
  {castles} {c6}.

{castles} {Be7} {d3}.
"""
LINE = ["Nf3", "d5", "g3", "Nf6", "Bg2", "e6", "O-O", "Be7", "d3"]


def steps() -> tuple[Step, ...]:
    return look(LESSON, (), 1000, None).steps


def played(text: str, tmp_path: Path, encoding: str = "utf-8") -> Against:
    path = tmp_path / "games.pgn"
    path.write_bytes(text.encode(encoding))
    return against(path, [steps()])


def taught() -> dict[str, set[str]]:
    """The positions with Black to move, and the replies told there, walked by hand."""
    out: dict[str, set[str]] = {}
    for line in (LINE, [*LINE[:7], "c6"]):
        board = chess.Board()
        for san in line:
            if board.turn == chess.BLACK:
                out.setdefault(board.epd(), set()).add(board.parse_san(san).uci())
            board.push_san(san)
        if board.turn == chess.BLACK:
            out.setdefault(board.epd(), set())
    return out


def slow_counts(text: str) -> Counter[tuple[str, str]]:
    found: Counter[tuple[str, str]] = Counter()
    known = taught()
    source = io.StringIO(text)
    while (game := chess.pgn.read_game(source)) is not None:
        if game.errors:
            continue
        board = game.board()
        for move in game.mainline_moves():
            if board.epd() in known and move.uci() not in known[board.epd()]:
                found[board.epd(), move.uci()] += 1
            board.push(move)
    return found


def random_games(number: int, seed: int) -> str:
    chance = random.Random(seed)
    games = []
    for _ in range(number):
        board, sans = chess.Board(), []
        for san in LINE[: chance.randrange(10)]:
            sans.append(san)
            board.push_san(san)
        for _ in range(chance.randrange(1, 12)):
            moves = list(board.legal_moves)
            if not moves:
                break
            move = chance.choice(moves)
            sans.append(board.san(move))
            board.push(move)
        if chance.random() < 0.1:
            sans.insert(chance.randrange(len(sans) + 1), "Qxz9" if chance.random() < 0.5 else "Ke5")
        games.append(f'[Event "Club"]\n[Result "*"]\n\n{" ".join(sans)} *\n')
    return "\n".join(games)


def flat(found: Against) -> Counter[tuple[str, str]]:
    return Counter({(met.at, one.uci): one.times for met in found.met for one in met.untold})


def test_counts_are_those_of_a_slow_count(tmp_path: Path) -> None:
    text = random_games(300, 1)
    found = played(text, tmp_path)
    assert found.games == 300
    assert found.skipped
    assert flat(found) == slow_counts(text)
    assert flat(found).total() > 50


@pytest.mark.large
def test_counts_of_ten_thousand_games(tmp_path: Path) -> None:
    text = random_games(10_000, 2)
    assert flat(played(text, tmp_path)) == slow_counts(text)


def test_another_order_of_moves_counts_and_so_does_coming_back(tmp_path: Path) -> None:
    text = "1. g3 Nf6 2. Nf3 d5 3. Bg2 g6 4. Bf1 Ng8 5. Bg2 Nf6 6. Bf1 Ng8 *\n"
    found = flat(played(text, tmp_path))
    by_name = {(at.split()[0], uci): times for (at, uci), times in found.items()}
    assert by_name == {("rnbqkb1r/ppp1pppp/5n2/3p4/8/5NP1/PPPPPPBP/RNBQK2R", "g7g6"): 1}


def test_told_replies_and_where_the_line_ends(tmp_path: Path) -> None:
    found = played(
        f"{' '.join(LINE)} O-O *\n\n{' '.join(LINE[:7])} c6 *\n\n{' '.join(LINE[:7])} b6 *\n", tmp_path
    )
    assert [(one.told, [each.san for each in one.untold]) for one in found.met if one.untold] == [
        (("c6", "Be7"), ["b6"]),
        ((), ["O-O"]),
    ]


PLAIN = '[Event "A"]\n\n1. Nf3 f5 *\n\n[Event "B"]\n\n1. Nf3 {talk} (1. e4 e5) f5 2. g3 *\n'


@pytest.mark.parametrize(
    ("text", "encoding"),
    [
        (PLAIN, "utf-8-sig"),
        (PLAIN.replace("\n", "\r\n"), "utf-8"),
        (PLAIN.replace("talk", "größer"), "latin-1"),
        (PLAIN.replace("talk", "word " * 400_000), "utf-8"),
        (PLAIN.replace("talk", "word\n" * 100_000), "utf-8"),
        (PLAIN + '\n[Variant "Atomic"]\n\n1. Nf3 f5 *\n', "utf-8"),
        (PLAIN + '\n[Variant "no such game"]\n\n1. Nf3 f5 *\n', "utf-8"),
        (PLAIN + '\n[FEN "4k3/8/8/8/8/8/8/4K3 w - - 0 1"]\n[SetUp "1"]\n\n1. Kd2 Kd7 *\n', "utf-8"),
        (PLAIN + '\n[FEN "nonsense"]\n[SetUp "1"]\n\n1. Nf3 f5 *\n', "utf-8"),
        (
            PLAIN + '\n[Variant "Chess960"]\n[SetUp "1"]\n'
            '[FEN "bqnb1rkr/pp3ppp/3ppn2/2p5/5P2/P2P4/NPP1P1PP/BQ1BNRKR w HFhf - 2 9"]\n\n1. Nf3 d5 *\n',
            "utf-8",
        ),
        (PLAIN + "\n1. Nf3 Ke4 f5 *\n", "utf-8"),
        (PLAIN + "\x00\x01 no game at all }{ ((", "utf-8"),
    ],
)
def test_files_as_people_have_them(tmp_path: Path, text: str, encoding: str) -> None:
    found = played(text, tmp_path, encoding)
    (met,) = [one for one in found.met if one.untold]
    assert [(one.san, one.times, one.games) for one in met.untold] == [("f5", 2, 2)]
    assert met.told == ("d5",)


def test_broken_games_are_told_by_number(tmp_path: Path) -> None:
    found = played(PLAIN + "\n1. Nf3 Ke4 f5 *\n\n1. Nf3 f5 *\n", tmp_path)
    assert [number for number, _ in found.skipped] == [3]
    assert "Ke4" in found.skipped[0][1]
    assert found.games == 4
