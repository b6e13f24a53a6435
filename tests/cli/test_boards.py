"""Moves and positions in words, one at a time and as JSON lines."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import chess
import pytest

from tests.cli.running import moveteller

TWO_KNIGHTS = "4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1"


def lines(folder: Path, command: str, *asked: object) -> list[dict[str, Any]]:
    typed = "".join(f"{json.dumps(one)}\n" for one in asked)
    ran = moveteller(folder, command, "--json", "-", typed=typed)
    return [json.loads(line) for line in ran.out.splitlines()]


def test_each_kind_of_hearing_has_its_answer(tmp_path: Path) -> None:
    start = chess.STARTING_FEN
    found = lines(
        tmp_path,
        "hear",
        {"fen": start, "said": "knight f3"},
        {"fen": TWO_KNIGHTS, "said": "knight d2"},
        {"fen": start, "said": "Ke2"},
        {"fen": start, "said": "what a lovely evening"},
    )
    assert found[0] == {"kind": "move", "uci": "g1f3", "san": "Nf3"}
    assert found[1]["kind"] == "ambiguous" and sorted(found[1]["ucis"]) == ["b1d2", "f3d2"]
    assert found[1]["question"].endswith("?")
    assert found[2]["kind"] == "illegal" and found[2]["reason"] == "own-piece" and found[2]["sentence"]
    assert found[3]["kind"] == "not-a-move" and found[3]["sentence"]


def test_a_bad_line_is_answered_in_its_place(tmp_path: Path) -> None:
    typed = '{"said": "e4"}\nnonsense\n[1]\n{"fen": "x", "said": "e4"}\n{"fen": "start"}\n\n{"said": "d4"}\n'
    ran = moveteller(tmp_path, "hear", "--json", "-", typed=typed)
    kinds = [json.loads(line)["kind"] for line in ran.out.splitlines()]
    assert kinds == ["move", "error", "error", "error", "error", "move"]
    assert ran.code == 2


def test_what_is_said_is_heard_again(tmp_path: Path) -> None:
    board = chess.Board("r3k2r/pPpp1ppp/8/3pP3/8/5N2/PPP2PPP/R3K2R w KQkq d6 0 1")
    moves = list(board.legal_moves)
    spoken = lines(tmp_path, "say", *({"fen": board.fen(), "uci": move.uci()} for move in moves))
    assert all(set(one) == {"spoken", "shown"} for one in spoken)
    heard = lines(tmp_path, "hear", *({"fen": board.fen(), "said": one["spoken"]} for one in spoken))
    assert [one["uci"] for one in heard] == [move.uci() for move in moves]


@pytest.mark.parametrize("uci", ["e2e5", "zz", "", 7, None])
def test_a_move_that_cannot_be_said_is_an_error_in_words(tmp_path: Path, uci: object) -> None:
    (found,) = lines(tmp_path, "say", {"fen": "start", "uci": uci})
    assert found["kind"] == "error" and found["sentence"]


def test_one_at_a_time(tmp_path: Path) -> None:
    assert moveteller(tmp_path, "say", "Nf3").out == "knight to f3\n"
    assert moveteller(tmp_path, "say", "--json", "e4").out == '{"spoken": "pawn to e4", "shown": "e4"}\n'
    assert moveteller(tmp_path, "hear", "knight", "f3").out == "Nf3\n"
    assert moveteller(tmp_path, "hear", "--fen", TWO_KNIGHTS, "knight d2").out.startswith("Which knight")
    assert moveteller(tmp_path, "describe", "gist").out.startswith("White to move.")
    assert "king e1" in moveteller(tmp_path, "describe").out


def test_positions_as_json_lines(tmp_path: Path) -> None:
    found = lines(tmp_path, "describe", {"fen": "start", "depth": "square", "about": "e1"}, {"depth": "up"})
    assert "king" in found[0]["text"]
    assert found[1]["kind"] == "error"


def test_describe_answers_a_question(tmp_path: Path) -> None:
    fen = "r1bqkbnr/ppp2ppp/2np4/1B2p3/4P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 0 4"
    pin, why, odd = lines(
        tmp_path,
        "describe",
        {"fen": fen, "words": "is the knight pinned?"},
        {"fen": fen, "words": "why not Bxc6"},
        {"fen": fen, "words": "tell me a story"},
    )
    assert pin["kind"] == "is pinned" and pin["yes"] is True and pin["squares"] == ["c6"]
    assert why["kind"] == "why not" and why["moves"] == ["b5c6"]
    assert odd["kind"] == "error" and "You can ask" in odd["sentence"]
    ran = moveteller(tmp_path, "describe", "--fen", fen, "what", "attacks", "e4")
    assert ran.code == 0 and ran.out.strip() == "Nothing attacks the white pawn on e4."
