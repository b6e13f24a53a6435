"""Spoilt scripts: no traceback, no hang, and every fault points into the text."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.script.faults import Fault, caret, lines_of
from player.script.follow import follow
from player.script.read import read
from player.script.write import script_text
from tests.script.bare import bare
from tests.script.corpora import CORPUS, index
from tests.script.mutants import mutant

SCRIPTS = [
    (CORPUS / folder / file).read_bytes().decode("utf-8")
    for folder, files in {
        "rules": [record["file"] for record in index("rules/index.jsonl")],
        "returns": [record["good"] for record in index("returns/index.jsonl")],
        "wordprocessor": [record["file"] for record in index("wordprocessor/index.jsonl")],
    }.items()
    for file in files
]


def _survives(source: str) -> None:
    lesson, first = read(source)
    _, second = follow(lesson)
    lines = lines_of(source)
    for fault in first + second:
        assert 1 <= fault.line <= len(lines)
        assert 1 <= fault.column <= len(lines[fault.line - 1]) + 1
        assert fault.width >= 1
    for fault in (first + second)[:30]:
        assert not set(map(ord, _shown(fault, source))) & {0, 7, 8, 27, 127, 0x202E}


def _shown(fault: Fault, source: str) -> str:
    return caret(fault, source) + fault.message + fault.fix


@pytest.mark.parametrize("batch", range(15))
def test_spoilt_scripts_are_read_and_followed(batch: int) -> None:
    for seed in range(batch * 100, batch * 100 + 100):
        _survives(mutant(Random(seed), SCRIPTS))


@pytest.mark.large
@pytest.mark.parametrize("batch", range(15, 200))
def test_many_spoilt_scripts_are_read_and_followed(batch: int) -> None:
    for seed in range(batch * 100, batch * 100 + 100):
        _survives(mutant(Random(seed), SCRIPTS))


@pytest.mark.parametrize("batch", range(5))
def test_a_spoilt_script_once_read_can_be_written_and_read_again(batch: int) -> None:
    for seed in range(batch * 40, batch * 40 + 40):
        lesson, _ = read(mutant(Random(seed), SCRIPTS))
        again, _ = read(script_text(lesson))
        assert bare(read(script_text(again))[0]) == bare(again)


@given(st.text(max_size=300))
def test_any_text_at_all_is_read(text: str) -> None:
    _survives(text)


@given(st.binary(max_size=300))
def test_any_bytes_at_all_are_read(raw: bytes) -> None:
    _survives(raw.decode("utf-8", "surrogateescape"))


@pytest.mark.parametrize(
    "source",
    [
        "{" * 20_000,
        "}" * 20_000,
        "\\" * 20_000,
        "[" * 20_000,
        "{a" * 10_000,
        "{Nf3: " + "* " * 10_000 + "}",
        "word " * 20_000,
        "x\n" * 10_000,
        "# c\n" * 10_000,
        "aside: x\n" * 2_000,
        "Aside: x\n" * 2_000,
        "".join("  " * depth + "aside: deeper\n" for depth in range(2_000)),
        "show: " + "e4, " * 10_000,
        "board: " + "/" * 10_000,
        "imagine: " + "remove e4, " * 2_000 + "\n  x",
        "\u2014" * 20_000,
        "0\u2013" * 10_000,
        "a:" * 10_000,
        "idea " + "a " * 10_000,
        "[" + "9" * 5_000 + ":00] x",
        "{Nf3 @" + "9:" * 5_000 + "}",
        "question: x\n" + "  answer: e4\n" * 2_000,
        "pause: " + "9" * 5_000 + "s",
        "series: x, " + "9" * 5_000 + " of 9",
        "board: back " + "9" * 5_000 + " moves",
        "game: " + "a - " * 5_000,
        "claim: " + "a" * 50_000,
    ],
    ids=lambda source: source[:12].encode("unicode_escape").decode(),
)
def test_a_great_heap_of_one_thing_is_read(source: str) -> None:
    _survives(source)
