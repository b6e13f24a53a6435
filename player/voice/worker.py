"""The process in which a speech engine lives: `python -m player.voice.worker MODULE:CLASS`.

It reads requests from standard input and answers on standard output, both as frames. Speech libraries
crash, hang and print, so they are kept here: whatever they print goes nowhere, and the worker ends by
itself as soon as its input closes, even in the middle of a text.
"""

from __future__ import annotations

import contextlib
import importlib
import os
import queue
import signal
import sys
import threading
from typing import Any

from player.voice.engine import Engine, EngineFault, Made
from player.voice.frames import BrokenFrame, read_frame, write_frame


def main(arguments: list[str]) -> int:
    """Serve until the input closes."""
    _ignore_signals()
    asks, answers = _take_the_pipes()
    requests: queue.SimpleQueue[dict[str, Any]] = queue.SimpleQueue()
    threading.Thread(target=_listen, args=(asks, requests), daemon=True).start()
    engine: Engine | None = None
    why = ""
    try:
        engine = _engine(arguments[0])
    except EngineFault as fault:
        why = str(fault)
    except Exception as fault:
        why = f"The speech engine could not be started ({type(fault).__name__})."
    with contextlib.suppress(OSError):
        while True:
            request = requests.get()
            head, body = ({"ok": False, "why": why}, b"") if engine is None else answer(engine, request)
            write_frame(answers, {**head, "id": request.get("id")}, body)
    return 0


def answer(engine: Engine, request: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    """What the engine says to one request, as the head and the body of a frame."""
    try:
        if request["do"] == "hello":
            return {"ok": True}, b""
        if request["do"] == "voices":
            names = [[voice.name, voice.language] for voice in engine.voices()]
            return {"ok": True, "version": engine.version, "voices": names}, b""
        made: Made = engine.make(
            str(request["text"]),
            speed=float(request["speed"]),
            voice=str(request["voice"]),
            language=str(request["language"]),
        )
        words = None if made.word_frames is None else list(made.word_frames)
        return {"ok": True, "rate_hz": made.rate_hz, "word_frames": words}, made.pcm
    except EngineFault as fault:
        return {"ok": False, "why": str(fault)}, b""
    except Exception as fault:
        return {"ok": False, "why": f"The speech engine failed ({type(fault).__name__})."}, b""


def _engine(name: str) -> Engine:
    module, _, kind = name.partition(":")
    engine: Engine = getattr(importlib.import_module(module), kind)()
    return engine


def _listen(asks: int, requests: queue.SimpleQueue[dict[str, Any]]) -> None:
    """Hand requests on; the end of the input ends the process, whatever the engine is doing."""
    try:
        while True:
            requests.put(read_frame(asks)[0])
    except BrokenFrame:
        os._exit(0)


def _ignore_signals() -> None:
    """A key in the terminal, a hang-up or a polite request to the group ends the program, not its voice."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"):
        number = getattr(signal, name, None)
        if number is not None:
            with contextlib.suppress(OSError, ValueError):
                signal.signal(number, signal.SIG_IGN)


def _take_the_pipes() -> tuple[int, int]:
    """The pipes to the program under numbers of their own; 0 and 1 then lead nowhere, for libraries that
    use them.
    """
    asks, answers = os.dup(0), os.dup(1)
    nowhere = os.open(os.devnull, os.O_RDWR)
    os.dup2(nowhere, 0)
    os.dup2(nowhere, 1)
    os.close(nowhere)
    if sys.platform == "win32":
        import msvcrt

        msvcrt.setmode(asks, os.O_BINARY)
        msvcrt.setmode(answers, os.O_BINARY)
    return asks, answers


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
