from __future__ import annotations

import os
import threading

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.voice.frames import BrokenFrame, read_frame, write_frame

values = st.one_of(st.text(max_size=20), st.integers(), st.booleans())
heads = st.dictionaries(st.text(max_size=5), values, max_size=5)


@given(st.lists(st.tuples(heads, st.binary(max_size=200_000)), max_size=3))
def test_frames_arrive_as_they_were_sent(sent: list[tuple[dict[str, object], bytes]]) -> None:
    out, into = os.pipe()

    def send() -> None:
        for head, body in sent:
            write_frame(into, head, body)
        os.close(into)

    thread = threading.Thread(target=send)
    thread.start()
    try:
        assert [read_frame(out) for _ in sent] == sent
        with pytest.raises(BrokenFrame):
            read_frame(out)
    finally:
        thread.join()
        os.close(out)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\0\0\0",
        b"\xff\xff\xff\xff\0\0\0\0",
        b"\0\0\0\2\0\0\0\0{",
        b"\0\0\0\2\0\0\0\0{x",
        b"\0\0\0\2\0\0\0\0[]",
        b"\0\0\0\2\0\0\0\5{}abc",
        b"Hello, I am a library that prints\n",
    ],
)
def test_a_torn_or_senseless_frame_is_broken(content: bytes) -> None:
    out, into = os.pipe()
    os.write(into, content)
    os.close(into)
    try:
        with pytest.raises(BrokenFrame):
            read_frame(out)
    finally:
        os.close(out)
