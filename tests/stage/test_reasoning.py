"""A reason before or after the answer, and how sure the learner is."""

from __future__ import annotations

from player.stage.happenings import Attempt, Note, Reasoned, Say
from player.stage.inputs import Did
from player.stage.state import Telling
from tests.stage.playing import Playing
from tests.stage.sheets import sheet_of

LESSON = """script: 1
title: Why
coach: Ines Calder

{e4} {e5}.

question: What now?
  ask: move, MANNER
  because: It hits the pawn.

{Nf3}. Good.
"""


def played(manner: str, *, wait: bool = True) -> Playing:
    return Playing(sheet_of(LESSON.replace("MANNER", manner)), Telling(wait=wait)).start()


def grades(playing: Playing) -> list[str]:
    return [h.grade for h in playing.seen if isinstance(h, Attempt)]


def reasons(playing: Playing) -> list[tuple[str, str, str]]:
    return [(h.reason, h.agreed, h.sure) for h in playing.seen if isinstance(h, Reasoned)]


def test_the_reason_first_then_the_answer_then_whether_they_agree() -> None:
    playing = played("reason first")
    playing.type("it attacks something in the middle")
    assert grades(playing) == []
    playing.type("Nf3")
    assert grades(playing) == ["right"] and not playing.state.over
    assert "It hits the pawn." in [h.what.shown for h in playing.seen if isinstance(h, Say)]
    playing.type("hm hm")
    assert not playing.state.over
    playing.type("partly")
    assert reasons(playing) == [("it attacks something in the middle", "partly", "")]
    assert playing.state.over


def test_an_answer_or_enter_goes_past_the_reason() -> None:
    playing = played("reason first")
    playing.type("Nf3")
    assert grades(playing) == ["right"] and playing.state.over and not reasons(playing)
    playing = played("reason first")
    playing.feed(Did("go on"))
    assert grades(playing) == [] and not playing.state.over
    playing.type("Nf3")
    assert playing.state.over


def test_the_reason_after_is_asked_before_the_coach_s_is_shown() -> None:
    playing = played("reason after")
    playing.type("Nf3")
    assert "It hits the pawn." not in [h.what.shown for h in playing.seen if isinstance(h, Say)]
    playing.type("the pawn has no guard")
    assert "It hits the pawn." in [h.what.shown for h in playing.seen if isinstance(h, Say)]
    playing.type("yes")
    assert reasons(playing) == [("the pawn has no guard", "yes", "")] and playing.state.over
    assert grades(playing) == ["right"]
    playing = played("reason after")
    playing.type("Nf3")
    playing.type("")
    assert playing.state.over and grades(playing) == ["right"]


def test_how_sure_is_asked_once_and_kept() -> None:
    playing = played("how sure")
    playing.type("Nc3")
    assert grades(playing) == [] and "How sure" in [h for h in playing.seen if isinstance(h, Note)][-1].text
    playing.type("fairly")
    assert grades(playing) == ["wrong"] and reasons(playing) == [("", "", "fairly")]
    playing.type("Nf3")
    assert grades(playing) == ["wrong", "right"] and playing.state.over


def test_another_answer_or_enter_skips_how_sure() -> None:
    playing = played("how sure")
    playing.type("Nc3")
    playing.type("Nf3")
    assert grades(playing) == ["right"] and playing.state.over
    playing = played("how sure")
    playing.type("Nf3")
    playing.feed(Did("go on"))
    assert grades(playing) == ["right"] and playing.state.over and not reasons(playing)


def test_hands_free_asks_for_nothing_beside_the_answer() -> None:
    playing = played("reason first, how sure", wait=False)
    assert not [h for h in playing.seen if isinstance(h, Note)]
    playing.type("Nf3")
    assert grades(playing) == ["right"]


def test_ear_mode_says_what_is_wanted() -> None:
    playing = Playing(sheet_of(LESSON.replace("MANNER", "reason after")), Telling(ear=True)).start()
    playing.type("Nf3")
    assert any("Why is it right?" in h.what.shown for h in playing.seen if isinstance(h, Say))
    playing.type("the pawn has no guard")
    playing.type("no")
    assert reasons(playing) == [("the pawn has no guard", "no", "")]
