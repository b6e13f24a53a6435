"""The corpus of scripts: what is good is told as its index says, and each fault stands where it says.

The checker judges claims, so lines that are wrong only in their claim are not looked at here, nor are the
queries of a script with a `fine:` line, which the checker settles.
"""

from __future__ import annotations

from typing import Any

import pytest

from player.script.told import Told, ToldBeat, ToldBlock, ToldIdea
from tests.script.corpora import (
    CORPUS,
    Outcome,
    blocks,
    epd,
    index,
    last_place,
    moves_told,
    outcome,
    questions,
    sans,
    turns,
)

RULES = {record["file"]: record for record in index("rules/index.jsonl")}
RETURNS = {record["good"]: record for record in index("returns/index.jsonl")}
WORDPROCESSOR = {record["file"]: record for record in index("wordprocessor/index.jsonl")}

READ_OTHERWISE = {"54-mark-inside-an-aside-used-outside.bad.lesson"}
"""Cases that the index calls doubtful, read the other way: a mark is a place, to be gone to from anywhere."""


@pytest.mark.parametrize("file", [file for file, record in RULES.items() if record["expect"] == "good"])
def test_good_by_rule(file: str) -> None:
    _told_right(RULES[file], outcome(CORPUS / "rules" / file), _text("rules", file))


@pytest.mark.parametrize("file", [file for file, record in RULES.items() if record["expect"] == "fault"])
def test_fault_by_rule(file: str) -> None:
    _faulty(RULES[file], outcome(CORPUS / "rules" / file), _text("rules", file))


@pytest.mark.parametrize("file", RETURNS)
def test_return_and_its_twin(file: str) -> None:
    record = RETURNS[file]
    _told_right(record, outcome(CORPUS / "returns" / file), _text("returns", file))
    if record["bad"] not in READ_OTHERWISE:
        _faulty(record, outcome(CORPUS / "returns" / record["bad"]), _text("returns", record["bad"]))


@pytest.mark.parametrize("file", WORDPROCESSOR)
def test_what_a_word_processor_left_behind(file: str) -> None:
    _told_right(WORDPROCESSOR[file], outcome(CORPUS / "wordprocessor" / file), "")


def _text(folder: str, file: str) -> str:
    return (CORPUS / folder / file).read_bytes().decode("utf-8")


def _told_right(record: dict[str, Any], said: Outcome, text: str) -> None:
    assert said.faults == ()
    assert list(moves_told(said.told.body)) == record["told"]
    assert epd(last_place(said.told.body))[: len(record["final"].split())] == record["final"].split()
    if "queries" in record and "fine:" not in text:
        assert [query.line for query in said.queries] == record["queries"]
    if "stamps" in record:
        assert [ms / 1000 for beat in _beats(said.told.body) if (ms := beat.stamp_ms) is not None] == record[
            "stamps"
        ]
    if "beats" in record:
        assert len(_beats(said.told.body)) == record["beats"]
    if "imagined" in record:
        imagined = [
            " ".join(epd(block.inner)[:2]) for block in blocks(said.told.body) if block.kind == "imagine"
        ]
        assert imagined == record["imagined"]
    if "title" in record:
        assert said.told.header.title == record["title"]
    if "ideas" in record:
        assert [told.name for told in said.told.body if isinstance(told, ToldIdea)] == record["ideas"]
    _asked_right(record, said)


def _asked_right(record: dict[str, Any], said: Outcome) -> None:
    asked = list(questions(said.told.body))
    if "answers" in record:
        assert len(asked) == len(record["answers"])
        for question, expected in zip(asked, record["answers"], strict=True):
            by_move = question.kind == "move"
            assert question.kind == expected["ask"]
            if "answer" in expected:
                assert (sans(question, question.answers) if by_move else list(question.answers)) == expected[
                    "answer"
                ]
            also = [answer for reply in question.also for answer in reply.answers]
            if "also" in expected:
                assert (sans(question, also) if by_move else also) == expected["also"]
            because = question.because.shown if question.because else ""
            assert all(part in because for part in _list(expected.get("because_has", [])))
            assert not any(part in because for part in _list(expected.get("because_not", [])))
            assert question.about == tuple(_list(expected.get("about", list(question.about))))
            assert len(question.nudges) == expected.get("nudges", len(question.nudges))
            if "think" in expected:
                assert question.think_ms == expected["think"] * 1000
            assert list(question.choices) == expected.get("choices", list(question.choices))
            assert question.again == expected.get("key", question.again)
    for expected in record.get("replies", []):
        question = asked[expected["question"] - 1]
        replies = [
            [turn.san for turn in turns(reply.text)]
            for reply in question.replies
            if expected["move"] in sans(question, reply.answers)
        ]
        assert replies == [expected["played"]]


def _faulty(record: dict[str, Any], said: Outcome, text: str) -> None:
    lines = [record["line"], *record.get("or_lines", [])]
    by_checker = any(text.split("\n")[line - 1].strip().startswith("claim:") for line in lines)
    here = [fault for fault in said.faults if fault.line in lines]
    if not by_checker:
        assert here, f"no fault on {lines}: {said.faults}"
    if here and "columns" in record:
        first, last = record["columns"]
        assert any(first <= fault.column <= last for fault in here)
    if record.get("alone"):
        assert [fault for fault in said.faults if fault.line not in lines] == []
    if "faults_exactly" in record:
        assert len(said.faults) == record["faults_exactly"]


def _beats(body: tuple[Told, ...]) -> list[ToldBeat]:
    """The beats of the script itself; those of a retelling are made by the program."""
    made: list[ToldBeat] = []
    for told in body:
        if isinstance(told, ToldBeat):
            made.append(told)
        elif isinstance(told, ToldBlock) and told.kind != "retell":
            made += _beats(told.body)
    return made


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]
