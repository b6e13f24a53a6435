r"""A file of lines that only grows, made so that a kill in the middle of a write costs that line alone.

Each line on disk is its length in bytes and its CRC-32, both in hexadecimal, and the text itself:

    1f 5d41402a {"input": "go on", "ms": 1200}\n

A last line that is cut short, or anything else that does not agree with its length and sum, ends the reading.
"""

from __future__ import annotations

import os
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType

from player.world.files import append_whole, make_folder, open_to_append, set_aside, write_atomically


@dataclass(frozen=True)
class Found:
    """What a log holds: its whole lines in the order they were written, and where they end.

    `whole_bytes` is the length of the part that is sound and `rest_bytes` of what follows it. `torn` says
    that the rest is no more than one line cut short, as a kill leaves it; otherwise the file was damaged.
    """

    lines: tuple[str, ...]
    whole_bytes: int
    rest_bytes: int
    torn: bool


class LineLog:
    """Appends lines to a file, each in one unbuffered write, and reads back those that are whole.

    The file is opened, and mended, at the first append. One process at a time should append to it.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._handle: int | None = None
        self._size = 0

    def read(self) -> list[str]:
        """The whole lines; none where there is no file. Changes nothing. Raises OSError."""
        return list(self.look().lines)

    def look(self) -> Found:
        """The whole lines and the state of the file. Changes nothing. Raises OSError."""
        try:
            return unpack(self.path.read_bytes())
        except FileNotFoundError:
            return Found((), 0, 0, torn=False)

    def append(self, line: str) -> None:
        """Add a line; once this returns, a kill of this process loses nothing of it.

        Raises ValueError for a text with a line feed in it, and OSError when it cannot be written; then the
        log is as it was before.
        """
        data = pack(line)
        if self._handle is None:
            self._open()
        assert self._handle is not None
        append_whole(self._handle, data, self._size, self.path)
        self._size += len(data)

    def replace_all(self, lines: Iterable[str]) -> None:
        """Make these the only lines, all at once. Raises ValueError or OSError, and then changes nothing."""
        data = b"".join(pack(line) for line in lines)
        self.close()
        make_folder(self.path.parent)
        write_atomically(self.path, data)

    def close(self) -> None:
        """Let go of the file. The next append opens it again."""
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None

    def __enter__(self) -> LineLog:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def _open(self) -> None:
        make_folder(self.path.parent)
        found = self.look()
        if found.rest_bytes and not found.torn:
            # More than a cut line is wrong, and a person may want what lies behind it: keep the file as it
            # is.
            set_aside(self.path)
            write_atomically(self.path, b"".join(pack(line) for line in found.lines))
        handle = open_to_append(self.path)
        try:
            if found.rest_bytes:
                os.ftruncate(handle, found.whole_bytes)
        except BaseException:
            os.close(handle)
            raise
        self._handle, self._size = handle, found.whole_bytes


def pack(line: str) -> bytes:
    """The bytes of one line on disk. Raises ValueError for a text with a line feed in it."""
    if "\n" in line:
        raise ValueError("a line of a log has no line feed in it")
    data = line.encode("utf-8", "surrogatepass")
    return b"%x %08x %s\n" % (len(data), zlib.crc32(data), data)


def unpack(data: bytes) -> Found:
    """The lines that the bytes of a log hold, up to the first that is not whole."""
    lines: list[str] = []
    start = 0
    while (end := data.find(b"\n", start)) >= 0:
        line = _checked(data[start : end + 1])
        if line is None:
            break
        lines.append(line)
        start = end + 1
    rest = data[start:]
    return Found(tuple(lines), start, len(rest), torn=bool(rest) and b"\n" not in rest)


def _checked(framed: bytes) -> str | None:
    parts = framed[:-1].split(b" ", 2)
    if len(parts) < 3:
        return None
    try:
        text = parts[2].decode("utf-8", "surrogatepass")
    except UnicodeDecodeError:
        return None
    return text if pack(text) == framed else None
