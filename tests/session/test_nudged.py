"""The next nudge takes a try, or five seconds since the last."""

from __future__ import annotations

from dataclasses import replace

from player.stage.happenings import Note, Say
from player.stage.inputs import Did, Typed
from tests.session.sessions import Playing
from tests.session.test_session import SILENT


def nudges(playing: Playing) -> int:
    return sum(isinstance(one, Say) and one.role == "nudge" for one in playing.told)


def refused(playing: Playing) -> bool:
    last = [one for one in playing.told if isinstance(one, Note)]
    return bool(last) and "few seconds" in last[-1].text


def test_a_nudge_that_comes_too_soon_is_not_given() -> None:
    playing = Playing(SILENT).run()
    playing.feed(Typed("nudge"))
    assert nudges(playing) == 1
    playing.feed(Did("nudge"))
    assert nudges(playing) == 1 and refused(playing)


def test_five_seconds_later_there_is_another() -> None:
    playing = Playing(SILENT).run()
    playing.feed(Typed("nudge"))
    playing.clock.sleep(5_000)
    playing.feed(Typed("nudge"))
    assert nudges(playing) == 2


def test_after_a_try_there_is_another_at_once() -> None:
    playing = Playing(SILENT).run()
    playing.feed(Typed("nudge")).run()
    playing.feed(Typed("a3"))
    playing.feed(Typed("nudge"))
    assert nudges(playing) == 2


def test_told_at_once_nobody_waits() -> None:
    playing = Playing(replace(SILENT, at_once=True)).run()
    playing.feed(Typed("nudge"))
    playing.feed(Typed("nudge"))
    assert nudges(playing) == 2
