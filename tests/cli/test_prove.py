"""`moveteller prove`: verdicts, exit codes, and JSON lines."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import moveteller

SCHOLAR = "r1bqkb1r/pppp1ppp/2n2n2/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR w KQkq - 4 4"
ROOK_ENDING = "8/8/8/3k4/8/R7/P4r2/4K3 w - - 0 1"


@pytest.mark.parametrize(
    ("claim", "code", "said"),
    [
        ("Qxf7 is mate", 0, "True. Qxf7# is mate.\n"),
        ("Qxe5+ is mate", 1, "False. After Qxe5+ there is"),
        ("White is better", 2, "Not understood. "),
        ("White wins with best play", 0, "True. White wins with best play.\n"),
        ("mate in 2", 0, "True. Qxf7# forces mate in 1. There is a mate in 1: Qxf7#.\n"),
    ],
)
def test_a_claim_on_the_command_line(tmp_path: Path, claim: str, code: int, said: str) -> None:
    for words in ([claim], claim.split()):
        ran = moveteller(tmp_path, "prove", "--fen", SCHOLAR, *words)
        assert (ran.code, ran.err) == (code, "")
        assert ran.out.startswith(said)


def test_what_is_not_proved_has_its_own_sentence_and_code(tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "prove", "--fen", ROOK_ENDING, "White wins with best play")
    assert ran.code == 3
    assert ran.out == "Not proved, neither true nor false. Nothing here can prove how this ends.\n"


def test_looking_deeper_proves_more(tmp_path: Path) -> None:
    fen = "8/8/8/8/8/2k5/1R6/K7 w - - 0 1"
    assert moveteller(tmp_path, "prove", "--fen", fen, "mate in 8").code == 3
    fen = "n1rb4/1p3p1p/1p6/1R5K/8/p3p1PN/1PP1R3/N6k w - - 0 1"
    assert moveteller(tmp_path, "prove", "--deep", "--fen", fen, "mate in 3").code == 1


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (["--fen", "bla", "White has the move"], "This is no position in FEN"),
        (["--moves", "e5", "White has the move"], '"e5" is no legal move'),
        (["--last", "Qd4", "White has the move"], '"Qd4" is no legal move'),
        ([], "Say what to prove"),
    ],
)
def test_unusable(tmp_path: Path, arguments: list[str], complaint: str) -> None:
    ran = moveteller(tmp_path, "prove", *arguments)
    assert (ran.code, ran.out) == (2, "")
    assert complaint in ran.err
    assert len(ran.err.splitlines()) == 1


def test_moves_are_played_first_and_the_last_of_them_is_the_move_just_told(tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "prove", "--moves", "1.e4 e5 2.Nf3 Nf6 3.Ng1 Ng8", "it is a repetition")
    assert ran.code == 0
    ran = moveteller(tmp_path, "prove", "--json", "--moves", "e4 d5 exd5", "wins a pawn")
    assert json.loads(ran.out)["verdict"] == "false"


def answers(tmp_path: Path, *asked: Any, code: int = 0) -> list[dict[str, Any]]:
    typed = "".join(f"{one if isinstance(one, str) else json.dumps(one)}\n" for one in asked)
    ran = moveteller(tmp_path, "prove", "--json", "-", typed=typed)
    assert (ran.code, ran.err) == (code, "")
    return [json.loads(line) for line in ran.out.splitlines()]


def test_lines_are_answered_in_order(tmp_path: Path) -> None:
    asked = [{"fen": SCHOLAR, "claim": claim} for claim in ("Qxf7 is mate", "White is better", "stalemate")]
    found = answers(tmp_path, *asked, {"fen": ROOK_ENDING, "claim": "the position is drawn"})
    assert [one["verdict"] for one in found] == ["true", "not-understood", "false", "unproved"]
    assert all(one["because"] for one in found)
    assert found[0]["move"] == "h5f7"


def test_moves_the_last_move_and_marks_are_optional(tmp_path: Path) -> None:
    there_and_back = ["g1f3", "g8f6", "f3g1", "f6g8"]
    found = answers(
        tmp_path,
        {"claim": "it is a repetition", "moves": there_and_back},
        {"claim": "it is a repetition", "moves": there_and_back[:3]},
        {"claim": "is check", "fen": "4k3/8/8/8/8/8/8/Q3K3 w - - 0 1", "last": "Qa4"},
        {"claim": "Qa4 is check", "fen": "4k3/8/8/8/8/8/8/Q3K3 w - - 0 1", "last": "a1a4"},
        {"claim": "Qa4 is check", "fen": "4k3/8/8/8/8/8/8/Q3K3 w - - 0 1", "moves": "Qa4+", "last": "Qa4+"},
        {"claim": "the position is the same as the Door", "marks": {"the door": "start"}},
    )
    assert [one["verdict"] for one in found] == ["true", "false", "true", "true", "true", "true"]


def test_a_bad_line_gets_an_error_in_its_place(tmp_path: Path) -> None:
    good = {"claim": "White has the move"}
    bad = ["no json", "[1]", {"claim": 3}, {"fen": "8/8", "claim": "stalemate"}, {}, "[" * 100_000]
    bad += [
        {**good, "moves": 7},
        {**good, "moves": ["e5"]},
        {**good, "last": []},
        {**good, "marks": {"a": 1}},
    ]
    found = answers(tmp_path, good, *bad, good, code=2)
    assert [one.get("kind") for one in found] == [None, *["error"] * len(bad), None]
    assert all(one["sentence"].endswith(".") for one in found[1:-1])


def test_no_position_is_too_odd_to_be_answered(tmp_path: Path) -> None:
    fens = [
        "8/8/8/8/8/8/8/8 w - - 0 1",
        "kkkk4/8/8/8/8/8/8/KKKK4 w - - 0 1",
        "P7/8/8/8/8/8/8/p3K2k w - e3 0 1",
    ]
    claims = ["White is in check", "Black has 0 legal moves", "mate in 2", "en passant is possible"]
    claims += [
        "White wins with best play",
        "White may castle kingside",
        "the king on a8 is pinned",
        "e4 is legal",
    ]
    claims += ["White has the opposition", "the king is inside the square of the pawn on a8"]
    found = answers(tmp_path, *({"fen": fen, "claim": claim} for fen in fens for claim in claims))
    assert {one["verdict"] for one in found} <= {"true", "false", "unproved"}
