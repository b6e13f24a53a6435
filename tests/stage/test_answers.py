"""What learners type and say at the questions of the demo lessons, by somebody who had not seen the tool."""

from __future__ import annotations

import json
from collections import Counter
from functools import lru_cache
from typing import Any

import pytest

from player.stage.happenings import Attempt, Note
from player.stage.inputs import Did
from player.stage.understand import understand
from tests.check.prose.test_mismatches import LESSONS
from tests.script.corpora import CORPUS
from tests.stage.playing import Playing
from tests.stage.sheets import sheet_at

ROWS: list[dict[str, Any]] = [
    json.loads(line)
    for name in ("answers.jsonl", "answers_second.jsonl")
    for line in (CORPUS / name).read_text("utf-8").splitlines()
]
_VERBS = {"nudge": "nudge", "tell me": "told"}


def became(row: dict[str, Any]) -> str:
    path = next(path for path in LESSONS if path.stem.startswith(str(row["lesson"])))
    playing = Playing(sheet_at(path)).start()
    playing.feed(Did("go to", f"question {row['question']}"))
    deed = understand(playing.state, row["said"])
    out = playing.type(row["said"])
    grades = [one.grade for one in out if isinstance(one, Attempt)]
    if grades:
        return {"passed": "command"}.get(grades[0], grades[0])
    if deed.verb not in ("say", "ask"):
        return _VERBS.get(deed.verb, "command")
    notes = [one for one in out if isinstance(one, Note)]
    return "illegal" if notes and notes[0].standing == "board" and deed.verb == "say" else "unclear"


@lru_cache(maxsize=1)
def outcomes() -> Counter[tuple[str, str]]:
    return Counter((row["expect"], became(row)) for row in ROWS)


def test_most_answers_become_what_a_fair_coach_would_make_of_them() -> None:
    same = sum(many for (want, got), many in outcomes().items() if want == got)
    assert same >= 0.83 * len(ROWS)


@pytest.mark.parametrize(("want", "got"), [("wrong", "right"), ("unclear", "right"), ("illegal", "right")])
def test_nothing_is_taken_for_right_that_is_not(want: str, got: str) -> None:
    assert outcomes()[want, got] == 0


def test_hardly_any_right_answer_is_counted_as_wrong() -> None:
    assert outcomes()["right", "wrong"] <= 2
