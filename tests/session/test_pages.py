"""The pages of help and the Markdown they are written in."""

from __future__ import annotations

from pathlib import Path

import pytest

from player.session.pages import COMMANDS, lines_of, markdown, page_names, said_as
from player.stage.registry import BY_NAME

PAGE = """# Head #1

Say `back` **now**, or `go on`.

    moveteller *x*

```
title: *x* `y`

# no head
```
* an item
"""


def test_every_file_is_a_page() -> None:
    files = {path.stem for path in (Path(__file__).parents[2] / "player" / "help").glob("*.md")}
    assert page_names() == sorted(files | {COMMANDS})
    assert all(name in markdown("start") for name in page_names())
    with pytest.raises(OSError):
        markdown("no such page")


def test_lines_lose_their_marks_and_examples_keep_them() -> None:
    assert [(line.kind, line.text) for line in lines_of(PAGE)] == [
        ("head", "Head #1"),
        ("words", ""),
        ("words", "Say back now, or go on."),
        ("words", ""),
        ("indented", "    moveteller *x*"),
        ("words", ""),
        ("fenced", "title: *x* `y`"),
        ("fenced", ""),
        ("fenced", "# no head"),
        ("words", "* an item"),
    ]
    assert lines_of(PAGE)[2].pieces == (
        ("Say ", False), ("back", True), (" now, or ", False), ("go on", True), (".", False)
    )  # fmt: skip


def test_actions_are_said_with_what_belongs_to_them() -> None:
    assert [said_as(BY_NAME[name]) for name in ("what if", "look", "home")] == [
        "what if ...", "look [...]", "home"
    ]  # fmt: skip
