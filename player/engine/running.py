"""A running engine: its process, and a thread of its own to speak to it in."""

from __future__ import annotations

import asyncio
import logging
import subprocess
import threading
from collections.abc import Coroutine, Sequence
from typing import Any, TypeVar

import chess.engine


class _OfTheEngine(logging.Filter):
    """Leaves out what the event loop logs of an engine's end."""

    def filter(self, record: logging.LogRecord) -> bool:
        if "that handles pid" in str(record.msg):  # it ended after its loop
            return False
        step = record.exc_info[2] if record.exc_info else None
        while step is not None:
            if step.tb_frame.f_code.co_filename == chess.engine.__file__:
                return False
            step = step.tb_next
        return True


# The library and its event loop log what a bad engine does; a lesson says it in one sentence instead.
logging.getLogger("chess.engine").addHandler(logging.NullHandler())
logging.getLogger("chess.engine").propagate = False
logging.getLogger("asyncio").addFilter(_OfTheEngine())


_Answer = TypeVar("_Answer")


class Running:
    """The process of a UCI engine, and the thread in which it is spoken to.

    The library has such a thread of its own, but that one keeps the whole program from ending when an engine
    is killed in the middle of a search; this one ends with the program.
    """

    def __init__(self, command: Sequence[str], seconds: float) -> None:
        """Raises OSError, chess.engine.EngineError and TimeoutError where it does not start in time."""
        self._loop = asyncio.new_event_loop()
        self._transport: asyncio.SubprocessTransport | None = None
        threading.Thread(target=self._run, name="engine", daemon=True).start()
        try:
            self._transport, self.protocol = self.wait(
                chess.engine.popen_uci(list(command), setpgrp=True, stderr=subprocess.DEVNULL), seconds
            )
        except BaseException:
            self.close()
            raise

    def wait(self, what: Coroutine[Any, Any, _Answer], seconds: float) -> _Answer:
        """What comes of it. Raises TimeoutError, and CancelledError where the engine is closed meanwhile."""
        ending = asyncio.wait_for(what, seconds)
        try:
            return asyncio.run_coroutine_threadsafe(ending, self._loop).result(seconds + 1)
        except RuntimeError:  # the thread has ended
            ending.close()
            what.close()
            raise

    def close(self) -> None:
        """Kill it; whoever waits for it is told."""
        end = self._ended()
        try:
            asyncio.run_coroutine_threadsafe(end, self._loop)
        except RuntimeError:  # it has ended
            end.close()

    def _run(self) -> None:
        try:
            self._loop.run_forever()
        finally:
            self._loop.close()

    async def _ended(self) -> None:
        if self._transport is not None:
            self._transport.close()
        waiting = asyncio.all_tasks() - {asyncio.current_task()}
        for task in waiting:
            task.cancel()
        if waiting:
            await asyncio.wait(waiting, timeout=1)
        await asyncio.sleep(0)  # its pipes are closed in the next round
        self._loop.stop()
