"""The hands-free skin on a clock moved by hand, with taps and an ear that are made up."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from player.aloud.play import play_aloud
from player.cues.sheet import Sheet
from player.session.opening import open_session
from player.session.session import Listener, Session, Told
from player.stage.state import Telling
from player.voice.ears.heard import Listening
from player.voice.ears.worker import Report
from player.world.clock import VirtualClock
from tests.stage.sheets import LESSON, sheet_of

ALOUD = Telling(ear=True, wait=False, voice=True)


class TypedTaps:
    """Taps at these times; after the last one nobody taps any more."""

    def __init__(self, clock: VirtualClock, times_ms: Iterable[int]) -> None:
        self._clock = clock
        self._times = sorted(times_ms)

    def taps(self, wait_ms: int | None) -> int:
        now = self._clock.now_ms()
        next_ms = self._times[0] if self._times else None
        if next_ms is None and wait_ms is None:
            raise EOFError
        if next_ms is None or (wait_ms is not None and now + wait_ms < next_ms):
            self._clock.sleep(wait_ms or 0)
            return 0
        self._clock.sleep(max(0, next_ms - now))
        count = 0
        while self._times and self._times[0] <= self._clock.now_ms():
            self._times.pop(0)
            count += 1
        return count


@dataclass
class FakeEars:
    """Reports what it is told to, when it is due; keeps what it was asked to listen for."""

    clock: VirtualClock
    reports: list[tuple[int, Report]] = field(default_factory=list)
    wanted: list[Listening] = field(default_factory=list)
    modes: list[tuple[int, str]] = field(default_factory=list)
    why: str | None = None
    in_speech: bool = False
    closed: bool = False

    def report(self) -> Report | None:
        if self.reports and self.reports[0][0] <= self.clock.now_ms():
            return self.reports.pop(0)[1]
        return None

    def listen_for(self, listen: Listening) -> None:
        self.wanted.append(listen)

    def narrates(self, now: bool) -> None:
        self.modes.append((self.clock.now_ms(), "voice" if now else "silence"))

    def mode(self, mode: str) -> None:
        self.modes.append((self.clock.now_ms(), mode))

    def trouble(self) -> str | None:
        return self.why

    def close(self) -> None:
        self.closed = True


class Log:
    """What was printed, and when."""

    def __init__(self, clock: VirtualClock) -> None:
        self._clock = clock
        self.lines: list[tuple[int, str]] = []

    def line(self, who: str, text: str) -> None:
        self.lines.append((self._clock.now_ms(), f"{who}: {text}"))

    @property
    def text(self) -> str:
        return "\n".join(line for _, line in self.lines)

    def at(self, part: str) -> int:
        """When the first line with this in it was printed."""
        return next(ms for ms, line in self.lines if part in line)


@dataclass
class Played:
    """A lesson played to its end."""

    log: Log
    clock: VirtualClock
    told: list[tuple[int, Told]]
    session: Session
    code: int


def play(
    taps: Sequence[int] = (),
    *,
    source: str = LESSON,
    sheet: Sheet | None = None,
    telling: Telling = ALOUD,
    ears: FakeEars | None = None,
    clock: VirtualClock | None = None,
    headphones: bool = False,
    journal: Path | None = None,
    notes: tuple[str, ...] = (),
    warned: bool = False,
) -> Played:
    """Play it with taps at these milliseconds."""
    clock = clock or VirtualClock()
    sheet = sheet or sheet_of(source)
    log = Log(clock)
    told: list[tuple[int, Told]] = []
    sessions: list[Session] = []

    def opening(listener: Listener) -> Session:
        session = open_session(
            sheet,
            source,
            telling,
            clock,
            learn=lambda place, move: ("After that comes a capture.", "board"),
            listener=listener,
            journal_file=journal,
        )
        session.listen(lambda one: told.append((clock.now_ms(), one)))
        sessions.append(session)
        return session

    keys = TypedTaps(clock, taps)
    code = play_aloud(
        sheet, clock, log, opening, keys, ears, headphones=headphones, notes=notes, warned=warned
    )
    return Played(log, clock, told, sessions[0], code)
