"""A doubt about some words of a passage, before it is a query."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Doubt:
    """The characters from `start` to `end` of a passage's text, a query's code and sentence, an example."""

    start: int
    end: int
    code: str
    message: str
    fix: str = ""
