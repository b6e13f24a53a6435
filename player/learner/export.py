"""The whole record as plain text."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

import chess

from player.learner.record import Record
from player.learner.tries import Question, Try
from player.world.clean import clean_line


def exported(record: Record, now: datetime) -> Iterator[str]:
    """Lines of text: every question with its tries, then ideas met, then moments of lessons."""
    yield f"The record of your answers, written out on {now.date().isoformat()}."
    tries: dict[str, list[Try]] = {}
    for one in record.tries():
        tries.setdefault(one.question, []).append(one)
    questions = record.questions()
    for key, question in questions.items():
        yield ""
        yield from _question(question)
        for one in tries.pop(key, []):
            yield _try(one)
    for key, rest in tries.items():
        yield ""
        yield f"Question {key}, of which nothing else is kept."
        yield from map(_try, rest)
    ideas = record.read("SELECT at, name, title, words FROM ideas ORDER BY at")
    if ideas:
        yield ""
        yield "Ideas met:"
        for at, name, title, words in ideas:
            yield f"  {at} {clean_line(name)}, in {clean_line(title)}: {clean_line(words)}"
    moments = record.read("SELECT at, what, lesson, line FROM moments ORDER BY id")
    if moments:
        yield ""
        yield "Moments of lessons:"
        for at, what, lesson, line in moments:
            yield f"  {at} {what}, {clean_line(lesson)}, line {line}"


def _question(question: Question) -> Iterator[str]:
    board = chess.Board(question.root)
    for uci in question.moves:
        board.push_uci(uci)
    where = f"{clean_line(question.title)}, {clean_line(question.lesson)}, line {question.line}"
    yield f"Question: {clean_line(question.text)}"
    yield f"  from: {where}"
    yield f"  position: {board.fen()}"
    yield f"  answer: {clean_line(' '.join(question.answers))}"
    if question.ideas:
        yield f"  about: {clean_line(', '.join(question.ideas))}"


def _try(one: Try) -> str:
    parts = [f"  {one.at.isoformat(timespec='seconds')} {one.mode}: {one.grade}"]
    if one.given:
        parts.append(f'"{clean_line(one.given)}"')
    if one.number:
        parts.append(f"try {one.number}")
    if one.nudges:
        parts.append(f"after {one.nudges} nudges" if one.nudges > 1 else "after a nudge")
    if one.took_ms is not None:
        parts.append(f"{one.took_ms / 1000:.1f} s")
    if one.sure is not None:
        parts.append(f"felt {one.sure}" if one.sure != "guess" else "a guess")
    if one.effort is not None:
        parts.append(f"went {one.effort}" if one.effort != "guess" else "guessed")
    return ", ".join(parts)
