"""`test.py`: every check, pytest last, and a status that says whether all were content."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

from scripts.setting_up import command
from tests.scripts.checkout import ROOT, Bench, make_checkout


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(make_checkout(tmp_path / "checkout"))


def test_it_installs_the_tools_too_and_runs_all_checks_in_order(bench: Bench) -> None:
    assert command.test(["-x", "tests/world"], bench.place, bench.hands()) == 0
    assert bench.ran == ["venv", "build", "dev"]
    assert [" ".join(each[1:4]) for each in bench.shown[:3]] == ["-m ruff check", "-m ruff format", "-m mypy"]
    assert "importlinter" in bench.shown[3][2]
    assert bench.shown[4][1:] == ["-m", "pytest", "-x", "tests/world"]
    command.test([], bench.place, bench.hands())
    assert bench.ran == ["venv", "build", "dev"]


def test_the_tools_include_what_play_needs(bench: Bench) -> None:
    command.test([], bench.place, bench.hands())
    command.play([], bench.place, bench.hands())
    assert bench.ran == ["venv", "build", "dev"]


@pytest.mark.parametrize(
    ("status", "result", "told"),
    [
        ({"pytest": 5}, 5, None),
        ({"ruff": 1}, 1, "Not content, see above: ruff check, ruff format."),
        ({"mypy": 2, "pytest": 3}, 3, "Not content, see above: mypy."),
    ],
)
def test_a_check_that_fails_stops_none_of_the_others_and_counts(
    bench: Bench, status: dict[str, int], result: int, told: str | None
) -> None:
    bench.status = status
    assert command.test([], bench.place, bench.hands()) == result
    assert len(bench.shown) == 5
    assert bench.said[-1] == (told or "== pytest")


def test_without_its_tools_it_runs_nothing(bench: Bench) -> None:
    bench.fail = {"dev": "[Errno 28] No space left on device"}
    assert command.test([], bench.place, bench.hands()) == 2
    assert bench.shown == []
    assert bench.said[-1] == "The disk is full. Make some room (about 250 MB) and run this again."


@pytest.mark.skipif(os.name != "posix", reason="needs a POSIX shell")
def test_a_command_shown_runs_in_the_folder_and_gives_its_status(tmp_path: Path) -> None:
    assert command.show(["sh", "-c", "echo here > file; exit 4"], tmp_path) == 4
    assert (tmp_path / "file").read_text() == "here\n"


@pytest.mark.skipif(os.name != "posix", reason="the file is for bash")
def test_the_run_of_continuous_integration_passes_arguments_and_status_on(tmp_path: Path) -> None:
    script = tmp_path / ".ci" / "run"
    script.parent.mkdir()
    script.write_bytes((ROOT / ".ci" / "run").read_bytes())
    (tmp_path / "scripts").mkdir()
    (tmp_path / "scripts" / "test.py").write_text("import sys; print(sys.argv[1:]); sys.exit(6)\n")
    done = subprocess.run(["bash", str(script), "-x", "a b"], capture_output=True, text=True, cwd="/")
    assert (done.returncode, done.stdout, done.stderr) == (6, "['-x', 'a b']\n", "")
