"""The lock files scripts/lock/*.txt, made from pyproject.toml.

`build.txt` is what builds the one library that comes as source, `play.txt` what Moveteller runs on, `dev.txt`
that and the tools of its tests. Each extra of pyproject.toml gets a file of its own, with `play.txt` inside.
A lock holds for every system and for every Python that pyproject.toml allows; it names no registry.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path
from typing import Any

HEADER = "# Made by scripts/lock.py from pyproject.toml. Do not edit by hand.\n"


def inputs(project: dict[str, Any], locks: Path) -> dict[str, list[str]]:
    """What each lock file is made of: requirements by the name of the lock, in the order to make them."""
    play = [*project["project"]["dependencies"], *requirement_lines(locks / "macos.in")]
    groups = project["dependency-groups"]
    extras = project["project"].get("optional-dependencies", {})
    made = {"build": groups["build"], "play": play, "dev": [*play, *groups["dev"]]}
    return made | {name: [*play, *wanted] for name, wanted in extras.items()}


def requirement_lines(path: Path) -> list[str]:
    """The lines of a requirements file that are not comments or blank."""
    lines = (line.strip() for line in path.read_text(encoding="utf-8").splitlines())
    return [line for line in lines if line and not line.startswith("#")]


def find_uv(root: Path) -> list[str]:
    """The command that runs uv, from this Python, the one in .venv, or the search path."""
    for python in (sys.executable, root / ".venv/bin/python", root / ".venv/Scripts/python.exe"):
        asked = [str(python), "-m", "uv"]
        if (
            Path(python).exists()
            and not subprocess.run([*asked, "--version"], capture_output=True).returncode
        ):
            return asked
    if (found := shutil.which("uv")) is not None:
        return [found]
    sys.exit("Making the lock files needs uv, and it is not here. Install it, for one with: pip install uv")


def make(lock: Path, wanted: list[str], uv: list[str], oldest_python: str, *, upgrade: bool) -> None:
    """Resolve `wanted` for every system and replace the lock file, or exit and leave it as it was."""
    name, locks = lock.stem, lock.parent
    with tempfile.TemporaryDirectory() as scratch:
        source, made = Path(scratch, "wanted.in"), Path(scratch, "made.txt")
        source.write_text("\n".join(wanted) + "\n", encoding="utf-8")
        if lock.exists() and not upgrade:
            shutil.copy(lock, made)  # uv keeps the pins that it finds in its output file
        command = [*uv, "--quiet", "pip", "compile", "--universal", "--python-version", oldest_python]
        command += ["--generate-hashes", "--no-emit-index-url", "--no-header", "--no-annotate"]
        command += ["--excludes", str(locks / "left_out.in"), "--output-file", str(made), str(source)]
        if name not in ("build", "play"):
            command += ["--constraints", str(locks / "play.txt")]
        if subprocess.run(command, stdout=subprocess.DEVNULL).returncode:
            sys.exit(f"uv could not make the lock called {name}; what it said is above.")
        text = HEADER + made.read_text(encoding="utf-8")
    if "://" in text:
        sys.exit(f"The lock called {name} would name an address, so it is left as it was.")
    fresh = lock.with_suffix(".new")
    fresh.write_text(text, encoding="utf-8", newline="\n")
    os.replace(fresh, lock)
    pins = re.findall(r"^[a-z0-9.-]+==", text, flags=re.MULTILINE)
    print(f"{name}: {len(pins)} packages")


def main(args: list[str], root: Path) -> None:
    """Make every lock file of a checkout."""
    parser = argparse.ArgumentParser(description="Write the lock files from pyproject.toml.")
    parser.add_argument("--upgrade", action="store_true", help="take the newest versions that fit")
    upgrade = parser.parse_args(args).upgrade
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    oldest_python = project["project"]["requires-python"].removeprefix(">=")
    locks = root / "scripts" / "lock"
    uv = find_uv(root)
    for name, wanted in inputs(project, locks).items():
        make(locks / f"{name}.txt", wanted, uv, oldest_python, upgrade=upgrade)
