"""Lines that a learner types, waited for no longer than the lesson can wait."""

from __future__ import annotations

import io
import os
import queue
import select
import threading
from typing import TextIO


class Typing:
    """Reads whole lines from a stream: from a terminal, a pipe, a file, or a text in memory."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._handle = _handle(stream)
        self._bytes = b""
        self._ended = False
        self._lines: queue.SimpleQueue[str] | None = None

    def line(self, wait_ms: int | None = None) -> str | None:
        """The next line without its end; None where none came within `wait_ms`. None waits for ever.

        Raises EOFError at the end of the input.
        """
        if self._handle is not None:
            return self._from_handle(self._handle, wait_ms)
        if wait_ms is None and self._lines is None:
            return _checked(self._stream.readline())
        return self._from_thread(wait_ms)

    def _from_handle(self, handle: int, wait_ms: int | None) -> str | None:
        while b"\n" not in self._bytes and not self._ended:
            ready, _, _ = select.select([handle], [], [], None if wait_ms is None else wait_ms / 1000)
            if not ready:
                return None
            more = os.read(handle, 65536)
            self._ended = not more
            self._bytes += more
        if not self._bytes:
            self._ended = False  # on a terminal the input goes on after an end
            raise EOFError
        line, _, self._bytes = self._bytes.partition(b"\n")
        return line.decode(self._stream.encoding or "utf-8", "replace").removesuffix("\r")

    def _from_thread(self, wait_ms: int | None) -> str | None:
        """For systems that cannot wait on a terminal and a clock at once."""
        if self._lines is None:
            self._lines = queue.SimpleQueue()
            threading.Thread(target=_read_on, args=(self._stream, self._lines), daemon=True).start()
        try:
            return _checked(self._lines.get(timeout=None if wait_ms is None else wait_ms / 1000))
        except queue.Empty:
            return None


def _read_on(stream: TextIO, lines: queue.SimpleQueue[str]) -> None:
    while True:
        line = stream.readline()
        lines.put(line)
        if not line:
            return


def _checked(line: str) -> str:
    if not line:
        raise EOFError
    return line.removesuffix("\n").removesuffix("\r")


def _handle(stream: TextIO) -> int | None:
    """The number of the stream where the system can wait for it together with a clock."""
    if os.name != "posix":
        return None
    try:
        return stream.fileno()
    except (OSError, ValueError, io.UnsupportedOperation):
        return None
