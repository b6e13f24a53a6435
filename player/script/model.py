"""A lesson as it is written: the parsed script, before any move is looked at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal


@dataclass(frozen=True, slots=True)
class Spot:
    """Where something stands in the script: line and column from 1, width in characters."""

    line: int
    column: int = 1
    width: int = 1


@dataclass(frozen=True, slots=True)
class Words:
    """Prose, with its escapes resolved and its line ends folded to blanks."""

    text: str
    spot: Spot


@dataclass(frozen=True, slots=True)
class Brace:
    """`{deed}` or `{deed: words}`: `words` is None where the deed is spoken as written, "" for nothing.

    `deed` is a phrase, moves in notation, or "show ...". `stamp_ms` is its own time stamp. `words` keeps its
    backslashes, for a star in it lands a move unless it is escaped.
    """

    deed: str
    words: str | None
    stamp_ms: int | None
    spot: Spot


Bit = Words | Brace
Bits = tuple[Bit, ...]


@dataclass(frozen=True, slots=True)
class Beat:
    """One piece of narration, possibly time-stamped."""

    bits: Bits
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class Line:
    """A key line whose value is not spoken: board, side, view, mark, show, claim, pause, fine, game."""

    key: str
    value: str
    spot: Spot  # of the value; of the key where there is no value
    stamp_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """A titled stretch of the lesson, from here to the next part."""

    title: Bits
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class IdeaLine:
    """`idea NAME: words`: said once, and kept in the notebook."""

    name: str
    words: Bits
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class Block:
    """aside, instead, imagine or retell: something told and returned from.

    `title` holds the words of an aside or instead; `value` the list of an imagine or the name of a retell.
    `back` is the coach's own words for the return. A retell has no body.
    """

    kind: Literal["aside", "instead", "imagine", "retell"]
    title: Bits
    value: str
    body: tuple[Element, ...]
    back: Bits | None
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ReplyLine:
    """`also MOVES: words` or `reply MOVES: words`."""

    moves: str
    words: Bits
    spot: Spot


@dataclass(frozen=True, slots=True)
class QuestionBlock:
    """A stop at which the learner predicts or judges; None or () where the script is silent."""

    text: Bits
    stamp_ms: int | None
    spot: Spot
    ask: Line | None = None
    answers: tuple[Line, ...] = ()
    choices: tuple[Line, ...] = ()
    also: tuple[ReplyLine, ...] = ()
    replies: tuple[ReplyLine, ...] = ()
    otherwise: Bits | None = None
    because: Bits | None = None
    nudges: tuple[Bits, ...] = ()
    about: tuple[Line, ...] = ()
    think: Line | None = None
    key: Line | None = None


Element = Beat | Line | Part | IdeaLine | Block | QuestionBlock


@dataclass(frozen=True, slots=True)
class Header:
    """What stands at the top of a script. `series` is (name, number, of how many).

    `spots` has the place of each value by its key ("pronounce Calder" for a pronunciation).
    """

    script: int = 1
    title: str = ""
    series: tuple[str, int, int] | None = None
    coach: str = ""
    side: str = "white"
    level: str = ""
    language: str = "en"
    recording: str = ""
    voice: str = ""
    pronounce: Mapping[str, str] = field(default_factory=dict)
    spots: Mapping[str, Spot] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Lesson:
    """A script as read: the header and the elements in file order. `source` is the text it was read from."""

    header: Header
    body: tuple[Element, ...]
    source: str = ""
