"""Typed lines are waited for, but no longer than asked."""

from __future__ import annotations

import contextlib
import io
import os
from collections.abc import Iterator

import pytest

from player.lines.typing import Typing


@pytest.fixture
def pipe() -> Iterator[tuple[Typing, int]]:
    reading, writing = os.pipe()
    with open(reading, encoding="utf-8") as stream:
        yield Typing(stream), writing
        with contextlib.suppress(OSError):
            os.close(writing)


def test_a_text_in_memory_gives_its_lines_and_then_its_end() -> None:
    typing = Typing(io.StringIO("e4\n\nlast"))
    assert [typing.line(), typing.line(), typing.line()] == ["e4", "", "last"]
    with pytest.raises(EOFError):
        typing.line()


@pytest.mark.skipif(os.name != "posix", reason="waits on a file descriptor")
def test_a_pipe_is_not_waited_for_longer_than_asked(pipe: tuple[Typing, int]) -> None:
    typing, writing = pipe
    assert typing.line(0) is None
    os.write(writing, "half a l\u00e4".encode())
    assert typing.line(0) is None
    os.write(writing, b"ne\r\nNf3\n")
    assert [typing.line(0), typing.line(), typing.line(0)] == ["half a l\u00e4ne", "Nf3", None]
    os.write(writing, b"unended")
    os.close(writing)
    assert typing.line() == "unended"
    with pytest.raises(EOFError):
        typing.line()


@pytest.mark.skipif(os.name != "posix", reason="waits on a file descriptor")
def test_bytes_that_are_no_text_are_no_trouble(pipe: tuple[Typing, int]) -> None:
    typing, writing = pipe
    os.write(writing, b"\xff\xfe\x00\n")
    assert typing.line() is not None
