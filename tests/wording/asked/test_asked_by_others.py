"""Questions that others put to boards, with what a true answer must hold and must not."""

from __future__ import annotations

import json
import re
from pathlib import Path

import chess

from player.wording.asked import ask_board

FILE = Path(__file__).parents[2] / "corpus" / "asked.jsonl"


def test_every_question_is_answered_truly() -> None:
    lost = []
    for line in FILE.read_text(encoding="utf-8").splitlines():
        row = json.loads(line)
        board = chess.Board(row["fen"])
        for san in row["moves"].split():
            board.push_san(san)
        reply = ask_board(board, row["question"])
        if reply is None:
            lost.append(f"{row['question']}: not understood")
            continue
        text = reply.text
        lost += [f"{row['question']}: {text} lacks {one}" for one in row["must"] if not _in(one, text)]
        lost += [f"{row['question']}: {text} has {one}" for one in row["must_not"] if _in(one, text)]
    assert not lost, "\n".join(lost)


def _in(pattern: str, text: str) -> bool:
    return re.search(pattern, text, re.IGNORECASE) is not None
