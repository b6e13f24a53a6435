"""The folders of a user, and how a test or a user moves them elsewhere."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from player.world.folders import folders_for
from player.world.trouble import Trouble


def test_one_variable_moves_all_four(tmp_path: Path) -> None:
    folders = folders_for({"MOVETELLER_HOME": str(tmp_path), "XDG_CONFIG_HOME": "/elsewhere"})
    assert [folders.config, folders.data, folders.cache, folders.state] == [
        tmp_path / name for name in ("config", "data", "cache", "state")
    ]
    assert list(tmp_path.iterdir()) == []


def test_a_relative_one_is_refused_with_its_value() -> None:
    with pytest.raises(Trouble, match='it is "here"'):
        folders_for({"MOVETELLER_HOME": "here"})


def test_asking_leaves_the_environment_of_the_process_alone(tmp_path: Path) -> None:
    before = dict(os.environ)
    found = folders_for({"HOME": str(tmp_path)})
    assert dict(os.environ) == before
    assert found != folders_for(os.environ)


def test_the_process_asks_for_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("MOVETELLER_HOME", str(tmp_path))
    assert folders_for(os.environ).data == tmp_path / "data"
