"""A question that waits for its answer to be told: the next move at its depth, and the words after it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

import chess

from player.script.braces import Said
from player.script.model import QuestionBlock
from player.script.told import Deed, Shown, Text, ToldBeat, ToldQuestion, Turn

_LOOSE = re.compile(r"[\s.,;:!?)\-–—*]*")


@dataclass(slots=True)
class Pending:
    """`asked` is the question so far, `index` its place in the body being told."""

    asked: ToldQuestion
    block: QuestionBlock
    board: chess.Board
    index: int
    answer: Turn | None = None
    words: list[Text] = field(default_factory=list)
    done: bool = False

    def hear(self, said: Said) -> None:
        """The next beat at this depth."""
        landings = list(said.landings)
        start = 0
        if self.answer is None:
            if not landings:
                return
            first = landings.pop(0)
            self.answer, start = first.turn, first.end
        end = landings[0].start if landings else len(said.text.shown)
        self.words.append(_part(said.text, start, end))
        self.done = bool(landings)

    def as_beat(self) -> ToldBeat:
        """The words of a question that cannot be asked."""
        asked = self.asked
        return ToldBeat(asked.text, asked.place, asked.place, asked.stamp_ms, asked.spot)

    def question(self) -> ToldQuestion:
        """The question with its answer; its reason is given, or the words after the answer."""
        assert self.answer is not None
        because = self.asked.because
        if because is None:
            because = _joined(self.words)
        return replace(self.asked, answer=self.answer, answers=(self.answer.uci,), because=because)


def _part(text: Text, start: int, end: int) -> Text:
    """Some words of a text, with the marks shown in them."""
    loose = _LOOSE.match(text.shown, start, end)
    start = loose.end() if loose else start
    shown = text.shown[start:end].rstrip(" ,;:(-–—")
    deeds = tuple(
        replace(deed, at=deed.at - start)
        for deed in text.deeds
        if isinstance(deed.do, Shown) and start <= deed.at <= start + len(shown)
    )
    return Text(shown, deeds)


def _joined(parts: list[Text]) -> Text | None:
    shown = ""
    deeds: list[Deed] = []
    for part in parts:
        if not part.shown:
            continue
        if shown:
            shown += " "
        deeds += [replace(deed, at=deed.at + len(shown)) for deed in part.deeds]
        shown += part.shown
    return Text(shown, tuple(deeds)) if shown else None
