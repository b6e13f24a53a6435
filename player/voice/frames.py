"""What passes between the program and a worker: frames of a small header and bytes, over pipes.

A frame is two 4-byte big-endian lengths, then that much JSON (an object) and that many bytes of sound.
"""

from __future__ import annotations

import json
import os
import struct
from typing import Any

_LENGTHS = struct.Struct(">II")
MOST_BYTES = 512 * 1024 * 1024


class BrokenFrame(Exception):
    """The other side has gone, or speaks nonsense."""


def write_frame(pipe: int, head: dict[str, Any], body: bytes = b"") -> None:
    """Write one frame to an open descriptor. OSError where the other side has gone."""
    text = json.dumps(head).encode()
    _write_all(pipe, _LENGTHS.pack(len(text), len(body)) + text)
    _write_all(pipe, body)


def read_frame(pipe: int) -> tuple[dict[str, Any], bytes]:
    """Wait for one frame; BrokenFrame at the end of the stream or where it makes no sense."""
    head_size, body_size = _LENGTHS.unpack(_read_all(pipe, _LENGTHS.size))
    if head_size > MOST_BYTES or body_size > MOST_BYTES:
        raise BrokenFrame("a frame is too long to be one")
    text, body = _read_all(pipe, head_size), _read_all(pipe, body_size)
    try:
        head = json.loads(text)
    except ValueError as fault:
        raise BrokenFrame("a frame has no readable header") from fault
    if not isinstance(head, dict):
        raise BrokenFrame("a frame has no readable header")
    return head, body


def _write_all(pipe: int, content: bytes) -> None:
    view = memoryview(content)
    while view:
        view = view[os.write(pipe, view[:1_048_576]) :]


def _read_all(pipe: int, size: int) -> bytes:
    parts: list[bytes] = []
    while size:
        try:
            more = os.read(pipe, size)
        except OSError as fault:
            raise BrokenFrame("the pipe is closed") from fault
        if not more:
            raise BrokenFrame("the other side has gone")
        parts.append(more)
        size -= len(more)
    return b"".join(parts)
