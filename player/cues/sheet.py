"""The cue sheet: a lesson as a flat list of steps in told order."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from player.facts.place import Place
from player.script.told import AskKind, Shown, Turn
from player.wording.utterance import Utterance


@dataclass(frozen=True, slots=True)
class Cue:
    """Something that happens when word number `word` of the step's utterance begins.

    `word` counts from 0; the number of words means: when the utterance has been said.
    """

    word: int
    do: Turn | Shown
    stamp_ms: int | None = None


StepKind = Literal["tell", "part", "enter", "return", "board", "show", "idea", "ask", "rest"]


@dataclass(frozen=True, slots=True)
class Step:
    """One sentence with what happens in it: the unit of telling, repeating, seeking and resuming.

    `key` is a content hash with an ordinal: it outlives edits elsewhere and ignores stamps. `line` is the
    script line of the beat, from 1. `part` is an index into the sheet's parts, -1 before the first. `beat`
    numbers the beats: steps of one beat share it. `scopes` are the indices of the open asides and imagined
    positions, outermost first. `before` and `after` differ by the moves among the cues and by nothing else: a
    step of kind "enter", "return" or "board" has the new place in both. `ear_only` steps are said only in ear
    mode; their cues happen all the same. `rest_ms` is the silence after the words. `stamp_ms` is the script's
    own time for the start. `flip` is True where Black sits at the bottom. Every sentence of an idea has its
    name in `idea`. An `extra` step is told only where key questions are asked again, and takes no time of the
    sheet.
    """

    key: str
    line: int
    part: int
    beat: int
    scopes: tuple[int, ...]
    kind: StepKind
    before: Place
    after: Place
    say: Utterance | None = None
    cues: tuple[Cue, ...] = ()
    ear_only: bool = False
    rest_ms: int = 0
    stamp_ms: int | None = None
    flip: bool = False
    idea: str = ""
    ask: Ask | None = None
    extra: bool = False


Track = tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Scope:
    """A range of steps told and returned from: `first` to `last`, and the last is the return."""

    kind: Literal["aside", "instead", "imagine", "retell"]
    title: str
    first: int
    last: int
    outer: Place
    inner: Place


@dataclass(frozen=True, slots=True)
class Reply:
    """What is told when one of these answers is given (UCI, square, number or choice)."""

    answers: tuple[str, ...]
    track: Track


@dataclass(frozen=True, slots=True)
class Ask:
    """A question, with the side tracks that are told only on demand.

    `key` is a hash of position, kind and answer: it outlives any edit of the prose. `text` is the question
    without its choices. `answer` is the move told next, for a question about a move; `told` is the index of
    the step that tells it. The tracks of `also`, `replies` and `because` begin at the place after the move
    they follow, the others at `place`. `think_ms` is the script's own thinking time, or None. `again`
    has a key question, and `once_more` is one asked again: its key ends in "~" and how many times.
    """

    key: str
    kind: AskKind
    place: Place
    text: str
    answer: Turn | None
    told: int | None
    answers: tuple[str, ...]
    choices: tuple[str, ...]
    also: tuple[Reply, ...]
    replies: tuple[Reply, ...]
    otherwise: Track
    because: Track
    because_given: bool
    nudges: tuple[Track, ...]
    about: tuple[str, ...]
    think_ms: int | None
    again: bool
    manner: tuple[str, ...] = ()
    once_more: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """A titled stretch: the index of its first step."""

    title: str
    first: int


@dataclass(frozen=True, slots=True)
class Sheet:
    """All steps of a lesson in told order. `starts` has the time in ms at which each begins, and the end.

    `starts` comes from an estimate of the pace, thinking silences included; `stamps` in the script bend it.
    `ideas` maps a name to the words that told it. In a sheet gathered from several lessons, `origins` maps
    the key of a question to its lesson's path and to the key of the step there. `following` is the path and
    the title of the lesson that goes on from here, where there is one.
    """

    title: str
    coach: str
    side: str
    language: str
    steps: Track
    parts: tuple[Part, ...]
    scopes: tuple[Scope, ...]
    ideas: Mapping[str, str]
    starts: tuple[int, ...]
    lexicon: Mapping[str, str] = field(default_factory=dict)
    origins: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    following: tuple[str, str] | None = None

    def index(self, key: str) -> int | None:
        """The index of the step with this key, or None."""
        return next((i for i, step in enumerate(self.steps) if step.key == key), None)

    def at(self, ms: int) -> int:
        """The index of the step being told at this time; the last one past the end."""
        from bisect import bisect_right

        return max(0, min(bisect_right(self.starts, ms) - 1, len(self.steps) - 1))

    @property
    def words(self) -> frozenset[str]:
        """Every word that is said in it, in small letters."""
        said = (step.say.shown.casefold() for step in self.steps if step.say is not None)
        return frozenset(word for text in said for word in re.findall(r"[^\W\d_]+", text))

    @property
    def questions(self) -> tuple[int, ...]:
        """The indices of the steps that ask, each question once."""
        return tuple(i for i, s in enumerate(self.steps) if s.ask is not None and not s.ask.once_more)
