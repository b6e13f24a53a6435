"""What a run through a lesson leaves in the record."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from player.cues.sheet import Sheet
from player.learner.keeper import LessonKeeper, Source
from player.learner.record import open_record
from player.learner.tries import Try
from player.session.session import Keeper
from player.stage.happenings import Attempt
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from player.voice.speaker import Notice
from player.world.clock import VirtualClock
from player.world.trouble import Trouble
from tests.session.sessions import Playing

NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)
SOURCE = Source("/l/walk.lesson", "hash")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "record.sqlite3"


def playing(file: Path, run: str = "one", **more: object) -> Playing:
    def keeper(sheet: Sheet, clock: VirtualClock) -> Keeper:
        def now() -> datetime:
            return NOON + timedelta(milliseconds=clock.now_ms())

        return LessonKeeper(open_record(file), sheet, SOURCE, now, clock.now_ms)

    return Playing(Telling(voice=False), run=run, keeper=keeper, **more)  # type: ignore[arg-type]


def kept(file: Path) -> list[Try]:
    with open_record(file) as record:
        return list(record.tries())


def short(tries: list[Try]) -> list[tuple[str, str, int]]:
    return [(one.meant, one.grade, one.number) for one in tries]


def test_every_try_is_kept_with_what_followed(file: Path) -> None:
    play = playing(file).run()
    play.clock.sleep(1500)
    play.session.feed(Typed("Nc3"))
    play.run()
    play.session.feed(Did("nudge"))
    play.run()
    play.session.feed(Typed("Bg2"))
    play.run()
    play.session.feed(Did("tell me"))
    play.run().session.close()
    tries = kept(file)
    assert short(tries) == [("b1c3", "wrong", 1), ("f1g2", "right", 2), ("", "told", 0)]
    assert [one.nudges for one in tries] == [0, 1, 0]
    assert tries[0].took_ms == 1500 and tries[2].took_ms is None
    assert tries[0].visit == tries[1].visit != tries[2].visit
    with open_record(file) as record:
        asked = record.questions()[tries[0].question]
        assert (asked.answers, asked.lesson, asked.title) == (("f1g2",), SOURCE.lesson, "A Short Walk")


def test_ideas_repeats_and_the_end_are_kept(file: Path) -> None:
    play = playing(file)
    play.session.feed(Typed("repeat"))
    play.run()
    for word in ("Bg2", "d3"):
        play.session.feed(Typed(word))
        play.run()
    play.session.close()
    with open_record(file) as record:
        assert record.read("SELECT name, lesson FROM ideas") == [("the long diagonal", SOURCE.lesson)]
        assert [what for (what,) in record.read("SELECT what FROM moments ORDER BY id")] == [
            "repeated",
            "over",
        ]


def test_an_answer_lost_between_journal_and_record_is_kept_on_coming_back(file: Path, tmp_path: Path) -> None:
    journal = tmp_path / "journal.log"
    play = playing(file, journal=journal).run()
    play.session.feed(Typed("Nc3"))
    play.session.close()
    before = kept(file)
    with open_record(file) as record:
        record.write("DELETE FROM tries", [()])
    playing(file, run="two", journal=journal).session.close()
    assert short(kept(file)) == short(before) == [("b1c3", "wrong", 1)]
    again = playing(file, run="three", journal=journal).run()
    again.session.feed(Typed("Bg2"))
    again.run().session.close()
    tries = kept(file)
    assert short(tries) == [("b1c3", "wrong", 1), ("f1g2", "right", 2)]
    assert tries[0].visit == tries[1].visit and tries[0].uid != tries[1].uid


def test_a_new_run_after_a_kill_still_keeps_what_the_old_one_lost(file: Path, tmp_path: Path) -> None:
    journal = tmp_path / "journal.log"
    play = playing(file, journal=journal).run()
    play.session.feed(Typed("Bg2"))
    play.session.close()
    with open_record(file) as record:
        record.write("DELETE FROM tries", [()])
    fresh = playing(file, run="two", journal=journal, fresh=True).run()
    fresh.session.feed(Typed("Bg2"))
    fresh.run().session.close()
    tries = kept(file)
    assert short(tries) == [("f1g2", "right", 1)] * 2
    assert tries[0].visit != tries[1].visit


def test_a_record_that_fails_costs_the_keeping_and_not_the_lesson(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    play = playing(file).run()

    def full(*_: object) -> int:
        raise Trouble("The disk is full.")

    monkeypatch.setattr("player.learner.record.Record.keep", full)
    play.session.feed(Typed("Nc3"))
    play.run()
    play.session.feed(Typed("Bg2"))
    play.run()
    notices = [one for one in play.told if isinstance(one, Notice)]
    assert [one.sentence for one in notices] == ["Your answers are not kept from here on. The disk is full."]
    assert [one.grade for one in play.told if isinstance(one, Attempt)] == ["wrong", "right"]


def test_how_sure_and_how_it_went_are_kept_with_the_try(file: Path) -> None:
    source = (
        "title: Small\n\nSo {e4 e5}.\n\nquestion: Which knight attacks the pawn?\n  ask: move, how sure\n\n"
        "{Nf3}. It hits.\n"
    )

    def keeper(sheet: Sheet, clock: VirtualClock) -> Keeper:
        return LessonKeeper(open_record(file), sheet, SOURCE, lambda: NOON, clock.now_ms)

    play = Playing(Telling(voice=False, effort=True), source=source, run="one", keeper=keeper).run()
    for typed in ("Nf3", "fairly", "with effort"):
        play.session.feed(Typed(typed))
        play.run()
    play.session.close()
    assert [(one.grade, one.sure, one.effort) for one in kept(file)] == [
        ("right", "fairly sure", "with effort")
    ]
