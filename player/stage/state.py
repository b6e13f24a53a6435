"""The state of a running lesson: plain data, nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from player.cues.sheet import Ask, Sheet, Step, Track
from player.facts.place import Place
from player.script.told import Shown

Naming = Literal["letters", "fide", "alphabet"]
PlainDepth = Literal["move", "gist", "pieces"]
"""How far "plainer" goes: the last move in whole words, the position in a breath, every man."""

View = Literal["lesson", "white", "black"]
"""Whose side the board is seen from: as the lesson says, or always the same."""

Doing = Literal["saying", "resting", "asked", "held", "paced", "wandering", "over"]
"""What goes on in a frame: a voice speaks, a silence runs, a question waits, the learner paused, the telling
waits for Enter at the end of a beat, the learner walks a what-if, or all is told."""

Why = Literal["lesson", "aside", "reply", "nudge", "note", "what-if"]


@dataclass(frozen=True, slots=True)
class Telling:
    """How the lesson is told. `speed` is 0.5 to 3; `silence` scales silences; `think` scales thinking times.

    `wait` means that questions wait for ever. `ear` has everything announced in words. `by_beat` stops after
    each beat until the learner goes on. `at_once` leaves no silences. `questions_only` tells only questions.
    `key_again` asks key questions again later in the lesson. `depth` is where "plainer" begins.
    `effort` asks after a right answer how it went.
    """

    speed: float = 1.0
    silence: float = 1.0
    think: float = 1.0
    wait: bool = True
    ear: bool = False
    by_beat: bool = False
    at_once: bool = False
    questions_only: bool = False
    voice: bool = True
    naming: Naming = "letters"
    view: View = "lesson"
    key_again: bool = False
    effort: bool = False
    depth: PlainDepth = "move"


Wants = Literal["", "reason", "sure", "why", "agreed", "effort"]
"""What is asked beside the answer: the reason first, how sure, the reason after, or whether reasons agree."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question that stands: wrong tries so far, nudges given, and what the learner tried (UCI or text).

    `held` is an answer that waits for `sure`; `weighed` tells that this has been asked for. `answered` tells
    that what was answered is being told: nothing is waited for then, but for what `wants` names.
    """

    ask: Ask
    tries: int = 0
    nudges: int = 0
    given: tuple[str, ...] = ()
    wants: Wants = ""
    reason: str = ""
    held: str = ""
    weighed: bool = False
    sure: str = ""
    agreed: str = ""
    answered: bool = False

    @property
    def open(self) -> bool:
        """Whether something is still asked of the learner."""
        return not self.answered or bool(self.wants)


@dataclass(frozen=True, slots=True)
class Frame:
    """One level of telling: the lesson itself at the bottom, and what was opened above it.

    `at` is the step being told, `until` the index at which the frame ends. `word` counts the words of it that
    have begun, `ms` is the exact position where it was hushed, or None. `landed` counts its cues that have
    happened. `place` and `shown` are what the board shows. `ahead` is the place after a right answer, shown
    until the telling has caught up at step `ahead_till`. `saying` is the number of the saying under way.
    `was` is what was going on when the learner paused. `left` has the scopes that were open
    where an aside was walked from.
    """

    why: Why
    track: Track
    at: int
    until: int
    place: Place
    doing: Doing = "saying"
    word: int = 0
    ms: int | None = None
    landed: int = 0
    saying: int = 0
    shown: Shown | None = None
    asked: Asked | None = None
    ahead: Place | None = None
    ahead_till: int = -1
    then: Literal["resume", "ask", "go on"] = "resume"
    was: Doing = "saying"
    left: tuple[int, ...] = ()

    @property
    def step(self) -> Step | None:
        """The step being told, or None past the end."""
        return self.track[self.at] if 0 <= self.at < len(self.track) else None


@dataclass(frozen=True, slots=True)
class Which:
    """A question back to the learner: which of these moves (UCI) was meant, and what for."""

    moves: tuple[str, ...]
    given: str
    question: str
    what_if: bool


@dataclass(frozen=True, slots=True)
class Pending:
    """A truth that was asked for about a try at a question; with `why`, only because the learner asked."""

    need: int
    move: str
    given: str
    why: bool = False


@dataclass(frozen=True, slots=True)
class State:
    """Everything about a running lesson.

    `seen` has the keys of questions whose answer was told already. `enough` ends it before the next question
    or part.
    """

    sheet: Sheet
    telling: Telling
    frames: tuple[Frame, ...]
    sayings: int = 0
    wakes: int = 0
    wake: int = 0
    needs: int = 0
    which: Which | None = None
    pending: Pending | None = None
    seen: frozenset[str] = frozenset()
    notebook: tuple[str, ...] = ()
    visits: tuple[int, ...] = ()
    scopes: tuple[int, ...] = ()
    flip: bool = False
    turned: bool = False
    last: tuple[str, str] = ("", "")
    looked: Place | None = None
    plain: tuple[Place, int] | None = None
    quit: bool = False
    enough: bool = False

    @property
    def top(self) -> Frame:
        """The frame that is being told."""
        return self.frames[-1]

    @property
    def lesson(self) -> Frame:
        """The lesson's own frame, at the bottom."""
        return self.frames[0]

    @property
    def place(self) -> Place:
        """What the board shows."""
        return self.top.place

    @property
    def asked(self) -> Asked | None:
        """The question that stands, even while the learner looks at something else; the innermost one."""
        return next((f.asked for f in reversed(self.frames) if f.asked is not None and f.asked.open), None)

    @property
    def flipped(self) -> bool:
        """Whether Black sits at the bottom: as the lesson or the learner has it, or turned from that."""
        view = self.telling.view
        return (self.flip if view == "lesson" else view == "black") != self.turned

    @property
    def over(self) -> bool:
        """Whether the lesson has been told to its end."""
        return self.lesson.doing == "over"
