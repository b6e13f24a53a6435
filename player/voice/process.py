"""The program's side of a speech worker: starting it, asking it with a time limit, and being rid of it."""

from __future__ import annotations

import contextlib
import os
import queue
import subprocess
import sys
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import IO, Any

from player.voice.frames import BrokenFrame, read_frame, write_frame
from player.voice.sound import NoSound

START_S = 8.0
_LAST_WORD_S = 2.0
_PIPE_BYTES = 1 << 20

_Answer = tuple[dict[str, Any], bytes]
_Request = dict[str, Any] | None


class WorkerGone(NoSound):
    """The worker crashed, was killed, or did not answer in time; the next request starts another."""


class WorkerProcess:
    """One long-lived worker, started by the first request and started again after a crash or a hang.

    `engine` is "module:Class", importable in the worker from `folders` beside the folder of this program.
    Requests are answered one at a time; `close` may come from any thread and ends one under way.
    """

    def __init__(self, engine: str, *, folders: Sequence[Path] = ()) -> None:
        self._engine = engine
        self._folders = (Path(__file__).resolve().parents[2], *folders)
        self._asking = threading.Lock()
        self._changing = threading.Lock()
        self._running: subprocess.Popen[bytes] | None = None
        self._words: queue.SimpleQueue[_Request] = queue.SimpleQueue()
        self._answers: queue.SimpleQueue[_Answer | None] = queue.SimpleQueue()
        self._closed = False
        self._requests = 0

    @property
    def pid(self) -> int | None:
        """The process now serving, if one is."""
        running = self._running
        return None if running is None else running.pid

    def ask(self, request: dict[str, Any], timeout_s: float) -> _Answer:
        """The head and the body of the answer.

        WorkerGone where the worker ends or the time runs out (it is then killed); NoSound where the engine
        says no, with its sentence.
        """
        with self._asking:
            running, fresh = self._start()
            if fresh:
                self._exchange(running, {"do": "hello"}, START_S)
            return self._exchange(running, request, timeout_s)

    def close(self) -> None:
        """End the worker; at most a few milliseconds, whatever it is doing."""
        with self._changing:
            self._closed = True
            running = self._running
        if running is not None:
            self._kill(running)

    def _exchange(
        self, running: subprocess.Popen[bytes], request: dict[str, Any], timeout_s: float
    ) -> _Answer:
        self._requests += 1
        self._words.put({**request, "id": self._requests})
        head, body = self._wait(running, self._requests, timeout_s)
        if head.get("ok") is not True:
            raise NoSound(str(head.get("why") or "The voice gave no reason."))
        return head, body

    def _wait(self, running: subprocess.Popen[bytes], number: int, timeout_s: float) -> _Answer:
        while True:
            try:
                answer = self._answers.get(timeout=timeout_s)
            except queue.Empty:
                self._kill(running)
                raise WorkerGone("The voice did not answer in time.") from None
            if answer is None:
                self._kill(running)
                raise WorkerGone("The voice stopped working.")
            if answer[0].get("id") == number:
                return answer

    def _start(self) -> tuple[subprocess.Popen[bytes], bool]:
        with self._changing:
            if self._closed:
                raise WorkerGone("The voice has been closed.")
            if self._running is not None:
                return self._running, False
            paths = [str(folder) for folder in self._folders]
            old = os.environ.get("PYTHONPATH")
            try:
                running = subprocess.Popen(
                    [sys.executable, "-P", "-m", "player.voice.worker", self._engine],
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                    stderr=subprocess.DEVNULL,
                    bufsize=0,
                    env={**os.environ, "PYTHONPATH": os.pathsep.join([*paths, old] if old else paths)},
                    start_new_session=True,
                    creationflags=_windows_flags(),
                )
            except OSError as fault:
                raise WorkerGone("The voice could not be started.") from fault
            assert running.stdin is not None and running.stdout is not None
            _widen(running.stdout)
            self._words, self._answers = queue.SimpleQueue(), queue.SimpleQueue()
            threading.Thread(target=_talk, args=(running.stdin, self._words), daemon=True).start()
            threading.Thread(target=_listen, args=(running.stdout, self._answers), daemon=True).start()
            self._running = running
            return running, True

    def _kill(self, running: subprocess.Popen[bytes]) -> None:
        """End this process and forget it; a second call does nothing."""
        with self._changing:
            if self._running is not running:
                return
            self._running = None
            self._words.put(None)
        with contextlib.suppress(OSError):
            running.kill()
        with contextlib.suppress(subprocess.TimeoutExpired):
            running.wait(_LAST_WORD_S)


def _talk(pipe: IO[bytes], words: queue.SimpleQueue[_Request]) -> None:
    """Write requests; in a thread of its own, since a frozen worker does not even read."""
    with contextlib.suppress(OSError), pipe:
        while (request := words.get()) is not None:
            write_frame(pipe.fileno(), request)


def _listen(pipe: IO[bytes], answers: queue.SimpleQueue[_Answer | None]) -> None:
    with pipe, contextlib.suppress(BrokenFrame):
        while True:
            answers.put(read_frame(pipe.fileno()))
    answers.put(None)


def _widen(pipe: IO[bytes]) -> None:
    """Have a whole sentence fit into the pipe, so that the worker need not wait while it is read (Linux)."""
    if sys.platform == "linux":
        import fcntl

        with contextlib.suppress(OSError):
            fcntl.fcntl(pipe.fileno(), fcntl.F_SETPIPE_SZ, _PIPE_BYTES)


def _windows_flags() -> int:
    if sys.platform != "win32":
        return 0
    return subprocess.CREATE_NEW_PROCESS_GROUP | subprocess.CREATE_NO_WINDOW
