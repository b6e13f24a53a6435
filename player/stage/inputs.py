"""What the stage is told about the world: the only things that move a lesson on."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Heard:
    """This much of a saying has been heard: `ms` of its sound, and the words before number `word` have begun.

    `word` counts words begun: 1 means that the first word has started.
    """

    saying: int
    ms: int
    word: int


@dataclass(frozen=True, slots=True)
class Finished:
    """A saying has been heard to its end; `ms` is its length."""

    saying: int
    ms: int


@dataclass(frozen=True, slots=True)
class Woke:
    """A silence or a thinking time has run out."""

    wake: int


@dataclass(frozen=True, slots=True)
class Learnt:
    """A slow truth has come back: the sentence, and whose word it is (board, engine, coach or unknown)."""

    need: int
    sentence: str
    standing: str


@dataclass(frozen=True, slots=True)
class Typed:
    """The learner's words, typed or spoken, not yet understood."""

    text: str


@dataclass(frozen=True, slots=True)
class Did:
    """The learner did something named in the registry of actions, with its object if it has one."""

    verb: str
    with_: str = ""


Input = Heard | Finished | Woke | Learnt | Typed | Did
