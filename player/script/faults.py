"""Faults and queries: what is wrong with a script, where, and how it would be right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["fault", "query"]


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong (`fault`) or doubtful (`query`) in a script.

    `line` and `column` count from 1; `width` is the number of characters meant. `code` is a short stable name
    such as "illegal-move". `message` is one or two plain sentences. `fix` is a corrected example, mostly the
    line as it should read, or "".
    """

    line: int
    column: int
    width: int
    severity: Severity
    code: str
    message: str
    fix: str = ""


def caret(fault: Fault, source: str) -> str:
    """The fault for a person: place, message, the line with a caret under the part meant, and the example."""
    lines = source.splitlines()
    text = lines[fault.line - 1] if 0 < fault.line <= len(lines) else ""
    lead = "".join("\t" if c == "\t" else " " for c in text[: fault.column - 1])
    said = [f"line {fault.line}, column {fault.column}: {fault.severity}: {fault.message}"]
    if text.strip():
        said += [f"    {text}", f"    {lead}{'^' * max(1, min(fault.width, len(text) - fault.column + 1))}"]
    if fault.fix:
        said.append(f"    for example: {fault.fix}")
    return "\n".join(said)
