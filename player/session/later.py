"""Slow truths found in a thread of their own, so that a session never waits for one."""

from __future__ import annotations

import contextlib
import queue
import threading
from collections.abc import Callable, Mapping, Sequence

from player.facts.place import Place
from player.session.judge import Judge, View
from player.session.learn import Learn, learn_or_own
from player.stage.inputs import Learnt
from player.voice.speaker import Notice

LOOK_MS = 30
"""How often the session looks whether a truth has come."""


class Later:
    """Asks `learn` in a thread, one question after another; `poll` has what has come back.

    `first` is done in the thread before anything else, to have a slow engine started in good time; `close`
    lets go of what `learn` uses. Neither may wait for ever.
    """

    def __init__(
        self,
        learn: Learn,
        *,
        first: Callable[[], object] = lambda: None,
        close: Callable[[], object] = lambda: None,
    ) -> None:
        self._learn = learn
        self._first = first
        self._close = close
        self._questions: queue.SimpleQueue[tuple[int, Place, str] | None] = queue.SimpleQueue()
        self._answers: queue.SimpleQueue[Learnt | Notice] = queue.SimpleQueue()
        self._thread: threading.Thread | None = None
        self._open = 0
        self._closed = False

    def start(self) -> None:
        """Begin to get ready; the first question does it too."""
        if self._thread is None and not self._closed:
            self._thread = threading.Thread(target=self._work, name="slow truths", daemon=True)
            self._thread.start()

    def ask(self, need: int, place: Place, move: str) -> None:
        """Ask about a legal move (UCI); a Learnt with this number will come of it."""
        self._open += 1
        self._questions.put((need, place, move))
        self.start()

    def notice(self, sentence: str) -> None:
        """Have this sentence come out of `poll`; from any thread."""
        self._answers.put(Notice(sentence))

    def poll(self) -> Sequence[Learnt | Notice]:
        """What has come since the last time."""
        found: list[Learnt | Notice] = []
        while not self._answers.empty():
            one = self._answers.get()
            self._open -= isinstance(one, Learnt)
            found.append(one)
        return found

    def due_ms(self) -> int | None:
        """Milliseconds until `poll` is wanted next; None while nothing was asked."""
        if not self._answers.empty():
            return 0
        return LOOK_MS if self._open > 0 else None

    def close(self) -> None:
        """Ask no more, and let go, without waiting for what is being asked."""
        self._closed = True
        self._questions.put(None)
        self._close()

    def _work(self) -> None:
        with contextlib.suppress(Exception):  # whoever does it tells what there is to tell
            self._first()
        while (asked := self._questions.get()) is not None and not self._closed:
            need, place, move = asked
            sentence, standing = learn_or_own(self._learn, place, move)
            self._answers.put(Learnt(need, sentence, standing))


class Watched:
    """A judge whose first trouble is told once, in its own sentence."""

    def __init__(self, judge: Judge, tell: Callable[[str], None]) -> None:
        self._judge = judge
        self._tell = tell
        self._told = False

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]:
        """The views of the judge within. Raises what that raises."""
        try:
            return self._judge.judge(place, moves)
        except Exception as error:
            self.trouble(error)
            raise

    def trouble(self, error: Exception) -> None:
        """Tell of this trouble, unless one was told before."""
        if not self._told:
            self._told = True
            self._tell(str(error) or "The engine failed, so the lesson goes on without it.")
