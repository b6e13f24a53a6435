"""Positions in words: what `board:` and `imagine:` make of them, and which they must refuse."""

from __future__ import annotations

from typing import Any

import pytest

from player.script.told import ToldBlock, ToldBoard
from tests.script.corpora import epd, index, outcome_of

RECORDS = index("positions.jsonl")


@pytest.mark.parametrize("record", RECORDS, ids=[f"{number}" for number in range(1, len(RECORDS) + 1)])
def test_position(record: dict[str, Any]) -> None:
    begin = f"board: {record['from']}\n\n" if "from" in record else ""
    inside = "\n  Look at this.\n" if record["key"] == "imagine" else "\n\nLook at this.\n"
    said = outcome_of(f"script: 1\ntitle: Positions\n\n{begin}{record['key']}: {record['text']}{inside}")
    if record.get("fault"):
        assert said.faults
        return
    assert said.faults == ()
    told = next(told for told in reversed(said.told.body) if isinstance(told, ToldBlock | ToldBoard))
    placement, turn, castling, passant = epd(told.inner if isinstance(told, ToldBlock) else told.after)
    assert placement == record["placement"]
    assert turn == record["turn"]
    assert castling == record.get("castling", castling)
    assert passant == record.get("en_passant", passant)
