"""The two commands for real, on a copy of the checkout and an empty home: needs a package registry."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from scripts.setting_up.place import base_python
from tests.scripts.checkout import ROOT

pytestmark = pytest.mark.large


@pytest.fixture(scope="module")
def clone(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("clone") / "fresh clone"
    left_out = shutil.ignore_patterns(".git", ".venv*", "__pycache__", ".*_cache", ".hypothesis")
    shutil.copytree(ROOT, folder, ignore=left_out)
    return folder


def start(clone: Path, script: str, *args: str) -> subprocess.CompletedProcess[str]:
    home = clone.parent / "home"
    home.mkdir(exist_ok=True)
    env = {
        name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV"))
    }
    command = [base_python(), str(clone / "scripts" / script), *args]
    return subprocess.run(
        command, cwd=clone.parent, env=env | {"HOME": str(home)}, capture_output=True, text=True
    )


def test_play_installs_once_and_then_only_plays(clone: Path) -> None:
    first = start(clone, "play.py", "--help")
    assert first.returncode == 0, first.stderr
    assert "All the libraries are in place." in first.stderr
    second = start(clone, "play.py", "--help")
    assert (second.returncode, second.stdout, second.stderr) == (0, first.stdout, "")
    assert "Usage" in second.stdout


def test_test_runs_every_check_and_ends_with_what_pytest_says(clone: Path) -> None:
    done = start(clone, "test.py", "tests/scripts/test_lock.py")
    assert "No broken contracts" in done.stdout or "0 broken" in done.stdout
    assert " passed in " in done.stdout.strip().splitlines()[-1]
    assert done.returncode == 0, done.stderr
