"""What `pip wheel .` packs: the whole of player/, data and all, with the demo lessons in it."""

from __future__ import annotations

import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.scripts.checkout import ROOT

# One more of each kind of data file, so that the check does not hang on what happens to be there today.
MORE = (
    "player/help/a page.md",
    "player/script/grammar of a test.lark",
    "player/wording/words.toml",
    "player/screen/dress.tcss",
    "demo_lessons/series/one.lesson",
)


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel") / "checkout"
    without = shutil.ignore_patterns("__pycache__")
    for name in ("player", "demo_lessons"):
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, folder / name, ignore=without)
    for path in (*ROOT.glob("*.md"), ROOT / "pyproject.toml", ROOT / "LICENSE", ROOT / ".gitignore"):
        shutil.copy(path, folder)
    for name in MORE:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("data\n", encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def installed(checkout: Path) -> Path:
    """The wheel of the checkout, unpacked as an installer would."""
    pip = [sys.executable, "-I", "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--no-index"]
    done = subprocess.run([*pip, "--wheel-dir", str(checkout.parent), "."], cwd=checkout, capture_output=True)
    assert done.returncode == 0, done.stderr.decode()
    (wheel,) = checkout.parent.glob("*.whl")
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(checkout.parent / "installed")
    return checkout.parent / "installed"


def files(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_every_file_of_the_player_and_of_the_demo_lessons_is_packed(checkout: Path, installed: Path) -> None:
    expected = {f"player/{name}" for name in files(checkout / "player")}
    expected |= {f"player/demo_lessons/{name}" for name in files(checkout / "demo_lessons")}
    assert {name for name in files(installed) if not name.split("/")[0].endswith(".dist-info")} == expected
    assert {f"player/{MORE[-1]}", *MORE[:-1]} < expected


def test_the_command_and_the_licence_go_with_it(installed: Path) -> None:
    (about,) = installed.glob("moveteller-*.dist-info")
    assert "moveteller = player.cli.main:main" in (about / "entry_points.txt").read_text(encoding="utf-8")
    assert "License-Expression: GPL-3.0-or-later" in (about / "METADATA").read_text(encoding="utf-8")
    assert any(name.endswith("LICENSE") for name in files(about))


def test_the_demo_lessons_are_found_installed_and_in_a_checkout(checkout: Path, installed: Path) -> None:
    code = "from player.world.demo import demo_lessons; print(demo_lessons())"
    for folder, found in (
        (checkout, checkout / "demo_lessons"),
        (installed, installed / "player" / "demo_lessons"),
    ):
        done = subprocess.run([sys.executable, "-c", code], cwd=folder, capture_output=True, text=True)
        assert Path(done.stdout.strip()) == found.resolve(), done.stderr
    shutil.move(checkout / "demo_lessons", checkout / "taken out")
    done = subprocess.run([sys.executable, "-c", code], cwd=checkout, capture_output=True, text=True)
    assert done.stdout.strip() == "None"
