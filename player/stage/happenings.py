"""What the stage asks the world to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from player.cues.sheet import Ask
from player.facts.place import Place
from player.script.told import Shown
from player.wording.utterance import Utterance

Standing = Literal["coach", "board", "engine", "search", "unknown", "program"]
"""Whose word it is: the coach's, proved on the board, an engine's opinion, a short search's, nobody's, the
program's own.
"""

Role = Literal["tell", "part", "enter", "return", "question", "reply", "nudge", "because", "announce", "note"]


@dataclass(frozen=True, slots=True)
class Say:
    """Say and show this, from word `from_word` on; `from_ms` is the exact position after a pause."""

    saying: int
    what: Utterance
    role: Role
    standing: Standing
    step: str
    line: int
    depth: int
    from_word: int = 0
    from_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Hush:
    """Be silent now, in mid-word."""


@dataclass(frozen=True, slots=True)
class Wake:
    """Send `Woke(wake)` after this long, with a soft tone `tone_ms` before. The latest replaces others."""

    wake: int
    after_ms: int
    tone_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Asleep:
    """Forget the wake that was asked for."""


@dataclass(frozen=True, slots=True)
class Board:
    """The board now stands so. `move` is the move that led here, for one that was made just now."""

    place: Place
    move: str | None
    why: Literal["told", "aside", "return", "imagined", "board", "answer", "reply", "what-if", "undo", "seek"]
    flip: bool = False


@dataclass(frozen=True, slots=True)
class Marked:
    """These marks stand on the board now; empty marks take them off."""

    shown: Shown


@dataclass(frozen=True, slots=True)
class Scoped:
    """An aside or imagined position (an index into the sheet's scopes) opens or closes."""

    scope: int
    opened: bool


@dataclass(frozen=True, slots=True)
class Put:
    """A question is put; `think_ms` is the thinking silence, or None to wait for the learner."""

    ask: Ask
    think_ms: int | None


Grade = Literal["right", "also", "wrong", "told", "passed", "seen"]


@dataclass(frozen=True, slots=True)
class Attempt:
    """A try at a question, or its end without one. `number` counts tries from 1; 0 where there was none.

    `given` is the answer as the learner gave it; `meant` what it was taken for (UCI, square, number, choice).
    """

    ask: str
    given: str
    meant: str
    grade: Grade
    number: int
    nudges: int


@dataclass(frozen=True, slots=True)
class Reasoned:
    """What the learner gave as the reason for an answer, and how sure it was.

    `agreed` tells whether the coach's reason was the same: "yes", "partly", "no", or "" where nothing was
    said;     `sure` is "sure", "fairly", "a guess" or "".
    """

    ask: str
    reason: str
    agreed: str
    sure: str


@dataclass(frozen=True, slots=True)
class Weighed:
    """How a right answer went, in the learner's word: "at once", "with effort" or "guess"."""

    ask: str
    effort: str


@dataclass(frozen=True, slots=True)
class Need:
    """A truth about this move here is wanted; `Learnt(need, ...)` brings it."""

    need: int
    place: Place
    move: str


@dataclass(frozen=True, slots=True)
class Note:
    """An answer to a command, to be read, not told: several lines may stand in it, parted by newlines."""

    text: str
    standing: Standing


@dataclass(frozen=True, slots=True)
class Noted:
    """An idea has been told and is in the notebook."""

    idea: str
    words: str


@dataclass(frozen=True, slots=True)
class Reached:
    """This step is begun: the point to resume from. `ms` is its time on the sheet."""

    step: str
    ms: int


@dataclass(frozen=True, slots=True)
class Tuned:
    """A setting of the telling changed."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class Quit:
    """The learner leaves; the place is kept. `to` is a lesson's path to go to, `step` a step's key there."""

    to: str = ""
    step: str = ""


@dataclass(frozen=True, slots=True)
class Over:
    """The lesson is told."""


Happening = (
    Say
    | Hush
    | Wake
    | Asleep
    | Board
    | Marked
    | Scoped
    | Put
    | Attempt
    | Reasoned
    | Weighed
    | Need
    | Note
    | Noted
    | Reached
    | Tuned
    | Quit
    | Over
)
