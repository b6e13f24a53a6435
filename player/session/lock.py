"""One run at a time keeps the place of a lesson."""

from __future__ import annotations

import contextlib
import os
import sys
from pathlib import Path

from player.world.files import make_folder


class Lock:
    """A lock of the system on a file beside another one; it ends with the process, however that ends."""

    def __init__(self, path: Path) -> None:
        self._path = path.with_name(f"{path.name}.lock")
        self._handle: int | None = None

    def take(self) -> bool:
        """Whether it is ours now; False where another run has it. Raises OSError."""
        if self._handle is not None:
            return True
        make_folder(self._path.parent)
        handle = os.open(self._path, os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0), 0o600)
        if _locked(handle):
            self._handle = handle
            return True
        os.close(handle)
        return False

    def release(self) -> None:
        """Let others have it. The empty file stays, for taking it away would race with them."""
        if self._handle is not None:
            with contextlib.suppress(OSError):
                os.close(self._handle)
            self._handle = None

    def __del__(self) -> None:
        self.release()


def _locked(handle: int) -> bool:
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
