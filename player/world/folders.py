"""Where settings, records and caches lie for this user, after the custom of the system."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import platformdirs

from player.world.trouble import Trouble

NAME = "moveteller"
OWN_HOME = "MOVETELLER_HOME"


@dataclass(frozen=True)
class Folders:
    """The four folders, none of which need be there yet.

    `config` holds what the user chose, `data` what must not be lost (the record), `state` what is worth
    keeping from one run to the next (where a lesson stopped), `cache` what can be made again.
    """

    config: Path
    data: Path
    cache: Path
    state: Path


def folders_for(env: Mapping[str, str]) -> Folders:
    """The folders for an environment.

    An absolute MOVETELLER_HOME puts all four inside itself. Otherwise the XDG Base Directory Specification
    holds where it is the custom, with a relative value ignored as it demands, and the system's own places
    elsewhere. Raises Trouble when there is no home to put them in.
    """
    own = env.get(OWN_HOME, "")
    if own:
        home = Path(own)
        if not home.is_absolute():
            raise Trouble(f'{OWN_HOME} must be a whole path, from the root on; it is "{own}".')
        return Folders(home / "config", home / "data", home / "cache", home / "state")
    with _environment(env):
        try:
            places = platformdirs.PlatformDirs(NAME, appauthor=False)
            return Folders(
                places.user_config_path, places.user_data_path, places.user_cache_path, places.user_state_path
            )
        except RuntimeError as error:
            raise Trouble(
                f"There is no home folder to keep things in. Set HOME, or {OWN_HOME}, to a whole path."
            ) from error


@contextlib.contextmanager
def _environment(env: Mapping[str, str]) -> Iterator[None]:
    """Lay an environment over the process's own, which is the only one that platformdirs asks.

    The process's own environment is used as it is; another one is a test's, or a caller's at its start.
    """
    if env is os.environ:
        yield
        return
    before = dict(os.environ)
    try:
        os.environ.clear()
        os.environ.update(env)
        yield
    finally:
        os.environ.clear()
        os.environ.update(before)
