"""Colour against no-color.org: NO_COLOR, present and not empty, turns colour off whatever its value."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.worlds import scratch_world


@pytest.mark.parametrize(
    ("env", "colour"),
    [
        ({}, True),
        ({"NO_COLOR": ""}, True),
        ({"NO_COLOR": "1"}, False),
        ({"NO_COLOR": "0"}, False),
        ({"NO_COLOR": "false"}, False),
    ],
)
def test_no_color(tmp_path: Path, env: dict[str, str], colour: bool) -> None:
    assert scratch_world(tmp_path, env=env, terminal=True).colour_wanted is colour
