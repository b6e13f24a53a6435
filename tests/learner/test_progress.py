"""How a learner stands, in sentences."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.learner.export import exported
from player.learner.progress import IdeaProgress, plot, progress, sentences
from player.learner.record import Record, open_record
from player.learner.shares import in_words, share
from player.learner.tries import Question, Try

NOW = datetime(2026, 3, 10, 12, tzinfo=UTC)
ROOT = "8/8/8/8/8/8/8/K1k5 w - - 0 1"


def keep(record: Record, key: str, days_ago: int, grade: str, number: int = 1, mode: str = "lesson") -> None:
    at = NOW - timedelta(days=days_ago)
    uid = f"{key} {days_ago} {number} {grade}"
    record.keep([], [Try(uid, key, at, mode, uid, "Ka2", "a1a2", grade, number, 0)])  # type: ignore[arg-type]


@pytest.fixture
def record(tmp_path: Path) -> Record:
    made = open_record(tmp_path / "record.sqlite3")
    for key, idea in (("a", "diagonals"), ("b", "diagonals"), ("c", "outposts")):
        made.keep([Question(key, "move", ROOT, (), f"Ask {key}?", ("a1a2",), (idea,), "/l/x", "Doors")])
    made.keep([Question("n", "move", ROOT, (), "New?", ("a1a2",), ("diagonals",), like="a")])
    return made


def about(record: Record, name: str) -> IdeaProgress:
    return next(one for one in progress(record, NOW, ["files"]).ideas if one.name == name)


def test_an_idea_holds_while_its_questions_are_known(record: Record) -> None:
    keep(record, "a", 1, "right")
    assert about(record, "diagonals").standing == "holds"
    assert about(record, "files").standing == "not met yet"


def test_it_slips_after_a_miss_or_a_long_time(record: Record) -> None:
    keep(record, "a", 2, "right")
    keep(record, "b", 1, "wrong")
    assert about(record, "diagonals").standing == "slipping"
    keep(record, "c", 200, "right")
    assert about(record, "outposts").standing == "slipping"


def test_later_tries_and_looked_up_answers_say_nothing(record: Record) -> None:
    keep(record, "c", 1, "right")
    keep(record, "c", 0, "wrong", number=2)
    keep(record, "c", 0, "told", number=0)
    found = about(record, "outposts")
    assert found.standing == "holds" and (found.firsts.hits, found.firsts.whole) == (1, 1)


def test_new_positions_are_scored_apart(record: Record) -> None:
    keep(record, "a", 1, "wrong")
    keep(record, "n", 1, "right", mode="new position")
    found = about(record, "diagonals")
    assert (found.firsts.hits, found.firsts.whole) == (0, 1)
    assert (found.unseen.hits, found.unseen.whole) == (1, 1)
    assert (found.used, found.recognised) == (1, 1)
    assert found.met == ("Doors",)


def test_the_sentences_say_it_all(record: Record) -> None:
    keep(record, "b", 9, "wrong")
    keep(record, "a", 1, "right")
    told = "\n".join(sentences(progress(record, NOW, ["files"]), NOW))
    assert (
        "You have answered 2 times. Right at the first try: 1 of 2 (in the long run 9 to 91 of 100)." in told
    )
    assert "Diagonals: slipping." in told
    assert "Met in Doors." in told and "Files: not met yet." in told
    assert "Last asked yesterday." in told
    assert "wait" in told and "as for most people" in told


def test_an_empty_record_says_so(tmp_path: Path) -> None:
    with open_record(tmp_path / "r") as record:
        found = progress(record, NOW)
        assert sentences(found, NOW) == [
            "Nothing is kept yet: play a lesson, and what you answer will show here."
        ]
        assert plot(found) == []


def test_the_plot_has_a_line_for_every_week(record: Record) -> None:
    for days, grade in ((1, "right"), (2, "wrong"), (8, "right"), (9, "right")):
        keep(record, "a", days, grade)
    assert plot(progress(record, NOW)) == [
        "week of 2026-02-23  #  1 of 1 right",
        "week of 2026-03-02  #-  1 of 2 right",
        "week of 2026-03-09  #  1 of 1 right",
    ]


def test_everything_kept_is_written_out(record: Record) -> None:
    keep(record, "a", 1, "wrong")
    keep(record, "a", 1, "right", number=2)
    record.write(
        "INSERT INTO ideas VALUES (?, ?, ?, ?, ?)", [("diagonals", "/l/x", "Doors", "Look.", "2026")]
    )
    text = "\n".join(exported(record, NOW))
    for part in ("Ask a?", "answer: a1a2", "about: diagonals", 'wrong, "Ka2", try 1', "right", "Look."):
        assert part in text


def test_shares_in_words() -> None:
    assert in_words(share(0, 0)) == "none yet"
    assert in_words(share(7, 9)) == "7 of 9 (in the long run 45 to 94 of 100)"


@given(st.integers(0, 500), st.integers(0, 500))
def test_a_share_lies_between_its_bounds(one: int, other: int) -> None:
    hits, whole = min(one, other), max(one, other)
    found = share(hits, whole)
    assert 0 <= found.low <= (hits / whole if whole else 0.5) <= found.high <= 1
    turned = share(whole - hits, whole)
    assert turned.low == pytest.approx(1 - found.high) and turned.high == pytest.approx(1 - found.low)


def test_more_hits_than_there_were_is_an_error() -> None:
    with pytest.raises(ValueError, match="no share"):
        share(3, 2)
