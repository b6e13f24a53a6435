"""Listening in a thread of its own: frames in, verdicts out, nothing that draws is ever kept waiting."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable
from typing import Protocol

from player.voice.ears.ear import Clip, Decision, Ear
from player.voice.ears.ears import Listener
from player.voice.ears.heard import Doubt, Heard, Listening, Nothing, Verdict

Report = Verdict | Decision


class Frames(Protocol):
    """What gives the frames of a microphone."""

    def frame(self, timeout_s: float = 1.0) -> bytes | None:
        """The next frame, or None where none comes in time."""


class Worker:
    """Feeds the ear and judges its clips. `open_` makes the recogniser, in the thread that judges; where it
    cannot, `trouble` is its sentence.

    `reports` is asked by the skin whenever it likes (`poll`).
    """

    def __init__(self, frames: Frames, ear: Ear, open_: Callable[[], Listener], listen: Listening) -> None:
        self._frames = frames
        self._ear = ear
        self._open = open_
        self._listen = listen
        self._lock = threading.Lock()
        self._clips: queue.SimpleQueue[bytes | None] = queue.SimpleQueue()
        self._reports: queue.SimpleQueue[Report] = queue.SimpleQueue()
        self._ended = threading.Event()
        self.trouble: str | None = None
        threading.Thread(target=self._hear, daemon=True, name="ear").start()
        threading.Thread(target=self._judge, daemon=True, name="recogniser").start()

    def listen_for(self, listen: Listening) -> None:
        """Listen for something else from now on."""
        with self._lock:
            self._listen = listen

    def tell(self, change: Callable[[Ear], None]) -> None:
        """Change the ear's mode (`Ear.open` and the like) between two frames."""
        with self._lock:
            change(self._ear)

    def poll(self) -> Report | None:
        """The next report, or None."""
        try:
            return self._reports.get_nowait()
        except queue.Empty:
            return None

    def close(self) -> None:
        """End both threads; comes back at once."""
        self._ended.set()
        self._clips.put(None)

    def _hear(self) -> None:
        while not self._ended.is_set():
            frame = self._frames.frame(0.2)
            if frame is None:
                continue
            with self._lock:
                decisions = self._ear.feed(frame)
            for decision in decisions:
                if isinstance(decision, Clip):
                    self._clips.put(decision.pcm)
                else:
                    self._reports.put(decision)

    def _judge(self) -> None:
        try:
            ears = self._open()
        except Exception as fault:
            self.trouble = str(fault) or "Nothing can be heard on this machine."
            return
        while (pcm := self._clips.get()) is not None:
            with self._lock:
                listen = self._listen
            verdict = ears.judge(pcm, listen)
            with self._lock:
                if isinstance(verdict, Heard) and not self._ear.acts_on(verdict.meanings[0]):
                    verdict = Nothing(verdict.phrase, verdict.sure)
                decisions = self._ear.judged(isinstance(verdict, Heard | Doubt))
            self._reports.put(verdict)
            for decision in decisions:
                self._reports.put(decision)
