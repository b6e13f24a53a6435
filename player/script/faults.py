"""Faults and queries: what is wrong with a script, where, and how it would be right."""

from __future__ import annotations

import re
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


CONTROLS = "\x00-\x08\x0e-\x1b\x7f-\x84\x86-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufff9-\ufffb"
"""Characters, as the inside of a regular expression's brackets, that never go to a terminal."""

_UNSHOWN = re.compile(f"[{CONTROLS}\v\f\x1c-\x1f\x85\u2028\u2029]")


def lines_of(source: str) -> list[str]:
    """The lines of a text as an editor counts them: parted by LF, CRLF or CR and by nothing else."""
    return re.split("\r\n|\n|\r", source)


def caret(fault: Fault, source: str) -> str:
    """The fault for a person: place, message, the line with a caret under the part meant, and the example."""
    lines = lines_of(source)
    text = _UNSHOWN.sub("\ufffd", lines[fault.line - 1]) if 0 < fault.line <= len(lines) else ""
    lead = "".join("\t" if c == "\t" else " " for c in text[: fault.column - 1])
    said = [f"line {fault.line}, column {fault.column}: {fault.severity}: {fault.message}"]
    if text.strip():
        said += [f"    {text}", f"    {lead}{'^' * max(1, min(fault.width, len(text) - fault.column + 1))}"]
    if fault.fix:
        said.append(f"    for example: {fault.fix}")
    return "\n".join(said)
