"""Lessons drawn with everything nested in everything: told to the end, sought step by step, and resumed."""

from __future__ import annotations

import json
from collections import Counter

import chess
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet
from player.facts.place import Place
from player.script.follow import follow
from player.script.read import read
from player.session.codec import input_line, line_input, packed
from player.stage.advance import advance, begin
from player.stage.happenings import Board, Over, Put, Reached, Say, Scoped
from player.stage.inputs import Did
from player.stage.state import Telling
from tests.cues.compiled import turns
from tests.script.lessons import Drawn, lessons
from tests.stage.playing import Playing

MUCH = settings(
    deadline=None, database=None, suppress_health_check=list(HealthCheck), phases=[Phase.generate]
)

WANTED = {
    *("aside", "instead", "imagine", "retell", "promotion", "en passant", "castling"),
    *("two deep", "three deep", "set-up board", "board in aside", "board in instead", "board in imagine"),
    *(
        "question in aside",
        "question in instead",
        "question in imagine",
        "block in aside",
        "block in imagine",
    ),
}


def sheet_drawn(drawn: Drawn) -> Sheet:
    lesson, faults = read(drawn.script)
    told, more = follow(lesson)
    assert not [fault for fault in (*faults, *more) if fault.severity == "fault"]
    return compile_lesson(told)


def constructs(sheet: Sheet) -> set[str]:
    """What a lesson holds, by the names in `WANTED`."""
    found: set[str] = {scope.kind for scope in sheet.scopes}
    for step in sheet.steps:
        kinds = [sheet.scopes[scope].kind for scope in step.scopes]
        found |= {f"block in {kind}" for kind in kinds[:-1]}
        found |= {deep for deep, size in (("two deep", 2), ("three deep", 3)) if len(kinds) >= size}
        if step.ask is not None and kinds:
            found.add(f"question in {kinds[-1]}")
        if step.kind == "board":
            found |= {f"board in {kinds[-1]}"} if kinds else set()
            found |= (
                {"set-up board"}
                if step.after.board().fullmove_number == 1 and not step.after.moves
                else set()
            )
        for turn in turns(step):
            board, move = turn.before.board(), chess.Move.from_uci(turn.uci)
            found |= {"promotion"} if move.promotion else set()
            found |= {"en passant"} if board.is_en_passant(move) else set()
            found |= {"castling"} if board.is_castling(move) else set()
    return found


def test_every_construct_is_drawn() -> None:
    seen: Counter[str] = Counter()

    @settings(MUCH, max_examples=250, derandomize=True)
    @given(lessons())
    def look(drawn: Drawn) -> None:
        seen.update(constructs(sheet_drawn(drawn)))

    look()
    assert {name for name in WANTED if seen[name] < 2} == set()


def survives(sheet: Sheet, ear: bool, cut: int) -> None:
    """Compile, tell to the end, seek to every step, and resume: none fails, and every return returns."""
    telling = Telling(wait=False, ear=ear, key_again=cut % 2 == 0)
    playing = Playing(sheet, telling, think=True).start()
    assert isinstance(playing.seen[-1], Over)
    place = sheet.steps[0].before
    steps = {step.key: step for step in sheet.steps}
    left: list[int] = []
    due: Place | None = None
    ahead: Place | None = None
    for happening in playing.seen:
        if isinstance(happening, Scoped) and happening.opened:
            left.append(happening.scope)
        elif isinstance(happening, Scoped):
            assert left.pop() == happening.scope
        elif isinstance(happening, Put):
            # The answer to a question stands on the board before the sentence that tells it.
            ahead = happening.ask.answer.after if happening.ask.answer is not None else None
        elif isinstance(happening, Board):
            place = happening.place
            due = None if place == due else due
        elif isinstance(happening, Say) and happening.step in steps:
            step = steps[happening.step]
            assert due is None, "a return was told, and the place is not the one left"
            if step.kind in ("enter", "return", "board"):
                # These sentences change the place as they are told.
                due = step.after if place != step.after else None
            else:
                assert place in (step.before, ahead)
    assert not left and due is None
    assert place == sheet.steps[-1].after
    for scope in sheet.scopes:
        assert sheet.steps[scope.last].after == scope.outer == sheet.steps[scope.first - 1].after
    fresh = begin(sheet, telling)
    for index, step in enumerate(sheet.steps):
        state, _ = advance(fresh, Did("go to", f"step {step.key}"))
        told = not step.extra or telling.key_again
        if told and step.say is not None and step.say.spoken and (ear or not step.ear_only):
            assert (state.lesson.at, state.scopes) == (index, step.scopes)
            assert state.place == (step.after if step.kind == "board" else step.before)
        else:
            assert state.lesson.at >= index
    resumes(sheet, telling, playing, cut % (len(playing.fed) + 1))


def resumes(sheet: Sheet, telling: Telling, playing: Playing, cut: int) -> None:
    """What was told up to a cut comes back from its inputs as lines, and from the key of the step reached."""
    state = again = begin(sheet, telling)
    reached = ""
    for one in playing.fed[:cut]:
        state, out = advance(state, one)
        kept = line_input(json.loads(packed(input_line(one))))
        assert kept == one
        again, _ = advance(again, kept)
        reached = next((h.step for h in reversed(out) if isinstance(h, Reached)), reached)
    assert again == state
    if reached:
        index = sheet.index(reached)
        assert index is not None
        entered, out = advance(begin(sheet, telling), Did("go to", f"step {reached}"))
        assert entered.lesson.at >= index
        assert out


@settings(MUCH, max_examples=120, derandomize=True)
@given(lessons(), st.booleans(), st.integers(0, 10_000))
def test_drawn_lessons_are_told_sought_and_resumed(drawn: Drawn, ear: bool, cut: int) -> None:
    survives(sheet_drawn(drawn), ear, cut)


@pytest.mark.large
@settings(MUCH, max_examples=10_000, derandomize=True)
@given(lessons(), st.booleans(), st.integers(0, 10_000))
def test_ten_thousand_drawn_lessons_are_told_sought_and_resumed(drawn: Drawn, ear: bool, cut: int) -> None:
    survives(sheet_drawn(drawn), ear, cut)
