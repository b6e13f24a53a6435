"""The prose of a lesson as passages: words, the positions they are said over, and where they stand."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

import chess

from player.facts.place import Place
from player.script.faults import lines_of
from player.script.model import Spot
from player.script.told import (
    Shown,
    Text,
    Told,
    ToldBeat,
    ToldBlock,
    ToldBoard,
    ToldIdea,
    ToldPart,
    ToldQuestion,
    ToldReply,
    Turn,
)

Role = Literal[
    "told",
    "part",
    "title",
    "back",
    "idea",
    "question",
    "also",
    "reply",
    "otherwise",
    "because",
    "nudge",
    "choice",
]
_NEAR = 3


@dataclass(frozen=True, slots=True)
class Passage:
    """Words and what is known where they are said.

    `turns` and `marks` are the moves and marks in them, with the characters they happen at. `before` is the
    place at their beginning. `near` are places just before and just after the passage that its words may
    look at, `ahead` the next moves told at its depth. `answer` is the answer of the question it belongs to,
    `moved` the move it speaks of where that is not in it: the learner's in a reply, the last one told
    elsewhere. `rung` counts nudges from 1, of `rungs`.
    """

    text: str
    role: Role
    spot: Spot
    before: Place
    turns: tuple[tuple[int, Turn], ...] = ()
    marks: tuple[tuple[int, Shown], ...] = ()
    near: tuple[Place, ...] = ()
    ahead: tuple[Turn, ...] = ()
    answer: Turn | None = None
    moved: Place | None = None
    replied: tuple[Place, ...] = ()
    rung: int = 0
    rungs: int = 0
    question: ToldQuestion | None = None

    def at(self, offset: int) -> Place:
        """The place once the words up to this character have been heard."""
        place = self.before
        for at, turn in self.turns:
            if at <= offset:
                place = turn.after
        return place

    def last(self, offset: int) -> Place | None:
        """The place whose last move is the one spoken of at this character, or None."""
        place = self.at(offset)
        if place.moves and place != self.before:
            return place
        return self.moved

    def places(self) -> tuple[Place, ...]:
        """Every place the words may be about without looking far."""
        own = [self.before, *(turn.after for _, turn in self.turns)]
        answered = [self.answer.after] if self.answer else []
        return tuple(dict.fromkeys((*own, *answered, *self.near, *self.replied)))


def tight_places(passage: Passage, offset: int) -> list[Place]:
    """The places that words at an offset are about."""
    own = [turn.after for _, turn in passage.turns]
    places = [passage.at(offset), passage.before, *own]
    if passage.moved:
        places.append(passage.moved)
    if passage.answer:
        places.append(passage.answer.after)
    places += passage.replied
    places += [turn.after for turn in passage.ahead[: 2 if passage.role in ("title", "back") else 1]]
    if passage.role in ("back",):
        places += passage.near
    return list(dict.fromkeys(places))


@dataclass(slots=True)
class Boards:
    """Boards of places, each made once from the one before it."""

    kept: dict[Place, chess.Board] = field(default_factory=dict)

    def of(self, place: Place) -> chess.Board:
        """The board of a place, without its moves; not to be changed."""
        board = self.kept.get(place)
        if board is None:
            if place.moves:
                board = self.of(Place(place.root, place.moves[:-1])).copy(stack=False)
                board.push(chess.Move.from_uci(place.moves[-1]))
            else:
                board = chess.Board(place.root)
            self.kept[place] = board
        return board


class Where:
    """Finds the words of passages in a script."""

    def __init__(self, source: str) -> None:
        self._source = "\n".join(lines_of(source))
        self._starts = [0]
        for found in re.finditer("\n", self._source):
            self._starts.append(found.end())

    def spot(self, passage: Passage, start: int, end: int) -> Spot:
        """The spot of a part of a passage's text; of the passage where it is not found."""
        text = passage.text
        at = self._starts[min(passage.spot.line, len(self._starts)) - 1] + passage.spot.column - 1
        stop = min(len(self._source), at + 3 * len(text) + 6000)
        for reach in (40, 20, 8, 0):
            lead = text[max(0, start - reach) : start]
            trail = text[end : end + reach]
            pattern = f"(?:{_loose(lead)})(?P<it>{_loose(text[start:end])})(?:{_loose(trail)})"
            found = re.compile(pattern).search(self._source, at, stop)
            if found:
                return self._spot(found.start("it"), found.end("it"))
        return passage.spot

    def _spot(self, start: int, end: int) -> Spot:
        low, high = 0, len(self._starts)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self._starts[middle] <= start else (low, middle)
        line_end = self._source.find("\n", start)
        end = end if line_end < 0 else min(end, line_end)
        return Spot(low + 1, start - self._starts[low] + 1, max(1, end - start))


def _loose(text: str) -> str:
    """A pattern for some words with any blanks, escapes and stars between them."""
    pieces = re.findall(r"\s+|\w+|.", text)
    return "".join(
        r"[\s*]+" if piece.isspace() else r"\\?" * (not piece.isalnum()) + re.escape(piece)
        for piece in pieces
    )


def passages_of(body: Sequence[Told], outer: Place | None = None) -> Iterator[Passage]:
    """Every spoken passage of a followed lesson, in file order; a retelling's are left out."""
    for number, one in enumerate(body):
        ahead = _ahead(body, number)
        if isinstance(one, ToldBeat):
            yield _passage(one.text, "told", one.spot, one.before, ahead, outer)
        elif isinstance(one, ToldPart):
            yield _passage(one.title, "part", one.spot, one.place, ahead, outer, _part_places(body, number))
        elif isinstance(one, ToldIdea):
            yield _passage(one.text, "idea", one.spot, one.place, ahead, outer)
        elif isinstance(one, ToldQuestion):
            yield from _question(one, ahead, outer)
        elif isinstance(one, ToldBlock) and one.kind != "retell":
            inner = _ahead(one.body, -1)
            if one.title.shown:
                yield _passage(one.title, "title", one.spot, one.inner, inner, one.outer)
            yield from passages_of(one.body, one.outer)
        if isinstance(one, ToldBlock) and one.back is not None:
            seen = tuple(turn.after for turn in _ahead(one.body, -1, 40))
            made = _passage(one.back, "back", one.spot, one.outer, ahead, outer, (one.inner, *seen))
            yield made


def _ahead(body: Sequence[Told], number: int, limit: int = _NEAR) -> tuple[Turn, ...]:
    """The next moves told at this depth, as far as the next board."""
    turns: list[Turn] = []
    for one in body[number + 1 :]:
        if isinstance(one, ToldBeat):
            turns += [deed.do for deed in one.text.deeds if isinstance(deed.do, Turn)]
        if len(turns) >= limit or (isinstance(one, ToldBoard) and (number >= 0 or turns)):
            break
    return tuple(turns[:limit])


def _part_places(body: Sequence[Told], number: int) -> tuple[Place, ...]:
    """The places a part comes to at its own depth, its boards among them."""
    places: list[Place] = []
    for one in body[number + 1 :]:
        if isinstance(one, ToldPart):
            break
        if isinstance(one, ToldBoard):
            places.append(one.after)
        elif isinstance(one, ToldBeat):
            places += [deed.do.after for deed in one.text.deeds if isinstance(deed.do, Turn)]
    return tuple(places)


def _passage(
    text: Text,
    role: Role,
    spot: Spot,
    before: Place,
    ahead: tuple[Turn, ...],
    outer: Place | None,
    more: tuple[Place, ...] = (),
    **known: object,
) -> Passage:
    asked = known.get("question")
    still = isinstance(asked, ToldQuestion) and asked.kind != "move"
    behind = tuple(
        Place(before.root, before.moves[:-back]) for back in range(1, _NEAR) if len(before.moves) >= back
    )
    near = (*behind, *(turn.after for turn in ahead[:2] if not still), *((outer,) if outer else ()), *more)
    moved = before if before.moves else None
    return Passage(
        text.shown,
        role,
        spot,
        before,
        tuple((deed.at, deed.do) for deed in text.deeds if isinstance(deed.do, Turn)),
        tuple((deed.at, deed.do) for deed in text.deeds if isinstance(deed.do, Shown)),
        near,
        ahead,
        moved=moved,
        **known,  # type: ignore[arg-type]
    )


def _question(one: ToldQuestion, ahead: tuple[Turn, ...], outer: Place | None) -> Iterator[Passage]:
    answer = one.answer or _in_words(one)

    def made(text: Text, role: Role, spot: Spot = one.spot, **known: object) -> Passage:
        return _passage(text, role, spot, one.place, ahead, outer, (), question=one, answer=answer, **known)

    yield made(one.text, "question")
    for role, replies in (("also", one.also), ("reply", one.replies)):
        for reply in replies:
            yield _reply(one, reply, "also" if role == "also" else "reply", ahead, outer)
    if one.otherwise is not None:
        yield made(one.otherwise, "otherwise")
    for rung, nudge in enumerate(one.nudges, 1):
        yield made(nudge, "nudge", rung=rung, rungs=len(one.nudges))
    if one.because is not None and one.because_given:
        yield made(one.because, "because")


def _in_words(one: ToldQuestion) -> Turn | None:
    """The move that answers a question for words, where one of them is a legal move in notation."""
    if one.kind != "words" or not one.place.playable:
        return None
    board = one.place.board()
    for said in one.answers:
        if re.match(r"[KQRBN][a-h1-8]|[a-h]x|O-O", said, re.IGNORECASE):
            try:
                move = board.parse_san(said[0].upper() + said[1:] if said[0] in "kqrn" else said)
            except ValueError:
                continue
            return Turn(move.uci(), board.san(move), one.place, one.place.then(move.uci()))
    return None


def _reply(
    one: ToldQuestion, reply: ToldReply, role: Role, ahead: tuple[Turn, ...], outer: Place | None
) -> Passage:
    first = reply.places[0] if reply.places else one.place
    answered = (one.answer.after,) if one.answer else ()
    made = _passage(
        reply.text,
        role,
        reply.spot,
        first,
        ahead,
        outer,
        (one.place, *answered),
        question=one,
        answer=one.answer,
    )
    moves = one.kind == "move"
    return Passage(
        **{
            **{name: getattr(made, name) for name in Passage.__slots__},
            "replied": reply.places,
            "moved": first if moves else None,
        }
    )
