"""Every kind of fault and query: its place, what it says, and the line it shows as right."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import player.script
from player.script.faults import Fault, caret, lines_of
from tests.golden import Golden
from tests.script.corpora import outcome_of
from tests.script.fault_cases import CASES

SOURCES = sorted(Path(player.script.__file__).parent.glob("*.py"))
CODE = re.compile(r"[a-z]+(?:-[a-z]+)+")


@pytest.mark.parametrize("code", CASES)
def test_kind(code: str, golden: Golden) -> None:
    said = []
    for number, script in enumerate(CASES[code], 1):
        outcome = outcome_of(script)
        every = sorted(outcome.faults + outcome.queries, key=lambda fault: (fault.line, fault.column))
        assert code in {fault.code for fault in every}, script
        said.append(f"-- {number}\n" + "".join(f"{fault.code}: {caret(fault, script)}\n" for fault in every))
    golden(f"{code}.txt", "\n".join(said))


def test_each_says_it_in_one_or_two_sentences_and_points_into_the_script() -> None:
    for scripts in CASES.values():
        for script in scripts:
            lines = lines_of(script)
            outcome = outcome_of(script)
            for fault in outcome.faults + outcome.queries:
                assert fault.message.endswith((".", "?"))
                assert len(re.findall(r"[.?](?: [A-Z]|$)", fault.message)) <= 2, fault.message
                assert 1 <= fault.line <= len(lines)
                assert 1 <= fault.column <= len(lines[fault.line - 1]) + 1
                assert fault.width >= 1


def test_every_kind_that_the_code_can_tell_has_a_case() -> None:
    told = set()
    for source in SOURCES:
        for node in ast.walk(ast.parse(source.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and _name(node) in (
                "fault",
                "query",
                "Lost",
                "NoBoard",
                "misplaced",
            ):
                constants = [arg.value for arg in node.args[:2] if isinstance(arg, ast.Constant)]
                told |= {code for code in constants if isinstance(code, str) and CODE.fullmatch(code)}
            if isinstance(node, ast.Yield) and isinstance(node.value, ast.Tuple):
                constants = [item.value for item in node.value.elts if isinstance(item, ast.Constant)]
                told |= {code for code in constants if isinstance(code, str) and CODE.fullmatch(code)}
    assert len(told) >= 60
    assert told == set(CASES)


def test_a_slip_told_in_one_place_is_told_once() -> None:
    script = CASES["unknown-key"][0]
    queries = [query for query in outcome_of(script).queries if query.code == "unknown-key"]
    assert [query.line for query in queries] == [6, 10]


def test_the_caret_stands_under_the_part_meant_even_after_tabs_and_never_shows_a_control() -> None:
    shown = caret(Fault(1, 3, 4, "fault", "some-code", "Not so."), "\t\x1bclam: x")
    assert shown.splitlines()[1:] == ["    \t\ufffdclam: x", "    \t ^^^^"]


def test_lines_are_counted_as_an_editor_counts_them() -> None:
    assert lines_of("a\r\nb\rc\nd\u2028e\vf") == ["a", "b", "c", "d\u2028e\vf"]


def _name(call: ast.Call) -> str:
    if isinstance(call.func, ast.Attribute):
        return call.func.attr
    return call.func.id if isinstance(call.func, ast.Name) else ""
