"""The folders against the XDG Base Directory Specification, version 0.8 (8 May 2021).

It gives each base folder's default for a variable that is unset or empty, and says that a path which is not
absolute is to be ignored.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from player.world.folders import Folders, folders_for

pytestmark = pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="XDG is not the custom here")

DEFAULTS = Folders(
    config=Path("/home/ines/.config/moveteller"),
    data=Path("/home/ines/.local/share/moveteller"),
    cache=Path("/home/ines/.cache/moveteller"),
    state=Path("/home/ines/.local/state/moveteller"),
)
VARIABLES = {
    "config": "XDG_CONFIG_HOME",
    "data": "XDG_DATA_HOME",
    "cache": "XDG_CACHE_HOME",
    "state": "XDG_STATE_HOME",
}


@pytest.mark.parametrize("value", [None, "", "relative/path", "./here", "~/tilde"])
def test_unset_empty_and_relative_values_mean_the_default(value: str | None) -> None:
    env = {"HOME": "/home/ines"}
    if value is not None:
        env |= dict.fromkeys(VARIABLES.values(), value)
    assert folders_for(env) == DEFAULTS


@pytest.mark.parametrize("name", VARIABLES)
def test_each_absolute_value_moves_its_own_folder_alone(name: str) -> None:
    found = folders_for({"HOME": "/home/ines", VARIABLES[name]: "/else where"})
    for each in VARIABLES:
        expected = Path("/else where/moveteller") if each == name else getattr(DEFAULTS, each)
        assert getattr(found, each) == expected
