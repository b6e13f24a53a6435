"""Key questions asked again in the same lesson, and model games that fade."""

from __future__ import annotations

from player.cues.fade import LEVELS, askable, faded
from player.cues.once_more import AFTER_MS
from player.cues.sheet import Sheet
from player.script.told import Turn
from player.stage.happenings import Attempt, Board, Put
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from tests.session.sessions import Playing
from tests.stage.sheets import sheet_of

FILLER = "\n\n".join(
    f"Here stands a sentence, number {n}, that takes its time and is told to the end without any hurry."
    for n in range(110)
)
KEYED = f"""title: Keyed
coach: Ines Calder
side: white

So {{e4 e5}}.

question: White to move. Which knight attacks the pawn?
  key: yes

{{Nf3}}. It hits the pawn. {{Nc6}}.

aside: A detour
  {{Bb5}} comes too. And many words stand here, so that it takes some time to tell them all to the end.

  More words stand here, and the next ones, and still more of them, so that half a minute goes by at last.

  And again some words, so that the first of the times falls in here, where nothing is asked a second time.

{FILLER}

{{Bc4}}. And there we stop.
"""

GAME = """title: Game
coach: Ines Calder
side: white

{e4}. {e5}. {Nf3}. {Nc6}. {Bc4}. The bishop looks at f7.

aside: If he had waited
  {a6}. {a4}.

{Bc5}. {c3}. {Nf6}. {d3}. And so on.
"""


def asks(sheet: Sheet) -> list[int]:
    return [index for index, step in enumerate(sheet.steps) if step.ask is not None]


def test_a_key_question_comes_back_three_times_outside_asides() -> None:
    sheet = sheet_of(KEYED)
    first, *again = asks(sheet)
    since = sheet.starts[sheet.steps[first].ask.told + 1]  # type: ignore[union-attr,operator]
    assert len(again) == 3
    for index, after in zip(again, AFTER_MS, strict=True):
        assert 0 <= sheet.starts[index] - since - after < 30_000
        assert not sheet.steps[index].scopes
    assert sheet.questions == (first,)


def test_it_takes_no_time_where_it_is_turned_off() -> None:
    play = Playing(Telling(voice=False), source=KEYED).run()
    play.session.feed(Typed("Nf3"))
    play.run()
    assert sum(isinstance(one, Put) for one in play.told) == 1


def test_it_is_answered_on_its_own_position_and_the_lesson_goes_on_where_it_was() -> None:
    play = Playing(Telling(voice=False, key_again=True), source=KEYED).run()
    for answer in ("Nf3", "Nc3", "Nf3", "Nf3", "tell me"):
        play.session.feed(Typed(answer))
        play.run()
    puts = [one.ask for one in play.told if isinstance(one, Put)]
    assert {ask.place for ask in puts} == {puts[0].place} and len(puts) >= 4
    grades = [(one.ask.partition("~")[2], one.grade) for one in play.told if isinstance(one, Attempt)]
    assert grades == [("", "right"), ("1", "wrong"), ("1", "right"), ("2", "right"), ("3", "told")]
    assert play.session.state.over
    boards = [one.place for one in play.told if isinstance(one, Board)]
    assert boards[-1].moves == ("e2e4", "e7e5", "g1f3", "b8c6", "f1c4")


def test_an_aside_can_be_skipped_as_before() -> None:
    play = Playing(Telling(voice=False, key_again=True), source=KEYED).run()
    play.session.feed(Typed("Nf3"))
    play.session.feed(Did("go to", "end"))
    play.run()
    assert play.session.state.over


def test_a_game_fades() -> None:
    sheet = sheet_of(GAME)
    assert askable(sheet) == 5
    for level, expected in zip(LEVELS, (0, 1, 3, 5), strict=True):
        made = faded(sheet, level)
        found = [made.steps[index].ask for index in asks(made)]
        assert len(found) == expected
        played = [turn.uci for turn in moves(sheet)]
        assert [ask.answer.uci for ask in found if ask and ask.answer] == played[len(played) - expected :]


def moves(sheet: Sheet) -> list[Turn]:
    """White's moves on the lesson's own depth."""
    turns = [cue.do for step in sheet.steps if not step.scopes for cue in step.cues]
    return [turn for turn in turns if isinstance(turn, Turn) and turn.before.board().turn]


def test_a_faded_game_is_played_through() -> None:
    sheet = faded(sheet_of(GAME), None)
    play = Playing(Telling(voice=False), sheet=sheet).run()
    for answer in ("e4", "Nf3", "Bc4", "c3", "h3", "d3"):
        play.session.feed(Typed(answer))
        play.run()
    assert [one.grade for one in play.told if isinstance(one, Attempt)] == [*["right"] * 4, "wrong", "right"]
    assert play.session.state.over


def test_what_follows_keeps_its_place_when_steps_are_put_in() -> None:
    sheet = sheet_of(KEYED)
    for scope in sheet.scopes:
        assert sheet.steps[scope.first].kind == "enter" and sheet.steps[scope.last].kind == "return"
    first = sheet.steps[asks(sheet)[0]].ask
    assert first is not None and first.told is not None
    assert sheet.steps[first.told].cues[0].do == first.answer


def test_a_sentence_with_many_moves_is_told_in_pieces() -> None:
    sheet = sheet_of(
        "title: x\nside: white\n\nSo {e4}, then {e5}, and {Nf3} hits it. {Nc6} is met by {Bc4}.\n"
    )
    assert askable(sheet) == 3
    made = faded(sheet, None)
    play = Playing(Telling(voice=False), sheet=made).run()
    for answer in ("e4", "Nf3", "Bc4"):
        play.session.feed(Typed(answer))
        play.run()
    assert [one.grade for one in play.told if isinstance(one, Attempt)] == ["right"] * 3
    assert play.session.state.over
    for step in made.steps:
        if step.say is not None:
            words = step.say.spoken.split()
            assert len(step.say.words) == len(words)
            assert all(0 <= start <= end <= len(step.say.shown) for start, end in step.say.words)
