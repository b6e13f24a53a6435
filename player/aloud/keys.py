"""Taps of any key: from a terminal that is given back as it was, or from a pipe, where a line is a tap."""

from __future__ import annotations

import atexit
import contextlib
import importlib
import os
import re
import select
import signal
import threading
from collections.abc import Iterator
from types import FrameType
from typing import Any, Protocol, TextIO

from player.world.clock import Clock
from player.world.world import World

_KEY = re.compile(rb"\x1b(?:\[[0-?]*[ -/]*[@-~]|O[ -~]|[^\x1b[O])|[\xc0-\xff][\x80-\xbf]*|[\x00-\xff]")
"""One key as a terminal sends it: a control sequence (ECMA-48), a letter of UTF-8, or one byte."""

_LOOK_MS = 20


class Keys(Protocol):
    """Where taps come from."""

    def taps(self, wait_ms: int | None) -> int:
        """How many taps came; 0 where none did in `wait_ms`. None waits for ever. EOFError at their end."""


class NoKeys:
    """Nobody taps; only time passes."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock

    def taps(self, wait_ms: int | None) -> int:
        if wait_ms is None:
            raise EOFError
        self._clock.sleep(wait_ms)
        return 0


class StreamKeys:
    """Taps from an open file that the system can wait for: a key each on a terminal, else a line each."""

    def __init__(self, handle: int, *, terminal: bool) -> None:
        self._handle = handle
        self._terminal = terminal

    def taps(self, wait_ms: int | None) -> int:
        ready, _, _ = select.select([self._handle], [], [], None if wait_ms is None else wait_ms / 1000)
        if not ready:
            return 0
        try:
            found = os.read(self._handle, 4096)
        except OSError as error:  # the terminal has gone away
            raise EOFError from error
        if not found:
            raise EOFError
        return keys_in(found) if self._terminal else found.count(b"\n")


class WindowsKeys:
    """Taps from a console of Windows, which cannot be waited for together with a clock."""

    def __init__(self, clock: Clock, library: Any = None) -> None:
        self._clock = clock
        self._library = library or importlib.import_module("msvcrt")

    def taps(self, wait_ms: int | None) -> int:
        waited = 0
        while not self._library.kbhit():
            if wait_ms is not None and waited >= wait_ms:
                return 0
            step = _LOOK_MS if wait_ms is None else min(_LOOK_MS, wait_ms - waited)
            self._clock.sleep(step)
            waited += step
        count = 0
        while self._library.kbhit():
            key = self._library.getwch()
            if key == "\x03":
                raise KeyboardInterrupt
            if key in ("\x00", "\xe0"):  # the first half of a key such as an arrow
                self._library.getwch()
            count += 1
        return count


def keys_in(sent: bytes) -> int:
    """How many keys these bytes of a terminal are."""
    return sum(1 for _ in _KEY.finditer(sent))


@contextlib.contextmanager
def open_keys(world: World) -> Iterator[Keys]:
    """The taps of this world's input. A terminal is given back as it was, however the lesson ends."""
    handle = _handle(world.stdin)
    if handle is None or (os.name != "posix" and not world.stdin_is_terminal):
        yield NoKeys(world.clock)
    elif os.name != "posix":
        yield WindowsKeys(world.clock)
    elif not world.stdin_is_terminal:
        yield StreamKeys(handle, terminal=False)
    else:
        with _single_keys(handle):
            yield StreamKeys(handle, terminal=True)


def _handle(stream: TextIO) -> int | None:
    try:
        return stream.fileno()
    except (OSError, ValueError):
        return None


@contextlib.contextmanager
def _single_keys(handle: int) -> Iterator[None]:
    """Have a terminal send every key at once and show none; Ctrl-C stays what it is."""
    import termios
    import tty

    before = termios.tcgetattr(handle)

    def give_back() -> None:
        with contextlib.suppress(termios.error, OSError, ValueError):
            termios.tcsetattr(handle, termios.TCSADRAIN, before)

    def take(*_: object) -> None:
        with contextlib.suppress(termios.error, OSError):
            tty.setcbreak(handle, termios.TCSADRAIN)

    def end(number: int, _: FrameType | None) -> None:
        give_back()
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)

    atexit.register(give_back)
    known: dict[signal.Signals, Any] = {}
    try:
        if threading.current_thread() is threading.main_thread():
            for one, do in ((signal.SIGTERM, end), (signal.SIGHUP, end), (signal.SIGCONT, take)):
                known[one] = signal.signal(one, do)
        take()
        yield
    finally:
        give_back()
        atexit.unregister(give_back)
        for one, do in known.items():
            signal.signal(one, do)
