"""Sessions on small lessons, on a clock moved by hand."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from player.cues.sheet import Sheet
from player.session.learn import Learn
from player.session.opening import open_session
from player.session.session import Keeper, Session, Told
from player.stage.inputs import Input
from player.stage.state import Telling
from player.world.clock import VirtualClock
from tests.stage.sheets import LESSON, sheet_of


class Playing:
    """A session with all that it told; `run` lets the clock go on until only the learner is waited for."""

    def __init__(
        self,
        telling: Telling | None = None,
        *,
        source: str = LESSON,
        sheet: Sheet | None = None,
        journal: Path | None = None,
        learn: Learn | None = None,
        at: str = "",
        fresh: bool = False,
        run: str = "",
        keeper: Callable[[Sheet, VirtualClock], Keeper] | None = None,
    ) -> None:
        self.clock = VirtualClock()
        self.told: list[Told] = []
        self.times: list[int] = []
        self.sheet: Sheet = sheet or sheet_of(source)
        self.session: Session = open_session(
            self.sheet,
            source,
            telling or Telling(voice=False),
            self.clock,
            journal_file=journal,
            learn=learn,
            at=at,
            fresh=fresh,
            listener=self._hear,
            run=run,
            keeper=keeper(self.sheet, self.clock) if keeper is not None else None,
        )

    def _hear(self, told: Told) -> None:
        self.told.append(told)
        self.times.append(self.clock.now_ms())

    def run(self, most_ms: int = 3_600_000) -> Playing:
        """Tick whenever it is due, for so long at most."""
        until = self.clock.now_ms() + most_ms
        while (due := self.session.due_ms()) is not None and self.clock.now_ms() + due <= until:
            self.clock.sleep(due)
            self.session.tick()
        if self.session.due_ms() is not None:
            self.clock.sleep(until - self.clock.now_ms())
        return self

    def feed(self, *given: Input) -> Playing:
        for one in given:
            self.session.feed(one)
        return self

    def seen(self, kind: type) -> Sequence[Told]:
        return [one for one in self.told if isinstance(one, kind)]

    @property
    def step(self) -> str:
        frame = self.session.state.lesson
        return frame.step.key if frame.step is not None else ""
