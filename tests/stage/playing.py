"""A lesson performed without a world: every saying is heard at once, every silence runs out at once."""

from __future__ import annotations

from player.cues.sheet import Sheet
from player.facts.place import Place
from player.stage.advance import advance, begin
from player.stage.happenings import Happening, Hush, Need, Note, Say, Wake
from player.stage.inputs import Did, Finished, Heard, Input, Learnt, Typed, Woke
from player.stage.state import State, Telling


class Playing:
    """Feeds a stage and performs what it asks for; `seen` has every happening, `fed` every input."""

    def __init__(self, sheet: Sheet, telling: Telling | None = None, *, think: bool = False) -> None:
        self.state: State = begin(sheet, telling or Telling())
        self.seen: list[Happening] = []
        self.fed: list[Input] = []
        self.think = think

    def start(self) -> Playing:
        return self.feed(Did("start"))

    def type(self, text: str) -> list[Happening]:
        mark = len(self.seen)
        self.feed(Typed(text))
        return self.seen[mark:]

    def feed(self, given: Input) -> Playing:
        """Give this input, then perform until somebody must do something."""
        queue: list[Input] = [given]
        for _ in range(20_000):
            if not queue:
                return self
            one = queue.pop(0)
            self.fed.append(one)
            self.state, out = advance(self.state, one)
            self.seen.extend(out)
            for happening in out:
                queue.extend(self.follow(happening))
        raise AssertionError("the stage never comes to rest")

    def follow(self, happening: Happening) -> list[Input]:
        if isinstance(happening, Say):
            words = len(happening.what.words)
            return [Heard(happening.saying, 1, min(words, 1)), Finished(happening.saying, 2)]
        if isinstance(happening, Need):
            return [Learnt(happening.need, f"Nobody has said why not {happening.move}.", "unknown")]
        if isinstance(happening, Wake) and (self.state.top.doing == "resting" or self.think):
            return [Woke(happening.wake)]
        if isinstance(happening, Hush):
            return []
        return []

    @property
    def place(self) -> Place:
        return self.state.place

    def said(self) -> list[str]:
        return [h.what.shown for h in self.seen if isinstance(h, Say)]

    def notes(self) -> list[str]:
        return [h.text for h in self.seen if isinstance(h, Note)]
