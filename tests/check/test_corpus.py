"""The corpus of scripts, checked: what is good has no fault, and each faulty claim is found on its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.check.checking import faults_in
from tests.script.corpora import CORPUS, index

RULES = {record["file"]: record for record in index("rules/index.jsonl")}
RETURNS = {record["good"]: record for record in index("returns/index.jsonl")}


@pytest.mark.parametrize("file", [file for file, record in RULES.items() if record["expect"] == "good"])
def test_good(file: str) -> None:
    found = faults_in(CORPUS / "rules" / file)
    assert [fault for fault in found if fault.severity == "fault"] == []
    if "queries" in RULES[file]:
        assert [fault.line for fault in found if fault.severity == "query"] == RULES[file]["queries"]


@pytest.mark.parametrize("file", [file for file, record in RULES.items() if record["expect"] == "fault"])
def test_fault(file: str) -> None:
    _faulty(CORPUS / "rules" / file, RULES[file])


@pytest.mark.parametrize("file", RETURNS)
def test_return(file: str) -> None:
    assert [fault for fault in faults_in(CORPUS / "returns" / file) if fault.severity == "fault"] == []


@pytest.mark.parametrize("file", [record["file"] for record in index("wordprocessor/index.jsonl")])
def test_what_a_word_processor_left_behind(file: str) -> None:
    found = faults_in(CORPUS / "wordprocessor" / file)
    assert [fault for fault in found if fault.severity == "fault"] == []


def _faulty(path: Path, record: dict[str, object]) -> None:
    lines = [fault.line for fault in faults_in(path) if fault.severity == "fault"]
    or_lines = record.get("or_lines", [])
    assert isinstance(or_lines, list)
    allowed = {record["line"], *or_lines}
    assert allowed & set(lines)
    if record.get("alone"):
        assert set(lines) <= allowed
    if "faults_exactly" in record:
        assert len(lines) == record["faults_exactly"]
