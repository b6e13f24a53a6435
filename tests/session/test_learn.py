"""The door to slow truths: what is proved, what an engine adds, and what is said when neither knows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import pytest

from player.facts.place import Place
from player.session.judge import View
from player.session.learn import Replying, asked_at, told_from
from player.stage.inputs import Typed
from tests.cues.compiled import sheet_of
from tests.session.sessions import Playing
from tests.session.test_session import SILENT, said

SHEET = sheet_of(
    "{Nf3} {d5} {g3} {Nf6} {Bg2} {e6}.\n\nquestion: Who hides?\n  also d3: Sound too.\n\n"
    "{castles} {Be7} {d3} {castles} {Nbd2}.\n\n"
)
ASK = next(step.ask for step in SHEET.steps if step.ask is not None)


def test_the_question_is_found_by_its_place_with_what_is_told_after_it() -> None:
    assert asked_at(SHEET, ASK.place) == ASK
    assert asked_at(SHEET, Place()) is None
    assert told_from(SHEET, ASK) == ("e1g1", "f8e7", "d2d3", "e8g8", "b1d2")


def test_a_wrong_move_is_answered_by_what_is_proved() -> None:
    sentence, standing = Replying(SHEET)(ASK.place, "e2e4")
    assert standing == "board"
    assert "pawn on d5" in sentence
    sentence, standing = Replying(SHEET)(ASK.place, "h1g1")
    assert "king" in sentence and standing == "board"


def test_a_move_that_is_told_a_little_later_is_another_order() -> None:
    replying = Replying(sheet_of("{Nf3} {d5}.\n\nquestion: And now?\n\n{g3} {Nf6} {Bg2} {e6} {d3}.\n\n"))
    place = Place().then("g1f3", "d7d5")
    sentence, standing = replying(place, "d2d3")
    assert standing == "board"
    assert "order" in sentence or "comes" in sentence


def test_two_tries_at_one_question_are_put_two_ways() -> None:
    replying = Replying(SHEET)
    first = replying(ASK.place, "a2a3")[0].replace("a3", "")
    second = replying(ASK.place, "h2h3")[0].replace("h3", "")
    assert first != second


def test_a_place_without_a_question_is_answered_too() -> None:
    sentence, _ = Replying(SHEET)(Place().then("f2f3", "e7e5"), "g2g4")
    assert "mate" in sentence


class Engine:
    """An engine that thinks what it is told to; it fails where it has no view at all."""

    def __init__(self, views: Mapping[str, View] | None) -> None:
        self.views, self.asked = views, 0

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]:
        self.asked += 1
        if self.views is None:
            raise RuntimeError("gone")
        return self.views


def test_an_engine_speaks_where_the_board_proves_nothing() -> None:
    engine = Engine({"b1c3": View(-1.5, line=("d5d4",)), "e1g1": View(0.4)})
    sentence, standing = Replying(SHEET, engine)(ASK.place, "b1c3")
    assert standing == "engine"
    assert sentence == "An engine thinks that costs about two pawns' worth: after knight to c3 it fears d4."
    mated = Engine({"b1c3": View(mate=-3), "e1g1": View()})
    assert "mate in 3" in Replying(SHEET, mated)(ASK.place, "b1c3")[0]


def test_an_engine_is_not_asked_where_the_board_proves_it() -> None:
    engine = Engine({"e2e4": View(9.0), "e1g1": View(0.4)})
    assert Replying(SHEET, engine)(ASK.place, "e2e4")[1] == "board"
    assert engine.asked == 0


def test_an_engine_may_say_that_a_move_of_later_on_loses_something_first() -> None:
    sheet = sheet_of("{Nf3} {d5}.\n\nquestion: And now?\n\n{g3} {Nf6} {Bg2} {e6} {d3}.\n\n")
    place = Place().then("g1f3", "d7d5")
    losing = Engine({"d2d3": View(-3.0, line=("d5d4",)), "g2g3": View(0.0)})
    assert Replying(sheet, losing)(place, "d2d3")[1] == "engine"
    level = Engine({"d2d3": View(-0.3, line=("d5d4",)), "g2g3": View(0.0)})
    assert Replying(sheet, level)(place, "d2d3") == Replying(sheet)(place, "d2d3")


@pytest.mark.parametrize("views", [None, {}, {"b1c3": View(0.3), "e1g1": View(0.4)}])
def test_an_engine_that_fails_or_knows_no_more_changes_nothing(views: Mapping[str, View] | None) -> None:
    assert Replying(SHEET, Engine(views))(ASK.place, "b1c3") == Replying(SHEET)(ASK.place, "b1c3")


def test_where_there_is_no_engine_a_short_search_speaks_of_what_men_it_costs() -> None:
    search = Engine({"b1c3": View(-3.0, line=("d5d4",)), "e1g1": View(0.0)})
    said = "A short search thinks that costs about a piece's worth: after knight to c3 it fears d4."
    for judge in (None, Engine(None)):
        assert Replying(SHEET, judge, search)(ASK.place, "b1c3") == (said, "search")
    told = Replying(SHEET, Engine({"b1c3": View(0.3), "e1g1": View(0.4)}), search)(ASK.place, "b1c3")
    assert told == Replying(SHEET)(ASK.place, "b1c3"), "an engine that sees nothing is believed"
    level = Engine({"b1c3": View(0.0), "e1g1": View(0.0)})
    assert Replying(SHEET, None, level)(ASK.place, "b1c3") == Replying(SHEET)(ASK.place, "b1c3")


def test_a_session_says_the_reply_and_then_the_coachs_word_for_all_others() -> None:
    playing = Playing(SILENT, learn=lambda place, move: ("It hangs.", "board")).run().feed(Typed("a3")).run()
    assert "It hangs." in said(playing)
