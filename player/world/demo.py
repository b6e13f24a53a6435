"""Where the lessons that come with Moveteller lie."""

from __future__ import annotations

from pathlib import Path

import player


def demo_lessons() -> Path | None:
    """The folder of the demo lessons: the checkout's own, or the one inside the installed package.

    None where someone took it out.
    """
    package = Path(player.__file__).resolve().parent
    # Beside an installed package lie other people's; only a checkout has the project file there.
    home = package.parent if (package.parent / "pyproject.toml").is_file() else package
    folder = home / "demo_lessons"
    return folder if folder.is_dir() else None
