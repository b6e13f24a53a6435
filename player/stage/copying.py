"""A working copy of the state while one input is dealt with: the small changes everything is made of."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal

from player.cues.sheet import Step
from player.facts.place import Place
from player.script.told import Shown
from player.stage.happenings import (
    Asleep,
    Board,
    Happening,
    Hush,
    Marked,
    Wake,
)
from player.stage.state import Frame, State
from player.wording.prose import speakable
from player.wording.utterance import Utterance

NOTHING = Shown(())
BoardWhy = Literal[
    "told", "aside", "return", "imagined", "board", "answer", "reply", "what-if", "undo", "seek"
]


class Copy:
    """A working copy: `state` is replaced as things change, `out` gathers the happenings in order."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.out: list[Happening] = []

    def emit(self, *happenings: Happening) -> None:
        self.out.extend(happenings)

    def set(self, **changes: Any) -> None:
        self.state = replace(self.state, **changes)

    def edit(self, **changes: Any) -> None:
        """Change the top frame."""
        self.state = replace(self.state, frames=(*self.state.frames[:-1], replace(self.top, **changes)))

    @property
    def top(self) -> Frame:
        return self.state.frames[-1]

    @property
    def flip(self) -> bool:
        return self.state.flipped

    def board(self, place: Place, why: BoardWhy, move: str | None = None) -> None:
        """The board now stands so; marks of another position go."""
        self.unmark()
        self.edit(place=place)
        self.emit(Board(place, move, why, self.flip))

    def unmark(self) -> None:
        if self.top.shown is not None:
            self.edit(shown=None)
            self.emit(Marked(NOTHING))

    def sentence(self, text: str, key: str, place: Place | None = None) -> Step:
        """A step of the program's own, outside the sheet."""
        here = place or self.top.place
        said = self.utter(text)
        line = self.top.step.line if self.top.step else 0
        return Step(key, line, -1, -1, (), "tell", here, here, said, flip=self.state.flip)

    def utter(self, text: str) -> Utterance:
        return speakable(text, language="en", naming=self.state.telling.naming)

    def hush(self) -> None:
        """Stop whatever sounds or runs out."""
        if self.top.doing == "saying" and self.top.saying:
            self.emit(Hush())
        self.sleep()

    def sleep(self) -> None:
        if self.state.wake:
            self.set(wake=0)
            self.emit(Asleep())

    def wake_in(self, ms: int, tone: int | None = None) -> None:
        number = self.state.wakes + 1
        self.set(wakes=number, wake=number)
        self.emit(Wake(number, ms, tone))
