"""Golden files: what a test once found right, kept beside it and compared ever after.

`golden("name.txt", text)` compares `text` with `golden/name.txt` in the folder of the test. Only a run
with `--update-golden` writes such a file; a missing or differing one fails.
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass, field
from pathlib import Path

import pytest

OPTION = "--update-golden"


@dataclass
class Golden:
    """Compares texts to the files of one folder, or rewrites them when asked to."""

    folder: Path
    update: bool
    rewritten: list[Path] = field(default_factory=list)

    def __call__(self, name: str, text: str) -> None:
        """Fail unless `text` is what the file called `name` says. Line ends count as LF on every system."""
        path = self.folder / name
        known = path.read_bytes().decode("utf-8").replace("\r\n", "\n") if path.exists() else None
        if known == text:
            return
        if self.update:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode("utf-8"))
            self.rewritten.append(path)
            return
        if known is None:
            pytest.fail(f"There is no golden file {path} yet; {OPTION} writes it.", pytrace=False)
        lines = difflib.unified_diff(
            known.splitlines(keepends=True), text.splitlines(keepends=True), str(path), "now", n=2
        )
        shown = "".join(line if line.endswith("\n") else f"{line}  (no line end)\n" for line in lines)
        pytest.fail(f"{shown}\nNot as in {path}; if this is right now, {OPTION} keeps it.", pytrace=False)
