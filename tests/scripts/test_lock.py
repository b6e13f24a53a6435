"""The lock files, and the chore that writes them."""

from __future__ import annotations

import re
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest
from packaging.requirements import Requirement

from scripts.setting_up import lock_making
from tests.scripts.checkout import ROOT

NAMES = ["build", "play", "dev"]
LOCKS = ROOT / "scripts" / "lock"


def pins(name: str) -> dict[str, str]:
    text = (LOCKS / f"{name}.txt").read_text(encoding="utf-8")
    return dict(re.findall(r"^([a-z0-9.-]+)==(\S+)", text, flags=re.MULTILINE))


def project() -> dict[str, Any]:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", NAMES)
def test_a_lock_has_every_requirement_at_a_version_that_fits(name: str) -> None:
    locked = pins(name)
    for text in lock_making.inputs(project(), LOCKS)[name]:
        wanted = Requirement(text)
        version = locked.get(re.sub(r"[-_.]+", "-", wanted.name).lower())
        assert version is not None, f"run scripts/lock.py: {wanted.name} is missing from {name}.txt"
        assert wanted.specifier.contains(version, prereleases=True), f"run scripts/lock.py: {wanted}"


@pytest.mark.parametrize("name", NAMES)
def test_every_pin_has_a_hash_and_no_address_is_named(name: str) -> None:
    text = (LOCKS / f"{name}.txt").read_text(encoding="utf-8")
    for entry in re.split(r"^(?=[a-z0-9])", text, flags=re.MULTILINE)[1:]:
        assert "--hash=sha256:" in entry
    assert "://" not in text


def test_the_tools_stand_on_the_very_libraries_that_play_uses() -> None:
    assert pins("play").items() <= pins("dev").items()


def test_macos_gets_the_two_parts_for_speech_and_not_all_of_pyobjc() -> None:
    parts = {name for name in pins("play") if name.startswith("pyobjc")}
    assert {"pyobjc-framework-cocoa", "pyobjc-framework-avfoundation"} < parts
    assert "pyobjc" not in parts
    assert len(parts) < 10


def test_an_extra_of_the_project_becomes_a_lock_with_play_inside() -> None:
    with_extra = project()
    with_extra["project"]["optional-dependencies"] = {"neural": ["onnx>=1"]}
    made = lock_making.inputs(with_extra, LOCKS)
    assert list(made) == ["build", "play", "dev", "neural"]
    assert set(made["neural"]) == {*made["play"], "onnx>=1"}


FAKE_UV = """\
import sys
arguments = sys.argv[1:]
out = arguments[arguments.index("--output-file") + 1]
try:
    kept = open(out).read()
except FileNotFoundError:
    kept = ""
open(out, "w").write(kept + {text!r})
sys.exit({status})
"""


def fake_uv(folder: Path, text: str, status: int = 0) -> list[str]:
    (folder / "fake_uv.py").write_text(FAKE_UV.format(text=text, status=status), encoding="utf-8")
    return [sys.executable, str(folder / "fake_uv.py")]


def test_a_lock_is_made_anew_or_goes_on_from_the_pins_there_are(tmp_path: Path) -> None:
    uv, play = fake_uv(tmp_path, "click==8.1\n"), tmp_path / "play.txt"
    lock_making.make(play, ["click"], uv, "3.11", upgrade=False)
    lock_making.make(play, ["click"], uv, "3.11", upgrade=False)
    assert play.read_text(encoding="utf-8").count("click==8.1") == 2
    lock_making.make(play, ["click"], uv, "3.11", upgrade=True)
    assert play.read_text(encoding="utf-8") == lock_making.HEADER + "click==8.1\n"


@pytest.mark.parametrize(("text", "status"), [("a @ https://elsewhere/a.whl\n", 0), ("", 2)])
def test_a_lock_that_went_wrong_leaves_the_one_there_is(tmp_path: Path, text: str, status: int) -> None:
    (tmp_path / "play.txt").write_text("kept", encoding="utf-8")
    with pytest.raises(SystemExit):
        lock_making.make(tmp_path / "play.txt", ["a"], fake_uv(tmp_path, text, status), "3.11", upgrade=True)
    assert (tmp_path / "play.txt").read_text(encoding="utf-8") == "kept"
