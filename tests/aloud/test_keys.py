"""Taps from terminals and pipes; a terminal is given back as it was, however the lesson ends."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.aloud.keys import NoKeys, StreamKeys, WindowsKeys, keys_in, open_keys
from player.world.clock import VirtualClock
from tests.worlds import scratch_world

ROOT = Path(__file__).parents[2]
PATIENCE_S = 30.0
LESSON = "title: A door\n\nWhite begins {Nf3}.\n"

# What terminals send for keys: single bytes, letters of UTF-8 (RFC 3629), control sequences (ECMA-48, 5.4).
BYTES = (b" ", b"\r", b"q", b"\x7f", b"\t", "é".encode(), "♞".encode())
SEQUENCES = (b"\x1b[A", b"\x1b[1;5C", b"\x1bOP", b"\x1b[15~", b"\x1bx")
SENT = st.sampled_from((*BYTES, *SEQUENCES))


@given(st.lists(SENT, max_size=12))
def test_every_key_is_one_tap_whatever_it_sends(keys: list[bytes]) -> None:
    assert keys_in(b"".join(keys)) == len(keys)


def test_escape_alone_is_a_tap() -> None:
    assert keys_in(b"\x1b") == 1


@given(st.binary(max_size=200))
def test_any_bytes_are_some_taps_and_never_more_than_bytes(sent: bytes) -> None:
    assert (not sent) == (keys_in(sent) == 0) and keys_in(sent) <= len(sent)


def test_on_a_pipe_a_line_is_a_tap_and_its_end_is_the_end_of_taps() -> None:
    reading, writing = os.pipe()
    keys = StreamKeys(reading, terminal=False)
    assert keys.taps(0) == 0
    os.write(writing, b"\n\nany words\n")
    assert keys.taps(1_000) == 3
    os.close(writing)
    with pytest.raises(EOFError):
        keys.taps(1_000)
    os.close(reading)


def test_without_keys_only_time_passes() -> None:
    clock = VirtualClock()
    keys = NoKeys(clock)
    assert keys.taps(250) == 0 and clock.now_ms() == 250
    with pytest.raises(EOFError):
        keys.taps(None)


class Console:
    """A console of Windows with these keys in it."""

    def __init__(self, *keys: str) -> None:
        self.keys = list(keys)

    def kbhit(self) -> bool:
        return bool(self.keys)

    def getwch(self) -> str:
        return self.keys.pop(0)


def test_on_windows_an_arrow_is_one_tap_and_ctrl_c_leaves() -> None:
    clock = VirtualClock()
    assert WindowsKeys(clock, Console(" ", "\xe0", "H", "x")).taps(None) == 3
    assert WindowsKeys(clock, Console()).taps(100) == 0 and clock.now_ms() == 100
    with pytest.raises(KeyboardInterrupt):
        WindowsKeys(clock, Console("\x03")).taps(None)


posix = pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals are a thing of POSIX")


def single(handle: int) -> bool:
    """Whether a terminal sends every key at once."""
    import termios

    return not termios.tcgetattr(handle)[3] & termios.ICANON


@pytest.fixture
def terminal() -> Iterator[tuple[int, int]]:
    ours, theirs = os.openpty()
    yield ours, theirs
    os.close(ours)
    os.close(theirs)


@posix
@pytest.mark.parametrize("fault", [None, RuntimeError("a crash"), KeyboardInterrupt()])
def test_a_terminal_is_given_back(
    tmp_path: Path, terminal: tuple[int, int], fault: BaseException | None
) -> None:
    import termios

    ours, theirs = terminal
    before = termios.tcgetattr(theirs)
    handlers = [signal.getsignal(one) for one in (signal.SIGTERM, signal.SIGHUP, signal.SIGCONT)]
    with open(theirs, encoding="utf-8", closefd=False) as stream:
        world = replace(scratch_world(tmp_path, terminal=True), stdin=stream)
        try:
            with open_keys(world) as keys:
                assert single(theirs)
                os.write(ours, b" x\x1b[A")
                assert keys.taps(2_000) == 3
                if fault is not None:
                    raise fault
        except (RuntimeError, KeyboardInterrupt):
            assert fault is not None
    assert termios.tcgetattr(theirs) == before
    assert [signal.getsignal(one) for one in (signal.SIGTERM, signal.SIGHUP, signal.SIGCONT)] == handlers


def until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + PATIENCE_S
    while not true():
        assert time.monotonic() < end
        time.sleep(0.02)


@posix
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_a_signal_ends_the_program_and_gives_the_terminal_back(
    tmp_path: Path, terminal: tuple[int, int], number: signal.Signals
) -> None:
    _, theirs = terminal
    (tmp_path / "door.lesson").write_text(LESSON, encoding="utf-8")
    env = {**os.environ, "MOVETELLER_HOME": str(tmp_path / "home"), "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "player.cli", "play", "door.lesson", "--hands-free", "--mute"]
    with subprocess.Popen(
        command, stdin=theirs, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=env, cwd=tmp_path
    ) as run:
        try:
            until(lambda: single(theirs) or run.poll() is not None)
            assert run.stdout is not None
            assert run.stdout.readline().startswith(b"Lesson: Listening hands-free")
            run.send_signal(number)
            run.wait(PATIENCE_S)
        finally:
            run.kill()
    assert not single(theirs)
    assert run.returncode == (130 if number == signal.SIGINT else -number)


@posix
def test_lines_of_a_pipe_lead_a_lesson(tmp_path: Path) -> None:
    (tmp_path / "door.lesson").write_text(LESSON, encoding="utf-8")
    env = {**os.environ, "MOVETELLER_HOME": str(tmp_path / "home"), "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "player.cli", "play", "door.lesson", "--hands-free", "--mute"]
    with subprocess.Popen(
        [*command, "--speed", "3"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=env, cwd=tmp_path
    ) as run:
        assert run.stdin is not None and run.stdout is not None
        first = run.stdout.readline()
        run.stdin.write(b"\n")  # past the cautions
        run.stdin.flush()
        lesson = run.stdout.readline() + run.stdout.readline()
        run.stdin.write(b"\n\n\n")
        run.stdin.flush()
        rest = run.stdout.read()
        assert run.wait(PATIENCE_S) == 0
    assert b"not for driving" in first and b"A door" in lesson
    assert b"to move." in rest and rest.endswith(b"Lesson: The lesson is told.\nLesson: Goodbye.\n")
