"""Choices of a question held against each other, its answer and its replies."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from player.script.faults import Fault, lines_of
from player.script.told import Told, ToldQuestion

_LINE = re.compile(r"\s*(?P<key>choice|answer|reply): ?(?P<words>.*?)\s*$|\s*reply (?P<reply>[^:]+):")


def chosen_doubts(source: str, elements: Iterable[Told]) -> Iterator[Fault]:
    """A query at a choice said twice, at an answer that is no choice, and at a reply to the answer itself."""
    lines = lines_of(source)
    for one in elements:
        if not isinstance(one, ToldQuestion) or one.kind != "choice":
            continue
        choices: list[str] = []
        answers: list[str] = []
        for number in range(one.spot.line + 1, min(one.spot.line + 40, len(lines)) + 1):
            text = lines[number - 1]
            if text.strip() and not text[:1].isspace():
                break
            found = _LINE.match(text)
            if found is None:
                continue
            words = (found["words"] or found["reply"] or "").strip()
            column = text.index(words) + 1 if words else 1
            said = words.casefold()
            if found["key"] == "choice":
                if said in choices:
                    yield _query(number, column, words, "choice-twice", "This choice is given twice.")
                choices.append(said)
            elif found["key"] == "answer":
                answers = [said]
                if choices and said not in choices:
                    yield _query(
                        number, column, words, "answer-no-choice", "The answer is none of the choices."
                    )
            elif found["reply"] and said in answers:
                yield _query(number, column, words, "reply-to-answer", "This reply is to the answer itself.")
            elif found["reply"] and choices and said not in choices:
                yield _query(
                    number, column, words, "reply-no-choice", "This reply is to none of the choices."
                )


def _query(line: int, column: int, words: str, code: str, message: str) -> Fault:
    return Fault(line, column, max(1, len(words)), "query", code, message)
