"""Ending after the question that stands."""

from __future__ import annotations

from player.stage.happenings import Hush, Over, Put, Quit, Say
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from tests.session.sessions import Playing


def kinds(play: Playing) -> list[type]:
    return [type(one) for one in play.told]


def test_a_question_that_stands_is_finished_first() -> None:
    play = Playing(Telling(voice=False)).run()
    play.session.feed(Typed("enough"))
    play.run()
    assert Quit not in kinds(play)
    play.session.feed(Typed("Bg2"))
    play.run()
    assert kinds(play)[-1] is Quit and kinds(play).count(Put) == 1
    assert play.session.state.quit and not play.session.state.over


def test_without_a_question_it_ends_before_the_next() -> None:
    play = Playing(Telling(voice=False))
    play.session.feed(Did("start"))
    play.session.feed(Did("enough"))
    play.run()
    assert Quit in kinds(play) and Put not in kinds(play)


def test_it_is_taken_up_where_it_ended(tmp_path) -> None:  # type: ignore[no-untyped-def]
    journal = tmp_path / "journal.log"
    play = Playing(Telling(voice=False), journal=journal).run()
    play.session.feed(Did("enough"))
    play.session.feed(Typed("Bg2"))
    play.run().session.close()
    again = Playing(Telling(voice=False), journal=journal).run()
    assert Put in kinds(again) and Over not in kinds(again)
    again.session.feed(Typed("d3"))
    again.run()
    assert Over in kinds(again)


def test_the_speed_it_has_already_interrupts_nothing() -> None:
    play = Playing(Telling(voice=False))
    play.session.feed(Did("start"))
    before = len(play.told)
    play.session.feed(Did("speed", "1"))
    assert not any(isinstance(one, Hush | Say) for one in play.told[before:])
    play.session.feed(Did("speed", "2"))
    assert any(isinstance(one, Say) for one in play.told[before:])
