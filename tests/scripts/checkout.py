"""A small checkout in a scratch folder, and an installer that works on it without a registry."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from scripts.setting_up.command import Hands
from scripts.setting_up.place import Place

ROOT = Path(__file__).resolve().parents[2]
VERSION = f"{sys.version_info[0]}.{sys.version_info[1]}"
LOCKS = {
    "build": "setuptools==80.0 \\\n    --hash=sha256:00\nwheel==0.45 \\\n    --hash=sha256:01\n",
    "play": (
        "chess==1.11.2 \\\n    --hash=sha256:02\n"
        "click==8.1 \\\n    --hash=sha256:03\n"
        "pywin32==300 ; sys_platform == 'win32' \\\n    --hash=sha256:04\n"
    ),
    "dev": "chess==1.11.2 \\\n    --hash=sha256:02\npytest==8.4 \\\n    --hash=sha256:05\n",
    "neural": "onnx==1.0 \\\n    --hash=sha256:06\n",
}
MAIN = """\
import sys


def main():
    print("told", sys.argv[1:], sys.prefix)
    return 7
"""


def make_checkout(folder: Path, *, windows: bool = False) -> Place:
    """A checkout with the real scripts, small locks, and a `moveteller` that prints its arguments."""
    shutil.copytree(
        ROOT / "scripts", folder / "scripts", ignore=shutil.ignore_patterns("lock", "__pycache__")
    )
    (folder / "scripts" / "lock").mkdir()
    for name, text in LOCKS.items():
        (folder / "scripts" / "lock" / f"{name}.txt").write_text(text, encoding="utf-8")
    (folder / "player" / "cli").mkdir(parents=True)
    for package in ("player", "player/cli"):
        (folder / package / "__init__.py").touch()
    (folder / "player" / "cli" / "main.py").write_text(MAIN, encoding="utf-8")
    return Place(folder, windows=windows)


@dataclass
class Bench:
    """Stands in for the terminal, for venv and pip, and for the programs that are started in the end.

    `fail` maps a word of a command to what the installer says when it fails there; `before` is done when the
    installer is called. `status` maps a word of a shown command to its exit status.
    """

    place: Place
    fail: dict[str, str] = field(default_factory=dict)
    before: Callable[[Sequence[str]], None] = lambda command: None
    status: dict[str, int] = field(default_factory=dict)
    said: list[str] = field(default_factory=list)
    ran: list[str] = field(default_factory=list)
    commands: list[Sequence[str]] = field(default_factory=list)
    shown: list[Sequence[str]] = field(default_factory=list)
    handed_over: list[Sequence[str]] = field(default_factory=list)

    def hands(self) -> Hands:
        return Hands(self.said.append, self.run, self.hand_over, self.show)

    def run(self, command: Sequence[str], hear: Callable[[str], None]) -> int:
        """Do what venv and pip would have done, as far as the scripts look."""
        name = "venv" if "venv" in command else Path(command[-1]).stem
        self.ran.append(name)
        self.commands.append(command)
        self.before(command)
        if name in self.fail:
            for line in self.fail[name].splitlines():
                hear(line)
            return 1
        if name == "venv":
            make_venv(self.place)
        else:
            text = Path(command[-1]).read_text(encoding="utf-8")
            pins = re.findall(r"^([a-z0-9]+)==(\S+)", text, flags=re.MULTILINE)
            for name, _ in (pin for pin in pins if pin[0] == "pywin32"):
                hear(f"Ignoring {name}: markers 'sys_platform == \"win32\"' don't match your environment")
            for name, version in (pin for pin in pins if pin[0] != "pywin32"):
                hear(f"Collecting {name}=={version} (from -r {command[-1]} (line 1))")
            hear("Installing collected packages: and so on")
        return 0

    def hand_over(self, command: Sequence[str]) -> int:
        self.handed_over.append(command)
        return 0

    def show(self, command: Sequence[str], folder: Path) -> int:
        assert folder == self.place.root
        self.shown.append(command)
        return next((status for word, status in self.status.items() if word in command), 0)


def make_venv(place: Place) -> None:
    """The bones of a virtual environment of the Python that runs this."""
    libraries = "Lib" if place.windows else f"lib/python{VERSION}"
    (place.venv / libraries / "site-packages").mkdir(parents=True, exist_ok=True)
    place.programs.mkdir(exist_ok=True)
    home = Path(sys.executable).resolve().parent
    (place.venv / "pyvenv.cfg").write_text(f"home = {home}\nversion = {VERSION}.1\n", encoding="utf-8")
    if not os.path.lexists(place.python):
        place.python.symlink_to(Path(sys.executable).resolve())
