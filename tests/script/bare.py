"""A lesson without its spots and source: what two scripts that say the same have in common."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from player.script.model import Lesson, Spot

T = TypeVar("T")


def bare(lesson: Lesson) -> Lesson:
    """The lesson as if all of it stood in one place."""
    return replace(
        lesson, source="", header=replace(lesson.header, spots={}), body=tuple(map(_bare, lesson.body))
    )


def _bare(value: Any) -> Any:
    if isinstance(value, Spot):
        return Spot(1)
    if isinstance(value, tuple):
        return tuple(map(_bare, value))
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{field.name: _bare(getattr(value, field.name)) for field in fields(value)})
    return value
