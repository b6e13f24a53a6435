"""The demo series: long enough, rich enough, and never saying the same sentence twice."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import chess

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet, Step
from player.script.follow import follow
from player.script.keys import KEYS
from player.script.read import read
from tests.cues.compiled import turns

FOLDER = Path(__file__).parent.parent / "demo_lessons"
SCRIPTS = sorted(FOLDER.glob("*.lesson"))

WORDS_A_MINUTE = 150
"""A speaker's pace; lectures run at 125 to 160 words a minute (Tauroza and Allison 1990, from memory)."""

NOT_FOR_A_DEMO = {"recording", "voice"}
"""Keys that name a sound file, or a voice that not every machine has."""


@cache
def sheets() -> tuple[Sheet, ...]:
    made = []
    for script in SCRIPTS:
        lesson, faults = read(script.read_text(encoding="utf-8"))
        told, more = follow(lesson)
        assert not [fault for fault in (*faults, *more) if fault.severity == "fault"]
        made.append(compile_lesson(told))
    return tuple(made)


def heard(sheet: Sheet) -> Iterator[Step]:
    """The coach's own steps: no announcements, and none of a question that is asked once more."""
    for step in sheet.steps:
        if step.say is not None and not step.ear_only and "~" not in step.key:
            yield step


def test_the_series_is_told_in_forty_minutes_of_speech_at_least() -> None:
    words = sum(len(step.say.spoken.split()) for sheet in sheets() for step in heard(sheet) if step.say)
    assert words / WORDS_A_MINUTE >= 40


def test_the_coach_never_says_a_sentence_twice() -> None:
    said: Counter[str] = Counter()
    for sheet in sheets():
        retold = {i for i, scope in enumerate(sheet.scopes) if scope.kind == "retell"}
        for step in heard(sheet):
            told = step.kind in ("tell", "show", "idea", "ask") and not retold & set(step.scopes)
            if told and step.say is not None:
                said[step.say.shown.casefold()] += 1
    assert [sentence for sentence, times in said.items() if times > 1] == []


def test_there_are_forty_questions_with_replies_and_every_one_has_help() -> None:
    asks = [step.ask for sheet in sheets() for step in sheet.steps if step.ask is not None]
    own = {ask.key: ask for ask in asks}
    assert sum(bool(ask.replies) for ask in own.values()) >= 40
    assert all(ask.otherwise or ask.kind == "choice" for ask in own.values())
    assert {ask.kind for ask in asks} == {"move", "square", "count", "choice", "words"}


def test_there_are_asides_and_imagined_positions() -> None:
    kinds = Counter(scope.kind for sheet in sheets() for scope in sheet.scopes)
    assert kinds["aside"] + kinds["instead"] >= 15
    assert kinds["imagine"] >= 6
    assert kinds["instead"] and kinds["retell"]
    nested = [step for sheet in sheets() for step in sheet.steps if len(step.scopes) > 1]
    assert nested


def test_every_key_of_the_script_is_used() -> None:
    lines = [line for script in SCRIPTS for line in script.read_text(encoding="utf-8").splitlines()]
    found = {match[1] for line in lines if (match := re.match(r"\s*(?:\[[\d:.]+\] )?([a-z]+)\b[^:]*:", line))}
    assert KEYS - NOT_FOR_A_DEMO - found == set()


def test_every_kind_of_brace_and_rare_move_is_used() -> None:
    text = "\n".join(script.read_text(encoding="utf-8") for script in SCRIPTS)
    for form in (
        r"\{show [^}]* as ",
        r"\{[^}]* @\d",
        r"\{[^}:]*: [^}]*\*[^}]*\}",
        r"\{castles[:}]",
        r"board: after ",
    ):
        assert re.search(form, text), form
    moves = [(turn.before.board(), turn.uci) for s in sheets() for step in s.steps for turn in turns(step)]
    made = [(board, chess.Move.from_uci(uci)) for board, uci in moves]
    assert any(move.promotion for _, move in made)
    assert any(board.is_en_passant(move) for board, move in made)
    assert any(board.is_castling(move) for board, move in made)
