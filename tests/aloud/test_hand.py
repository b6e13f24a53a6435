"""One key: what so many taps mean, and that everything can be reached with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import chess
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from player.aloud import menu
from player.aloud.hand import GAP_MS, MENU_HEAD, PAUSED, REACTION_MS, ROUNDS, WAITS, Hand, passed, tapped
from player.aloud.outs import After, Feed, Outs, Quiet, Show, Tell
from player.aloud.picking import Item, Items, moves, numbers
from player.aloud.taps import MENU, WINDOW_MS, Burst
from player.facts.place import Place
from player.stage.advance import advance, begin
from player.stage.happenings import Attempt
from player.stage.inputs import Did, Typed
from player.stage.registry import ACTIONS
from player.stage.state import State, Telling
from tests.stage.playing import Playing
from tests.stage.sheets import LESSON, sheet_of

ALOUD = Telling(ear=True, wait=False)
SAYS_MS = 1_000


class Taker:
    """A hand on a stage: taps, and time in which every sentence of its own takes a second."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.hand = Hand()
        self.now = 0
        self.until = 0
        self.outs: list[object] = []
        self.after: list[Did | Typed] = []

    def take(self, outs: Outs) -> None:
        for out in outs:
            self.outs.append(out)
            if isinstance(out, Feed):
                self.state, _ = advance(self.state, out.what)
            elif isinstance(out, After):
                self.after.append(out.what)
            elif isinstance(out, Tell):
                self.until = self.now + SAYS_MS
            elif isinstance(out, Quiet):
                self.until = self.now

    def tap(self, count: int = 1, apart: int = 150) -> Taker:
        for n in range(count):
            if n:
                self.wait(apart)
            self.hand, outs = tapped(self.hand, self.state, self.now)
            self.take(outs)
        return self

    def wait(self, ms: int) -> Taker:
        for _ in range(ms // 25):
            self.now += 25
            self.hand, outs = passed(self.hand, self.state, self.now, speaking=self.now < self.until)
            self.take(outs)
            if self.after and self.now >= self.until and not self.hand.busy:
                self.state, _ = advance(self.state, self.after.pop(0))
        return self

    def offered(self) -> str:
        assert self.hand.offer is not None
        return self.hand.offer.item.words

    def until_offered(self, words: str) -> Taker:
        for _ in range(4_000):
            if self.hand.offer is not None and words in self.offered():
                return self.wait(REACTION_MS + 25)
            self.wait(25)
        raise AssertionError(f"never offered: {words}")

    @property
    def doing(self) -> str:
        return self.state.top.doing

    def said(self) -> list[str]:
        return [out.text for out in self.outs if isinstance(out, Tell | Show)]

    def fed(self) -> list[Did | Typed]:
        return [out.what for out in self.outs if isinstance(out, Feed)]


def telling() -> State:
    state, _ = advance(begin(sheet_of(LESSON), ALOUD), Did("start"))
    assert state.top.doing == "saying"
    return state


def at_question() -> State:
    playing = Playing(sheet_of(LESSON), ALOUD).start()
    assert playing.state.top.doing == "asked"
    return playing.state


@given(st.lists(st.integers(0, WINDOW_MS - 1), min_size=1, max_size=12))
def test_taps_within_the_window_are_one_burst(gaps: list[int]) -> None:
    burst, now = Burst(), 1_000
    for gap in gaps:
        assert not burst.over(now)
        now += gap
        burst = burst.tapped(now)
    assert burst.count == len(gaps)
    assert burst.due_ms(now) == WINDOW_MS
    assert not burst.over(now + WINDOW_MS - 1) and burst.over(now + WINDOW_MS)


def test_the_first_tap_hushes_at_once() -> None:
    one = Taker(telling()).tap()
    assert one.outs == [Quiet(), Feed(Did("pause"))] and one.doing == "held"


@pytest.mark.parametrize(
    ("count", "fed"),
    [
        (1, [Did("pause")]),
        (2, [Did("pause"), Did("repeat")]),
        (3, [Did("pause"), Did("go on"), Did("where")]),
        (4, [Did("pause")]),
        (9, [Did("pause")]),
    ],
)
def test_what_so_many_taps_mean_while_it_is_told(count: int, fed: list[Did]) -> None:
    one = Taker(telling()).tap(count).wait(WINDOW_MS + 25)
    assert one.fed() == fed
    assert (one.hand.offer is not None) == (count >= MENU)
    if count == 1:
        assert one.said() == [PAUSED]
        one.tap().wait(WINDOW_MS + 25)
        assert one.fed()[-1] == Did("go on") and one.doing == "saying"


def test_at_a_question_one_tap_has_it_wait_and_one_more_goes_on() -> None:
    one = Taker(at_question()).tap().wait(WINDOW_MS + 25)
    assert one.said() == [WAITS] and one.doing == "held" and not one.state.wake
    one.wait(60_000).tap().wait(WINDOW_MS + 25)
    assert one.doing == "asked" and one.state.wake


def test_the_menu_offers_one_after_another_and_one_tap_takes() -> None:
    one = Taker(at_question()).tap(4).wait(WINDOW_MS + 25)
    assert one.said()[0].startswith(MENU_HEAD) and one.offered() == "Answer"
    one.until_offered("A nudge").tap().wait(WINDOW_MS + 25)
    assert one.fed()[-2:] == [Did("go on"), Did("nudge")] and one.hand.offer is None


def test_a_tap_just_after_an_item_began_is_for_the_one_before() -> None:
    one = Taker(at_question()).tap(4).wait(WINDOW_MS + 25)
    while one.offered() != "A nudge":
        one.wait(25)
    one.wait(REACTION_MS - 100).tap().wait(WINDOW_MS + 25)
    assert one.fed()[-1] == Did("repeat")


def test_two_taps_go_back_a_step_three_say_it_again_four_leave() -> None:
    one = Taker(at_question()).tap(4).wait(WINDOW_MS + 25)
    one.until_offered("The position").tap().wait(WINDOW_MS + 25)
    assert one.offered() == "The position in a breath"
    one.tap(3).wait(WINDOW_MS + 25)
    assert one.said()[-2:] == ["The position in a breath?"] * 2
    one.tap(2).wait(WINDOW_MS + 25)
    assert one.offered() == "Answer"
    one.tap(2).wait(WINDOW_MS + 25)
    assert one.hand.offer is None and one.doing == "asked"
    one.tap(4).wait(WINDOW_MS + 25).tap(5).wait(WINDOW_MS + 25)
    assert one.hand.offer is None and one.doing == "asked"


def test_a_menu_that_nobody_taps_ends_and_the_lesson_goes_on() -> None:
    one = Taker(telling()).tap(4).wait(WINDOW_MS + 25)
    count = len(menu.top(one.state))
    one.wait(ROUNDS * count * (SAYS_MS + GAP_MS + 100))
    assert one.hand.offer is None and one.doing == "saying"
    assert len(one.said()) == ROUNDS * count


def test_what_was_stopped_stays_stopped_after_the_menu() -> None:
    one = Taker(telling()).tap().wait(2_000).tap(4).wait(WINDOW_MS + 25)
    one.tap(2).wait(WINDOW_MS + 25)
    assert one.doing == "held"


def test_after_a_change_the_lesson_goes_on_once_it_has_been_told() -> None:
    one = Taker(telling()).tap(4).wait(WINDOW_MS + 25)
    one.until_offered("How it is told").tap().wait(WINDOW_MS + 25)
    one.until_offered("Faster").tap().wait(WINDOW_MS + 25)
    assert one.outs[-2:] == [Feed(Did("faster")), After(Did("go on"))]
    assert one.wait(100).doing == "saying" and one.state.telling.speed > 1


def walked(items: Items, depth: int = 4) -> Iterator[Item]:
    for item in items:
        yield item
        if item.leads is not None and depth:
            yield from walked(item.leads(), depth - 1)


def verbs(state: State) -> set[str]:
    deeds = [deed for item in walked(menu.top(state)) for deed in item.deeds]
    return {deed.verb for deed in deeds if isinstance(deed, Did)}


def test_everything_that_can_be_done_can_be_done_by_taps() -> None:
    asked = at_question()
    tried, _ = advance(asked, Did("what if", "e2e4"))
    gathered = replace(asked, sheet=replace(asked.sheet, origins={"x": ("y", "z")}))
    by_menu = verbs(telling()) | verbs(asked) | verbs(tried) | verbs(gathered)
    by_count = {"go on", "pause", "repeat", "where"}
    assert {action.name for action in ACTIONS} == by_menu | by_count


ASKED = {
    "move": ("question: Where to?\n\n{g3}.", ["A pawn, one of", "The pawn on g2, 2 moves", "To g3"]),
    "square": (
        "question: Which?\n  ask: square\n  answer: e4 d4\n\nThen {g3}.",
        ["e-file", "E4", "And another", "d-file", "D4", "That is all: e4 and d4"],
    ),
    "count": ("question: How many?\n  ask: count\n  answer: 12\n\nThen {g3}.", ["More than ten", "12"]),
    "choice": (
        "question: Which?\n  ask: choice\n  choice: the knight\n  choice: the rook\n"
        "  answer: the rook\n\nThen {g3}.",
        ["2: the rook"],
    ),
}


@pytest.mark.parametrize(("block", "path"), ASKED.values(), ids=list(ASKED))
def test_a_question_of_each_kind_is_answered_by_taps(block: str, path: list[str]) -> None:
    playing = Playing(sheet_of(f"title: T\nWhite begins {{Nf3 d5}}.\n\n{block}\n"), ALOUD).start()
    one = Taker(playing.state).tap(4).wait(WINDOW_MS + 25).tap().wait(WINDOW_MS + 25)
    for words in path:
        one.until_offered(words).tap().wait(WINDOW_MS + 25)
    seen: list[object] = []
    state = playing.state
    for deed in one.fed()[-1:]:
        state, out = advance(state, deed)
        seen += out
    grades = [attempt.grade for attempt in seen if isinstance(attempt, Attempt)]
    assert grades == ["right"]


@settings(max_examples=60)
@given(st.lists(st.integers(0, 300), max_size=60))
def test_every_legal_move_and_no_other_can_be_picked(choices: list[int]) -> None:
    board = chess.Board()
    for choice in choices:
        legal = list(board.legal_moves)
        if not legal:
            break
        board.push(legal[choice % len(legal)])
    picked = [deed for item in walked(moves(board, Typed)) for deed in item.deeds]
    ucis = [deed.text for deed in picked if isinstance(deed, Typed)]
    assert sorted(ucis) == sorted(move.uci() for move in board.legal_moves)
    names = [item.words for item in walked(moves(board, Typed)) if item.deeds]
    assert all(name and name[0].isupper() for name in names)


@pytest.mark.parametrize("fen", ["4k3/P7/8/8/8/8/8/R3K2R w KQ - 0 1", "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1"])
def test_promotions_castling_and_taking_in_passing_are_answers_too(fen: str) -> None:
    for move in chess.Board(fen).legal_moves:
        sheet = sheet_of(f"board: {fen}\n\nquestion: What now?\n\n{{{chess.Board(fen).san(move)}}}.\n")
        playing = Playing(sheet, ALOUD).start()
        playing.feed(Typed(move.uci()))
        assert [one.grade for one in playing.seen if isinstance(one, Attempt)] == ["right"], move


def test_numbers_go_from_none_to_forty() -> None:
    found = [deed for item in walked(numbers(Typed)) for deed in item.deeds]
    assert found == [Typed(str(number)) for number in range(41)]


@settings(max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 3_000), st.integers(1, 6)), max_size=25))
def test_whatever_is_tapped_nothing_breaks_and_the_hand_comes_to_rest(deeds: list[tuple[int, int]]) -> None:
    one = Taker(at_question())
    for wait, count in deeds:
        one.wait(wait).tap(count, apart=100)
    one.wait(10 * 60_000)
    assert not one.hand.busy
    assert one.state.place is not None and isinstance(one.state.place, Place)
