"""Answer sheets, and what many of them say together."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.learner.answer_sheet import MOST_BYTES, Answered, AnswerSheet, lines_of, read_sheet
from player.learner.group import LEAST, compared, merged
from player.world.trouble import Trouble

KEYS = st.text("0123456789abcdef", min_size=12, max_size=12)
GRADES = st.sampled_from(["right", "also", "wrong", "told", "passed", "seen"])
ANSWERS = st.builds(
    Answered,
    KEYS,
    st.lists(st.tuples(GRADES, st.sampled_from(["", "e2e4", "e4 e5", "3"])), min_size=1, max_size=5).map(
        tuple
    ),
    st.integers(0, 9),
    st.sampled_from([None, "sure", "fairly sure", "guess"]),
)
SHEETS = st.builds(
    AnswerSheet,
    st.text("abc ", min_size=1).map(lambda text: " ".join(text.split())).filter(bool),
    KEYS,
    st.lists(ANSWERS, max_size=12, unique_by=lambda one: one.question).map(tuple),
    st.dictionaries(st.integers(1, 900), st.integers(1, 99)).map(lambda d: tuple(sorted(d.items()))),
    st.one_of(st.none(), st.integers(0, 900)),
)
KEY = "c0392d7a36d7"


def answered(*tries: str, key: str = KEY, **more: object) -> Answered:
    pairs = [(one.split()[0], " ".join(one.split()[1:])) for one in tries]
    return Answered(key, tuple(pairs), **more)  # type: ignore[arg-type]


def sheet(*answers: Answered, script: str = "one", **more: object) -> AnswerSheet:
    return AnswerSheet("Doors", script, answers, **more)  # type: ignore[arg-type]


@given(SHEETS)
def test_what_is_written_is_read_back(one: AnswerSheet) -> None:
    lines = lines_of(one)
    assert len("\n".join(lines).encode()) < MOST_BYTES
    found = read_sheet("\n".join(lines), "x")
    assert found.lesson == one.lesson and found.stopped == one.stopped
    assert found.answers == one.answers[: len(found.answers)]
    assert set(found.repeated) <= set(one.repeated)


@given(SHEETS, st.data())
def test_any_line_but_the_first_three_may_be_missing(one: AnswerSheet, data: st.DataObject) -> None:
    lines = lines_of(one)
    left = lines[:3] + [line for line in lines[3:] if data.draw(st.booleans())]
    assert set(read_sheet("\n".join(left), "x").answers) <= set(one.answers)


@given(st.text())
def test_no_text_is_too_strange(text: str) -> None:
    try:
        read_sheet(text, "x")
        read_sheet(f"answer sheet: 1\nlesson: a\n{text}", "x")
    except Trouble as trouble:
        assert str(trouble).startswith("x ")


def test_a_very_long_lesson_stays_under_the_limit() -> None:
    many = [answered("wrong e2e4", "wrong d2d4", "right g1f3", key=f"{n:012x}") for n in range(400)]
    lines = lines_of(sheet(*many, repeated=tuple((n, 2) for n in range(1, 300))))
    assert sum(len(line) + 1 for line in lines) < MOST_BYTES and len(lines) > 60


def test_a_first_try_counts_and_later_ones_do_not() -> None:
    group = merged([sheet(answered("wrong a2a3", "right g1f3"))] * 3 + [sheet(answered("right g1f3"))] * 4)[0]
    (one,) = group.questions
    assert (one.firsts.hits, one.firsts.whole) == (4, 7)


def test_looked_up_answers_are_no_tries() -> None:
    group = merged([sheet(answered("told"))] * 5 + [sheet(answered("right g1f3"))] * 5)[0]
    assert group.questions[0].firsts.whole == 5
    assert group.questions[0].helped.hits == 5


def test_nothing_comes_from_fewer_than_five() -> None:
    few = [sheet(answered("wrong a2a3"), repeated=((7, 1),), stopped=9)] * (LEAST - 1)
    group = merged(few)[0]
    assert (group.questions, group.repeated, group.stopped) == ((), (), ())
    group = merged([*few, sheet(answered("wrong h2h4"), repeated=((8, 1),), stopped=0)])[0]
    assert group.questions[0].wrong == () and group.repeated == () and group.stopped == ()
    assert group.commonest_wrong is None


def test_the_hardest_and_the_commonest_wrong() -> None:
    easy, hard = "0" * 12, "1" * 12
    sheets = [
        sheet(answered("right e2e4", key=easy), answered("wrong a2a3", "wrong a2a3", key=hard))
        for _ in range(6)
    ]
    group = merged(sheets)[0]
    assert group.hardest is not None and group.hardest.question == hard
    assert group.commonest_wrong is not None and group.commonest_wrong[1:] == ("a2a3", 6)


def test_a_change_of_the_script_is_compared() -> None:
    before = [sheet(answered("wrong a2a3"), script="old")] * 9 + [sheet(answered("right x"), script="old")]
    after = [sheet(answered("right g1f3"), script="new")] * 10
    old, new = merged([*before, *after])
    (one,) = compared(old, new)
    assert (one.before.hits, one.after.hits) == (1, 10) and one.tells
    (same,) = compared(old, old)
    assert not same.tells


def test_a_hundred_sheets_merge_as_counted_by_hand() -> None:
    rng = random.Random(5)
    sheets, rights, alls = [], 0, 0
    for _ in range(100):
        grade = rng.choice(["right", "wrong", "told"])
        rights += grade == "right"
        alls += grade != "told"
        sheets.append(sheet(answered(f"{grade} g1f3")))
    found = merged(sheets)[0].questions[0].firsts
    assert (found.hits, found.whole) == (rights, alls)


@pytest.mark.parametrize("text", ["", "PGN", "answer sheet: 2\nlesson: a", "answer sheet: 1\n"])
def test_what_is_no_sheet_is_told(text: str) -> None:
    with pytest.raises(Trouble, match="x "):
        read_sheet(text, "x")


def test_the_wilson_interval_agrees_with_a_reference_library(tmp_path: Path) -> None:
    """scipy.stats, `binomtest(...).proportion_ci(method="wilson")`."""
    from scipy import stats  # type: ignore[import-untyped]

    from player.learner.shares import share

    for whole in (1, 2, 5, 9, 20, 77, 1000):
        for hits in {0, 1, whole // 3, whole // 2, whole - 1, whole}:
            low, high = stats.binomtest(hits, whole).proportion_ci(0.95, method="wilson")
            found = share(hits, whole)
            assert (found.low, found.high) == pytest.approx((low, high), abs=1e-9)
