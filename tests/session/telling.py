"""A lesson told in a process of its own, to be killed: `python -m tests.session.telling JOURNAL SEED`.

The clock runs fast, so that a moment holds many words. Every step is printed once the journal has it, and
now and then something is typed.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

from player.session.opening import open_session
from player.session.session import Told
from player.stage.happenings import Over, Reached
from player.stage.inputs import Typed
from player.stage.state import Telling
from player.world.clock import RealClock
from tests.stage.sheets import LESSON, sheet_of

FAST = 40
TYPED = ("nudge", "a3", "back", "repeat", "what if h4", "home", "aside 1", "skip", "where", "go on")


class FastClock:
    """The machine's clock, so many times faster."""

    def __init__(self) -> None:
        self._clock = RealClock()

    def now_ms(self) -> int:
        return self._clock.now_ms() * FAST

    def sleep(self, ms: int) -> None:
        self._clock.sleep(max(1, ms // FAST))


def tell(journal: Path, seed: int) -> None:
    """Tell the lesson from where the journal stopped, over and over, until killed."""
    chance = random.Random(seed)
    clock = FastClock()

    def show(told: Told) -> None:
        if isinstance(told, Reached):
            print(told.step, flush=True)
        elif isinstance(told, Over):
            print("over", flush=True)

    while True:
        session = open_session(
            sheet_of(LESSON),
            LESSON,
            Telling(voice=False, wait=False),
            clock,
            journal_file=journal,
            listener=show,
        )
        print("open", flush=True)
        session.start()
        while not session.state.over and not session.state.quit:
            due = session.due_ms()
            clock.sleep(400 if due is None else min(due, 4_000))
            session.tick()
            if chance.random() < 0.03 or due is None:
                session.feed(Typed(chance.choice(TYPED)))
        session.close()


if __name__ == "__main__":
    tell(Path(sys.argv[1]), int(sys.argv[2]))
