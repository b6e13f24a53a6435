"""The checkout on the path of .venv, and the `moveteller` command in it: no build step, nothing copied."""

from __future__ import annotations

import os
import shlex

from scripts.setting_up.place import Place

_BODY = """\
import sys

from player.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
"""


def write_starters(place: Place) -> None:
    """Put the checkout on the path of .venv and the command among its programs, where they are not yet.

    The path is written relative to .venv and the command is written again when the checkout was moved, so a
    moved checkout goes on working without a new install.
    """
    libraries = place.libraries()
    if libraries is None:
        raise FileNotFoundError(2, "the folder of libraries is missing", str(place.venv))
    _write(libraries / "moveteller.pth", os.path.relpath(place.root, libraries) + "\n")
    if place.windows:
        _write(place.starter, _BODY)
        _write(place.programs / "moveteller.cmd", '@"%~dp0python.exe" "%~dp0moveteller-script.py" %*\n')
    else:
        _write(place.starter, _first_lines(place) + _BODY, mode=0o755)


def _first_lines(place: Place) -> str:
    """What makes a POSIX system start the file with the Python of .venv.

    A `#!` line holds neither blanks nor more than some 127 bytes. There the shell reads the first lines, and
    Python takes them for a string.
    """
    python = os.fspath(place.python)
    if " " not in python and len(os.fsencode(python)) < 120:
        return f"#!{python}\n"
    return f"#!/bin/sh\n'''exec' {shlex.quote(python)} \"$0\" \"$@\"\n' '''\n"


def _write(path: os.PathLike[str], text: str, mode: int | None = None) -> None:
    data = text.encode("utf-8", "surrogateescape")
    try:
        with open(path, "rb") as known:
            if known.read() == data:
                return
    except FileNotFoundError:
        pass
    fresh = os.fspath(path) + ".new"
    with open(fresh, "wb") as out:
        out.write(data)
    if mode is not None:
        os.chmod(fresh, mode)
    os.replace(fresh, path)
