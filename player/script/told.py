"""A lesson with every move and place known: what `follow` makes of a script, for check and compile alike."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from player.facts.place import Place
from player.script.model import Header, Spot


@dataclass(frozen=True, slots=True)
class Turn:
    """A move that lands: `before` and `after` are whole places, so it can be entered cold."""

    uci: str
    san: str
    before: Place
    after: Place


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing shown on the board: a square, a line between two squares, or who hits whom.

    `to` is empty for a square.
    """

    kind: Literal["square", "line", "hit"]
    square: str
    to: str = ""


@dataclass(frozen=True, slots=True)
class Shown:
    """Marks that last until the next move, marks, or end of block; `meaning` is a word or ""."""

    marks: tuple[Mark, ...]
    meaning: str = ""


@dataclass(frozen=True, slots=True)
class Deed:
    """Something done when the voice reaches a character of the text; `at` may equal the text's length."""

    at: int
    do: Turn | Shown
    spot: Spot
    stamp_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """Words as shown, with what happens at them. Notation in `shown` is spoken properly later."""

    shown: str
    deeds: tuple[Deed, ...] = ()


@dataclass(frozen=True, slots=True)
class ToldBeat:
    """A beat: its words, and the places before and after them."""

    text: Text
    before: Place
    after: Place
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldPart:
    title: Text
    place: Place
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldIdea:
    name: str
    text: Text
    place: Place
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldShow:
    """A `show:` line."""

    shown: Shown
    place: Place
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldPause:
    ms: int
    place: Place
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldBoard:
    """A `board:` line: another game or position begins here. `words` says how the script named it."""

    words: str
    before: Place
    after: Place
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldSides:
    """`side:` or `view:` from here on: whose lesson it is, who sits at the bottom; "" changes nothing."""

    side: Literal["white", "black", "both", ""]
    view: Literal["white", "black", ""]
    place: Place
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldClaim:
    """A `claim:` line. `last` is the move just told in this game, for claims that judge it."""

    words: str
    place: Place
    last: Turn | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldFine:
    words: str
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldGame:
    """A `game:` line: "White - Black, Place 1998, 1-0"; empty strings where the line is silent."""

    white: str
    black: str
    site: str
    year: str
    result: str
    place: Place
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldBlock:
    """An aside, instead, imagined position or retelling. `outer` is the place left and returned to.

    `title` is spoken words; for an imagined position and a retelling it is empty and `words` holds the list
    or the name. `inner` is the place at which the body begins.
    """

    kind: Literal["aside", "instead", "imagine", "retell"]
    title: Text
    words: str
    outer: Place
    inner: Place
    body: tuple[Told, ...]
    back: Text | None
    stamp_ms: int | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class ToldReply:
    """Words for these answers (UCI, or a square, number or choice).

    `places` has the place after each answer, in the same order; the text's deeds play on after the first.
    """

    answers: tuple[str, ...]
    places: tuple[Place, ...]
    text: Text
    spot: Spot


AskKind = Literal["move", "square", "count", "choice", "words"]


@dataclass(frozen=True, slots=True)
class ToldQuestion:
    """A question. For a move, `answer` is the next move told at that depth.

    `because_given` says that the script gave the reason; else it is the words after that move.
    """

    kind: AskKind
    text: Text
    place: Place
    answer: Turn | None
    answers: tuple[str, ...]
    choices: tuple[str, ...]
    also: tuple[ToldReply, ...]
    replies: tuple[ToldReply, ...]
    otherwise: Text | None
    because: Text | None
    because_given: bool
    nudges: tuple[Text, ...]
    about: tuple[str, ...]
    think_ms: int | None
    again: bool
    stamp_ms: int | None
    spot: Spot
    manner: tuple[str, ...] = ()


Told = (
    ToldBeat
    | ToldPart
    | ToldIdea
    | ToldShow
    | ToldPause
    | ToldBoard
    | ToldSides
    | ToldClaim
    | ToldFine
    | ToldGame
    | ToldBlock
    | ToldQuestion
)


@dataclass(frozen=True, slots=True)
class ToldLesson:
    """A followed lesson. `marks` has the place of each `mark:` by its name as written."""

    header: Header
    body: tuple[Told, ...]
    marks: Mapping[str, Place] = field(default_factory=dict)


def flat(body: tuple[Told, ...]) -> Iterator[Told]:
    """Every element in file order, blocks opened up."""
    for one in body:
        yield one
        if isinstance(one, ToldBlock) and one.kind != "retell":
            yield from flat(one.body)
