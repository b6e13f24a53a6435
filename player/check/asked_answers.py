"""A coach's `answer:` to a question about squares or a number, held against the board's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal

from player.check.where import within
from player.script.faults import Fault, lines_of
from player.script.model import Spot
from player.script.told import Told, ToldQuestion
from player.wording.asked.computed import computed_answers


def doubtful_answers(source: str, elements: Iterable[Told]) -> Iterator[Fault]:
    """A query for each answer that is not what the board answers to the question's words.

    Only where the question is in a form that the board can answer; all others are the coach's to judge.
    """
    lines = lines_of(source)
    for one in elements:
        if not isinstance(one, ToldQuestion) or one.kind not in ("square", "count") or not one.answers:
            continue
        kind: Literal["square", "count"] = "square" if one.kind == "square" else "count"
        computed = computed_answers(one.place.board(), one.text.shown, kind)
        if computed is None or set(computed) == set(one.answers):
            continue
        spot = _answer_line(source, lines, one.spot, one.answers[0])
        message = f"By the board the answer to this question is {', '.join(computed)}."
        fix = f"answer: {', '.join(computed)}"
        yield Fault(spot.line, spot.column, spot.width, "query", "answer-against-board", message, fix)


def _answer_line(source: str, lines: list[str], question: Spot, answer: str) -> Spot:
    for number in range(question.line, min(question.line + 40, len(lines) + 1)):
        text = lines[number - 1]
        if text.lstrip().startswith("answer:"):
            return within(source, Spot(number, text.index("answer:") + 1, 7), answer)
    return question
