"""One install at a time: a lock on a file, which the system lets go of even when its holder is killed."""

from __future__ import annotations

import contextlib
import os
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path


@contextlib.contextmanager
def one_at_a_time(path: Path, say: Callable[[str], None], wait_s: float = 0.2) -> Iterator[None]:
    """Hold the lock on `path` (made if need be) for the block; say so once if another holds it, and wait.

    Where the system allows it, programs started in the block hold it too: if this is killed while they work,
    the next one waits for them.
    """
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
    try:
        os.set_inheritable(handle, True)
        if not _take(handle):
            say("Another set-up is under way in this folder; waiting for it.")
            while not _take(handle):
                time.sleep(wait_s)
        yield
    finally:
        os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _take(handle: int) -> bool:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _take(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
