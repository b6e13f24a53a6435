"""Scenes at a question, written from the description of a question's life alone (tests/corpus)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from player.stage.happenings import Attempt, Board, Happening, Note, Say
from player.stage.inputs import Did, Woke
from player.stage.state import Telling
from tests.stage.playing import Playing
from tests.stage.sheets import sheet_at

CORPUS = Path(__file__).parent.parent / "corpus"
SCENES = [json.loads(line) for line in (CORPUS / "lives.jsonl").read_text(encoding="utf-8").splitlines()]
NAMES = {"passed": "lapsed", "seen": "right"}


def graded(playing: Playing, out: list[Happening]) -> str:
    """What became of one input, in the corpus's words."""
    tries = [h.grade for h in out if isinstance(h, Attempt)]
    if tries:
        return NAMES.get(tries[0], tries[0])
    if any(isinstance(h, Say) and h.role == "nudge" for h in out):
        return "nudged"
    if playing.state.which is not None:
        return "which"
    boards = [h.why for h in out if isinstance(h, Board)]
    if "what-if" in boards:
        return "what-if"
    if "return" in boards:
        return "home"
    notes = [h for h in out if isinstance(h, Note)]
    if any(note.standing == "board" for note in notes):
        return "illegal"
    return "unclear" if notes else "waiting"


def near(wanted: Any, got: str) -> bool:
    """`verb` and `unclear` are told apart by the words only; `waiting` may come with a note."""
    some = wanted if isinstance(wanted, list) else [wanted]
    alike = {"verb": {"verb", "unclear", "illegal", "home", "waiting"}, "waiting": {"waiting", "unclear"}}
    return any(got == one or got in alike.get(one, set()) for one in some)


@pytest.mark.parametrize("scene", SCENES, ids=[f"{n}-{s['script'][6:-7]}" for n, s in enumerate(SCENES, 1)])
def test_scene(scene: dict[str, Any]) -> None:
    hands_free = bool(scene.get("hands_free"))
    playing = Playing(sheet_at(CORPUS / scene["script"]), Telling(wait=not hands_free)).start()
    for text in scene.get("before", []):
        playing.type(text)
    if not scene.get("before") and scene["question"] > 1:
        playing.feed(Did("go to", f"question {scene['question']}"))
    grades = []
    mark = len(playing.seen)
    key = playing.state.asked.ask.key if playing.state.asked else ""
    for text in scene["inputs"]:
        if text == "<silence>":
            before = len(playing.seen)
            playing.feed(Woke(playing.state.wake))
            out = playing.seen[before:]
        else:
            out = playing.type(text)
        became = graded(playing, out)
        # A question to the board is answered by the board, and is neither a try nor an illegal move.
        grades.append("unclear" if became == "illegal" and text.endswith("?") else became)
    assert len(grades) == len(scene["grades"])
    assert all(near(want, got) for want, got in zip(scene["grades"], grades, strict=True)), grades
    tries = [
        h
        for h in playing.seen[mark:]
        if isinstance(h, Attempt) and h.grade in ("right", "also", "wrong", "seen")
    ]
    counts = scene["tries"] if isinstance(scene["tries"], list) else [scene["tries"]]
    assert len([h for h in tries if h.ask == key]) in counts
    if scene.get("gone_on") is not None:
        still = playing.state.asked is not None and playing.state.asked.ask.key == key
        assert scene["gone_on"] != still
    shown = " ".join(playing.said())
    for wanted in scene.get("says") or []:
        if wanted:
            assert wanted in shown or wanted in " ".join(playing.notes()), (wanted, shown)
