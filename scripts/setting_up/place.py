"""Where things are: the checkout, its .venv, and what lies in it on each system."""

from __future__ import annotations

import os
import re
import sys
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Place:
    """A checkout and the .venv in it, which need not be there yet. `windows`: how its folders are named."""

    root: Path
    windows: bool = os.name == "nt"

    @property
    def venv(self) -> Path:
        return self.root / ".venv"

    @property
    def programs(self) -> Path:
        """The folder of programs in .venv."""
        return self.venv / ("Scripts" if self.windows else "bin")

    @property
    def python(self) -> Path:
        return self.programs / ("python.exe" if self.windows else "python")

    @property
    def starter(self) -> Path:
        """The small Python file that runs the `moveteller` command."""
        return self.programs / ("moveteller-script.py" if self.windows else "moveteller")

    @property
    def stamp(self) -> Path:
        """What is installed in .venv, and what was being done to it."""
        return self.venv / "moveteller-stamp.json"

    @property
    def log(self) -> Path:
        """What the installer said the last time it failed."""
        return self.venv / "moveteller-install.log"

    @property
    def turn(self) -> Path:
        """The file whose lock says that an install is under way."""
        return self.root / ".venv-lock"

    @property
    def locks(self) -> Path:
        """The folder of lock files."""
        return self.root / "scripts" / "lock"

    def lock(self, name: str) -> Path:
        return self.locks / f"{name}.txt"

    def libraries(self) -> Path | None:
        """The folder of libraries in .venv for the Python that .venv was made with, or None."""
        folder = self.venv / ("Lib" if self.windows else f"lib/python{self.version()}") / "site-packages"
        return folder if folder.is_dir() else None

    def version(self) -> str:
        """The Python of .venv as "3.11", from what venv wrote down; "" when that cannot be read."""
        match = re.search(r"^version(?:_info)?\s*=\s*(\d+\.\d+)", self._configuration(), flags=re.MULTILINE)
        return match[1] if match else ""

    def whole(self) -> bool:
        """Whether .venv has a Python that can start: an upgrade of the system may have taken it away."""
        if not self.python.exists() or self.libraries() is None:
            return False
        if self.windows:
            home = re.search(r"^home\s*=\s*(.+?)\s*$", self._configuration(), flags=re.MULTILINE)
            return home is not None and Path(home[1]).is_dir()
        # A link to /usr/bin/python3 may one day lead on to a newer Python, which would find no libraries.
        named = re.search(r"\d+\.\d+", self.python.resolve().name)
        return named is None or named[0] == self.version()

    def _configuration(self) -> str:
        try:
            return (self.venv / "pyvenv.cfg").read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            return ""


def base_python() -> str:
    """The Python outside any virtual environment that runs this."""
    return str(getattr(sys, "_base_executable", None) or sys.executable)
