"""Inputs and settings as JSON, and back."""

from __future__ import annotations

import json
from dataclasses import asdict, fields
from typing import Any, get_args

from player.stage.inputs import Did, Finished, Heard, Input, Learnt, Typed, Woke
from player.stage.state import Naming, PlainDepth, Telling, View

_KINDS: dict[str, type[Input]] = {
    "heard": Heard,
    "finished": Finished,
    "woke": Woke,
    "learnt": Learnt,
    "typed": Typed,
    "did": Did,
}
_NAMES = {kind: name for name, kind in _KINDS.items()}
_TYPES = {"int": int, "str": str}
_CHOICES = {"naming": get_args(Naming), "view": get_args(View), "depth": get_args(PlainDepth)}


def packed(value: list[Any]) -> str:
    """A list as one line of JSON."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def input_line(given: Input) -> list[Any]:
    """An input as a list: its kind, then its values in order."""
    return [_NAMES[type(given)], *asdict(given).values()]


def line_input(line: list[Any]) -> Input | None:
    """The input that a list holds, or None where it holds none."""
    kind = _KINDS.get(line[0]) if line and isinstance(line[0], str) else None
    if kind is None:
        return None
    wanted = fields(kind)
    if len(line) != len(wanted) + 1:
        return None
    for one, value in zip(wanted, line[1:], strict=True):
        if type(value) is not _TYPES.get(str(one.type)):
            return None
    return kind(*line[1:])


def telling_of(known: object) -> Telling | None:
    """The settings that a JSON object holds, or None where it holds none."""
    if not isinstance(known, dict):
        return None
    usual = Telling()
    values: dict[str, Any] = {}
    for one in fields(Telling):
        value = known.get(one.name, getattr(usual, one.name))
        kind = type(getattr(usual, one.name))
        if kind is float and type(value) is int:
            value = float(value)
        if type(value) is not kind or value not in _CHOICES.get(one.name, (value,)):
            return None
        values[one.name] = value
    return Telling(**values)
