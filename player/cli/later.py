"""Parts of the house that a command uses only where they are there."""

from __future__ import annotations

import importlib
from typing import Any


def part(module: str, name: str) -> Any | None:
    """Something from a module by its name, or None where there is no such module."""
    try:
        return getattr(importlib.import_module(module), name)
    except ModuleNotFoundError as missing:
        if missing.name is not None and (module == missing.name or module.startswith(f"{missing.name}.")):
            return None
        raise
