"""Which engine is used: the one asked for, the one chosen in the settings, or one found on this machine."""

from __future__ import annotations

import shutil
from collections.abc import Mapping

KNOWN = ("uci-engine", "stockfish")
"""Names that are looked for on PATH where nobody chose an engine."""

NONE = "none"
BUILT_IN = "built-in"
"""The program's own small search, where an engine is asked for its opinion of a script."""


def choose_engine(asked: str | None, setting: str, env: Mapping[str, str]) -> str | None:
    """The path of the engine to use, or None. `asked` and `setting` may be a path, a name on PATH, or
    "none"; a name that is nowhere is given back as it is, so that its absence is told when it is started.
    """
    wanted = asked if asked is not None else setting
    on_path = env.get("PATH", "")
    if wanted:
        return None if wanted == NONE else shutil.which(wanted, path=on_path) or wanted
    found = (shutil.which(name, path=on_path) for name in KNOWN)
    return next((path for path in found if path is not None), None)
