"""The scripts of `tests/corpus/` and what a followed lesson says of itself in the terms of their indexes."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import chess

from player.facts.place import Place
from player.script.faults import Fault
from player.script.follow import follow
from player.script.read import read
from player.script.told import Text, Told, ToldBeat, ToldBlock, ToldBoard, ToldLesson, ToldQuestion, Turn

CORPUS = Path(__file__).parent.parent / "corpus"


@dataclass(frozen=True)
class Outcome:
    """A script read and followed."""

    told: ToldLesson
    faults: tuple[Fault, ...]
    queries: tuple[Fault, ...]


def index(name: str) -> list[dict[str, Any]]:
    """The records of one index."""
    text = (CORPUS / name).read_text(encoding="utf-8")
    return [json.loads(line) for line in text.splitlines() if line.strip()]


def outcome(path: Path) -> Outcome:
    """What reader and follower make of a file."""
    return outcome_of(path.read_bytes().decode("utf-8"))


def outcome_of(source: str) -> Outcome:
    lesson, first = read(source)
    told, second = follow(lesson)
    every = first + second
    return Outcome(
        told,
        tuple(fault for fault in every if fault.severity == "fault"),
        tuple(fault for fault in every if fault.severity == "query"),
    )


def moves_told(body: Iterable[Told], scope: tuple[str, ...] = ()) -> Iterator[list[str]]:
    """`[scope, SAN]` of every told move, in told order."""
    for told in body:
        if isinstance(told, ToldBeat):
            for turn in turns(told.text):
                yield ["/".join(scope) or "main", turn.san]
        elif isinstance(told, ToldBlock):
            yield from moves_told(told.body, (*scope, told.kind))


def turns(text: Text) -> list[Turn]:
    """The moves in a text."""
    return [deed.do for deed in text.deeds if isinstance(deed.do, Turn)]


def questions(body: Iterable[Told]) -> Iterator[ToldQuestion]:
    """All questions in file order."""
    for told in body:
        if isinstance(told, ToldQuestion):
            yield told
        elif isinstance(told, ToldBlock):
            yield from questions(told.body)


def blocks(body: Iterable[Told]) -> Iterator[ToldBlock]:
    """All blocks in file order."""
    for told in body:
        if isinstance(told, ToldBlock):
            yield told
            yield from blocks(told.body)


def last_place(body: Iterable[Told]) -> Place:
    """Where the main line ends."""
    place = Place()
    for told in body:
        if isinstance(told, ToldBeat | ToldBoard):
            place = told.after
    return place


def epd(place: Place) -> list[str]:
    """Placement, turn, castling, en passant."""
    return place.fen.split(" ")[:4]


def sans(question: ToldQuestion, ucis: Iterable[str]) -> list[str]:
    board = question.place.board()
    return [board.san(chess.Move.from_uci(uci)) for uci in ucis]
