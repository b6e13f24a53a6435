"""Whatever anybody types or does, in whatever order: the stage never fails, and home comes home."""

from __future__ import annotations

import random

import pytest

from player.stage.advance import advance, begin
from player.stage.happenings import Hush, Need, Say, Wake
from player.stage.inputs import Did, Finished, Heard, Input, Learnt, Typed, Woke
from player.stage.registry import ACTIONS
from player.stage.state import State, Telling
from tests.stage.sheets import LESSON, sheet_of

OBJECTS = [
    "",
    "e4",
    "Nf3 d5",
    "part 2",
    "3:20",
    "0:05",
    "question 1",
    "question 99",
    "1",
    "off",
    "on",
    "1.5",
    "9",
    "around e4",
    "along the d-file",
    "changed",
    "the knights",
    "names",
    "If Black hurries",
    "\x1b[2J",
]
WORDS = [
    "Bg2",
    "e4",
    "nf3",
    "",
    "?",
    "what if e4 e5 d4",
    "home",
    "asdf",
    "castle",
    "b",
    "knight",
    "tell me",
    "again",
    "the bishop takes on c6",
    "if",
    "undo undo",
    "go to",
    "e8=Q",
    "aside 1",
    "\N{SNOWMAN}" * 50,
    "n" * 3000,
]
SEEDS = 200


def session(seed: int) -> tuple[State, list[Input]]:
    """One rude session of some sixty inputs, most of them out of turn."""
    dice = random.Random(seed)
    telling = Telling(
        wait=dice.random() < 0.5,
        ear=dice.random() < 0.4,
        by_beat=dice.random() < 0.4,
        at_once=dice.random() < 0.3,
        questions_only=dice.random() < 0.2,
    )
    state = begin(sheet_of(LESSON), telling)
    fed: list[Input] = []
    saying = wake = need = 0

    def feed(one: Input) -> None:
        nonlocal state, saying, wake, need
        fed.append(one)
        state, out = advance(state, one)
        for happening in out:
            if isinstance(happening, Say):
                saying = happening.saying
                assert 0 <= happening.from_word <= len(happening.what.words)
            elif isinstance(happening, Wake):
                wake = happening.wake
            elif isinstance(happening, Need):
                need = happening.need
            elif isinstance(happening, Hush):
                pass
        assert state.frames
        assert state.place.board() is not None

    feed(Did("start"))
    for _ in range(60):
        roll = dice.random()
        if roll < 0.35:
            feed(Heard(saying, dice.randrange(900), dice.randrange(9)))
            feed(Finished(saying, 1000))
        elif roll < 0.45:
            feed(Woke(wake))
        elif roll < 0.5:
            feed(Learnt(need, "So it is.", dice.choice(["board", "unknown"])))
        elif roll < 0.55:
            late: list[Input] = [Heard(7, 5, 3), Finished(99, 5), Woke(99), Learnt(99, "x", "board")]
            feed(dice.choice(late))
        elif roll < 0.75:
            feed(Typed(dice.choice(WORDS)))
        else:
            feed(Did(dice.choice(ACTIONS).name, dice.choice(OBJECTS)))
    return state, fed


@pytest.mark.parametrize("seed", range(SEEDS))
def test_a_rude_session_never_fails_and_home_comes_home(seed: int) -> None:
    state, _ = session(seed)
    lesson_place = state.lesson.place
    state, _ = advance(state, Did("home"))
    while state.top.why == "note":
        state, _ = advance(state, Finished(state.top.saying, 1))
    assert len(state.frames) == 1
    if state.lesson.place != lesson_place:
        # What was being told when it was left may have gone on by a step of its own.
        assert state.lesson.doing in ("saying", "asked", "resting", "paced", "over")


@pytest.mark.parametrize("seed", range(0, SEEDS, 10))
def test_the_same_inputs_give_the_same_state(seed: int) -> None:
    state, fed = session(seed)
    again = begin(state.sheet, session(seed)[0].telling)
    again = begin(state.sheet, first_telling(seed))
    for one in fed:
        again, _ = advance(again, one)
    assert again == state


def first_telling(seed: int) -> Telling:
    dice = random.Random(seed)
    return Telling(
        wait=dice.random() < 0.5,
        ear=dice.random() < 0.4,
        by_beat=dice.random() < 0.4,
        at_once=dice.random() < 0.3,
        questions_only=dice.random() < 0.2,
    )


@pytest.mark.large
def test_two_thousand_rude_sessions() -> None:
    for seed in range(SEEDS, 2_000 + SEEDS):
        test_a_rude_session_never_fails_and_home_comes_home(seed)
