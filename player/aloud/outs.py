"""What hand and ear want done: feed the lesson, say something of the skin's own, be quiet."""

from __future__ import annotations

from dataclasses import dataclass

from player.stage.inputs import Did, Typed


@dataclass(frozen=True, slots=True)
class Feed:
    """Give this to the lesson."""

    what: Did | Typed


@dataclass(frozen=True, slots=True)
class Tell:
    """Say and print this, beside the lesson, which is held."""

    text: str


@dataclass(frozen=True, slots=True)
class Show:
    """Print this without saying it."""

    text: str


@dataclass(frozen=True, slots=True)
class Quiet:
    """End what is being said of the skin's own."""


@dataclass(frozen=True, slots=True)
class After:
    """Give this to the lesson once what is being said of the skin's own has been said."""

    what: Did | Typed


Out = Feed | Tell | Show | Quiet | After
Outs = tuple[Out, ...]
