"""Happenings as JSON objects, for comparing tellings and for programs that read them."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any

import chess

from player.cues.sheet import Ask, Sheet
from player.facts.place import Place
from player.script.told import Shown
from player.stage.happenings import Board, Happening, Scoped
from player.wording.utterance import Utterance


def as_json(happening: Happening, sheet: Sheet) -> dict[str, Any]:
    """The happening as one flat object: `kind`, then its values; a place is its `fen`."""
    known: dict[str, Any] = {"kind": type(happening).__name__.lower()}
    for one in fields(happening):
        value = getattr(happening, one.name)
        if isinstance(value, Utterance):
            known |= {"shown": value.shown, "spoken": value.spoken}
        elif isinstance(value, Place):
            known["fen"] = value.fen
        elif isinstance(value, Ask):
            known |= {"ask": value.key, "question": value.kind, "shown": value.text, "fen": value.place.fen}
        elif isinstance(value, Shown):
            known |= {"marks": [_plain(mark) for mark in value.marks], "meaning": value.meaning}
        elif one.name == "move":
            known["uci"] = value
        else:
            known[one.name] = value
    if isinstance(happening, Board):
        known["san"] = san_of(happening)
    if isinstance(happening, Scoped):
        scope = sheet.scopes[happening.scope]
        known |= {"block": scope.kind, "title": scope.title}
    return known


def san_of(board: Board) -> str | None:
    """The move just made, in notation; None where the board came to be so otherwise."""
    place = board.place
    if board.move is None or not place.moves or place.last != board.move:
        return None
    before = Place(place.root, place.moves[:-1]).board()
    return before.san(chess.Move.from_uci(board.move))


def _plain(value: Any) -> Any:
    assert is_dataclass(value)
    return {one.name: getattr(value, one.name) for one in fields(value)}
