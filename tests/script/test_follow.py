"""Following a lesson: where moves land, what a question holds, and what stands after a lost move."""

from __future__ import annotations

import pytest

from player.facts.place import Place
from player.script.told import (
    Mark,
    Shown,
    Text,
    Told,
    ToldBeat,
    ToldBlock,
    ToldBoard,
    ToldClaim,
    ToldGame,
    ToldIdea,
    ToldPart,
    ToldPause,
    ToldQuestion,
    ToldShow,
    ToldSides,
    Turn,
)
from tests.script.corpora import moves_told, outcome_of

OPENING = "title: x\n\n{Nf3} {d5} {g3} {Nf6} {Bg2} {e6} {castles} {Be7} {d3} {castles}.\n\n"


def told(source: str) -> tuple[Told, ...]:
    """What a script without faults tells."""
    said = outcome_of("title: x\n\n" + source)
    assert said.faults == ()
    return said.told.body


def text(source: str) -> Text:
    (beat,) = told(source)
    assert isinstance(beat, ToldBeat)
    return beat.text


def landings(made: Text) -> list[tuple[str, str]]:
    """Each move with the words that follow where it lands."""
    return [(deed.do.san, made.shown[deed.at :]) for deed in made.deeds if isinstance(deed.do, Turn)]


@pytest.mark.parametrize(
    ("source", "shown", "where"),
    [
        ("White begins {knight to f3}.", "White begins knight to f3.", [("Nf3", "knight to f3.")]),
        ("Now {e4: the pawn} goes.", "Now the pawn goes.", [("e4", "the pawn goes.")]),
        ("Now {e4:} it is.", "Now it is.", [("e4", "it is.")]),
        ("Now {e4:}, and on.", "Now, and on.", [("e4", ", and on.")]),
        ("{e4} {e5} {Nf3}", "e4 e5 Nf3", [("e4", "e4 e5 Nf3"), ("e5", "e5 Nf3"), ("Nf3", "Nf3")]),
        (
            "{1. e4 e5 2. Nf3}",
            "1. e4 e5 2. Nf3",
            [("e4", "e4 e5 2. Nf3"), ("e5", "e5 2. Nf3"), ("Nf3", "Nf3")],
        ),
        (
            "{e4 e5 Nf3: a pawn *, a pawn *, and a knight *}.",
            "a pawn, a pawn, and a knight.",
            [("e4", " a pawn, and a knight."), ("e5", " and a knight."), ("Nf3", "")],
        ),
        ("{e4 e5: *both pawns* go}", "both pawns go", [("e4", "both pawns go"), ("e5", " go")]),
        ("{e4 e5: now both of them}", "now both of them", [("e4", "now both of them"), ("e5", "of them")]),
        ("{e4 e5:} on", "on", [("e4", "on"), ("e5", "on")]),
        ("{e4: a \\* star *} on", "a * star on", [("e4", "on")]),
        ("{Nf3 @0:16.4: out}", "out", [("Nf3", "out")]),
        ("Then{e4}{e5}, so", "Then e4 e5, so", [("e4", "e4 e5, so"), ("e5", "e5, so")]),
    ],
)
def test_where_moves_land(source: str, shown: str, where: list[tuple[str, str]]) -> None:
    made = text(source)
    assert made.shown == shown
    assert landings(made) == where


def test_a_brace_that_shows_says_its_words_or_its_squares() -> None:
    made = text("Look {show e5, d4 as weak: here}, {show g2-b7 as line} and {show d5 to c4, e4}.")
    assert made.shown == "Look here, g2-b7 and d5 to c4, e4."
    shown = [deed.do for deed in made.deeds]
    assert shown == [
        Shown((Mark("square", "e5"), Mark("square", "d4")), "weak"),
        Shown((Mark("line", "g2", "b7"),), "line"),
        Shown((Mark("hit", "d5", "c4"), Mark("hit", "d5", "e4"))),
    ]


def test_a_move_has_its_stamp_and_the_places_on_both_sides() -> None:
    (deed,) = text("{Nf3 @0:16.4}").deeds
    assert deed.stamp_ms == 16_400
    assert deed.do == Turn("g1f3", "Nf3", Place(), Place(moves=("g1f3",)))


def test_every_kind_of_line_is_told_at_its_place() -> None:
    source = (
        "part: One\n\n{e4}.\nshow: e5\nclaim: e4 is legal\nidea the lamp: Light.\npause: a breath\n"
        "side: both\nview: black\nfine: words\nboard: start\n"
        "game: Calder, I. - Orme, Reading Room 1998, 1/2-1/2\n"
    )
    part, _, show, claim, idea, pause, side, view, _, board, game = told(source)
    after = Place(moves=("e2e4",))
    assert isinstance(part, ToldPart)
    assert part.place == Place()
    assert isinstance(show, ToldShow)
    assert show.shown == Shown((Mark("square", "e5"),))
    assert isinstance(claim, ToldClaim)
    assert claim.place == after
    assert claim.last is not None
    assert claim.last.san == "e4"
    assert isinstance(idea, ToldIdea)
    assert (idea.name, idea.text.shown, idea.place) == ("the lamp", "Light.", after)
    assert isinstance(pause, ToldPause)
    assert pause.ms == 700
    assert isinstance(side, ToldSides)
    assert (side.side, side.view) == ("both", "")
    assert isinstance(view, ToldSides)
    assert (view.side, view.view) == ("", "black")
    assert isinstance(board, ToldBoard)
    assert (board.words, board.before, board.after) == ("start", after, Place())
    assert isinstance(game, ToldGame)
    assert (game.white, game.black, game.site, game.year, game.result) == (
        "Calder, I.",
        "Orme",
        "Reading Room",
        "1998",
        "1/2-1/2",
    )


def question(source: str) -> ToldQuestion:
    made = next(element for element in told(source) if isinstance(element, ToldQuestion))
    assert isinstance(made, ToldQuestion)
    return made


@pytest.mark.parametrize(
    ("after", "because"),
    [
        ("{e4}. It opens lines. {e5} and on.", "It opens lines."),
        ("{e4}, which opens lines.", "which opens lines."),
        ("{e4: the pawn} opens lines.", "opens lines."),
        ("{e4 e5: a pawn *, a pawn *} and on.", None),
        ("First some words. {e4} {e5} at once.", None),
        ("{e4}.\n\nIt opens lines.\nshow: e5\n\nMuch more. {e5}.", "It opens lines. Much more."),
        ("{e4}.\n\npart: Two\n\nOn.", None),
        ("{e4} opens {show d5: this square} too.", "opens this square too."),
    ],
)
def test_the_reason_is_the_words_after_the_answer_up_to_the_next_move(
    after: str, because: str | None
) -> None:
    made = question(f"question: Where to?\n\n{after}\n")
    assert made.answer is not None
    assert made.answer.san == "e4"
    assert (made.because.shown if made.because else None) == because
    assert not made.because_given


def test_a_reason_that_is_given_stands() -> None:
    made = question("question: Where to?\n  because: For the {show e4: centre}.\n\n{e4} opens lines.\n")
    assert made.because_given
    assert made.because is not None
    assert made.because.shown == "For the centre."
    assert len(made.because.deeds) == 1


def test_words_and_cues_may_stand_between_a_question_and_its_answer() -> None:
    between = (
        "Som"
        "e words.\nshow: e4\nidea the lamp: Light.\npause: 2s\nclaim: x\nfine: y\nmark: here\nview: black\n\n"
    )
    made = question(f"question: Where to?\n\n{between}More. {{e4}}.\n")
    assert made.answers == ("e2e4",)
    assert made.place == Place()


@pytest.mark.parametrize(
    "between", ["part: x", "board: start", "aside: x\n  {d4}.", "question: y\n  ask: count\n  answer: 1"]
)
def test_a_question_that_is_cut_off_from_its_move_is_only_told(between: str) -> None:
    said = outcome_of(f"title: x\n\nquestion: Where to?\n\n{between}\n\n{{e4}}.\n")
    assert [fault.code for fault in said.faults] == ["no-answer"]
    first = said.told.body[0]
    assert isinstance(first, ToldBeat)
    assert first.text.shown == "Where to?"


def test_a_reply_plays_on_and_returns() -> None:
    reply_line = "reply the f-pawn to f4, g4: Then {e5} {g3} {Qh4} it ends."
    made = question(f"question: Where to?\n  {reply_line}\n\n{{e4}}.\n")
    (reply,) = made.replies
    assert reply.answers == ("f2f4", "g2g4")
    assert reply.places == (Place(moves=("f2f4",)), Place(moves=("g2g4",)))
    assert [san for san, _ in landings(reply.text)] == ["e5", "g3", "Qh4"]
    assert made.answer is not None
    assert made.answer.before == Place()


@pytest.mark.parametrize(
    ("block", "kind", "answers", "choices"),
    [
        ("ask: square\n  answer: e4, D5 f6", "square", ("e4", "d5", "f6"), ()),
        ("ask: count\n  answer: three\n  answer: 4", "count", ("3", "4"), ()),
        (
            "choice: the lamp\n  choice: kettle\n  answer: The Lamp",
            "choice",
            ("the lamp",),
            ("the lamp", "kettle"),
        ),
        (
            "choice: yes\n  choice: no\n  choice: so\n  answer: yes so",
            "choice",
            ("yes", "so"),
            ("yes", "no", "so"),
        ),
        ("ask: words\n  answer: a pin, the pin", "words", ("a pin", "the pin"), ()),
    ],
)
def test_other_kinds_of_questions(
    block: str, kind: str, answers: tuple[str, ...], choices: tuple[str, ...]
) -> None:
    made = question(f"question: Which?\n  {block}\n  think: 1.5s\n  key: yes\n\nOn.\n")
    assert (made.kind, made.answers, made.choices) == (kind, answers, choices)
    assert (made.answer, made.think_ms, made.again) == (None, 1500, True)


def test_a_reply_to_another_kind_of_question_is_an_answer_of_that_kind() -> None:
    made = question("question: Which?\n  ask: square\n  answer: e4\n  reply d4, d5: Near.\n\nOn.\n")
    (reply,) = made.replies
    assert (reply.answers, reply.places) == (("d4", "d5"), (Place(), Place()))


@pytest.mark.parametrize(
    ("line", "moves"),
    [
        ("board: back 2 moves", 8),
        ("board: back two moves", 8),
        ("board: back 1 move", 9),
        ("board: after 2...Nf6", 4),
        ("board: after 3. Bg2", 5),
        ("board: after 5...castles", 10),
        ("board: start", 0),
        ("board: The  Corner", 2),
    ],
)
def test_boards_that_go_back_in_the_game(line: str, moves: int) -> None:
    source = "{Nf3} {d5}.\nmark: the corner\n\n{g3} {Nf6} {Bg2} {e6} {castles} {Be7} {d3} {castles}.\n\n"
    board = told(source + line)[-1]
    assert isinstance(board, ToldBoard)
    assert len(board.after.moves) == moves


def test_back_counts_only_the_moves_of_its_depth() -> None:
    source = (
        "{e4} {e5}.\n\naside: x\n  {Nf3} {Nc6}.\n  board: back 1 move\n  {d6}.\n\n{Nc3}.\n\n"
        "board: back 2 moves\n\n{c5}.\n"
    )
    assert list(moves_told(told(source))) == [
        *(["main", "e4"], ["main", "e5"], ["aside", "Nf3"], ["aside", "Nc6"], ["aside", "d6"]),
        *(["main", "Nc3"], ["main", "c5"]),
    ]


def test_after_speaks_of_the_game_last_begun() -> None:
    source = (
        "{e4} {e5}.\n\nboard: start\n\n{d4} {d5}.\n\nboard: 8/8/8/4k3/8/8/4P3/4K3 w - - 0 1\n\n"
        "{e3}.\n\nboard: after 1.d4\n"
    )
    board = told(source)[-1]
    assert isinstance(board, ToldBoard)
    assert board.after.moves == ("d2d4",)


def test_a_named_fragment_is_a_game_that_after_may_speak_of() -> None:
    source = (
        "game: Calder - Orme\nboard: 4k3/8/8/8/8/8/4P3/4K3 w - - 0 12\n\n{e4} {Kd7} {e5}.\n\n"
        "board: after 12...Kd7\n"
    )
    board = told(source)[-1]
    assert isinstance(board, ToldBoard)
    assert board.after.moves == ("e2e4", "e8d7")


def test_a_board_inside_an_aside_ends_with_it() -> None:
    source = (
        "{e4}.\n\naside: x\n  board: start\n\n  {d4} {d5}.\n\n  board: after 1.d4\n\n{e5}.\n\n"
        "board: after 1.e4\n"
    )
    body = told(source)
    board = body[-1]
    assert isinstance(board, ToldBoard)
    assert board.after.moves == ("e2e4",)


def test_a_mark_may_be_gone_to_from_anywhere_and_is_kept_by_its_name() -> None:
    said = outcome_of(
        "title: x\n\naside: x\n  {e4}.\n  mark: The Lamp\n\n{d4}.\n\nboard: the lamp\n\n{e5}.\n"
    )
    assert said.faults == ()
    assert said.told.marks == {"The Lamp": Place(moves=("e2e4",))}


def test_a_retelling_goes_through_the_moves_from_its_mark_and_returns() -> None:
    source = "{Nf3}.\nmark: the door\n\n{d5} {g3}.\n\nretell: the door\n  back: There.\n\n{Nf6}.\n"
    block = told(source)[2]
    assert isinstance(block, ToldBlock)
    (beat,) = block.body
    assert isinstance(beat, ToldBeat)
    assert beat.text.shown == "1... d5 2. g3"
    assert landings(beat.text) == [("d5", "d5 2. g3"), ("g3", "g3")]
    assert (beat.before, beat.after) == (block.inner, block.outer)
    assert block.back is not None


def test_a_long_retelling_is_told_in_several_breaths() -> None:
    source = (
        OPENING.removeprefix("title: x\n\n").replace("{Nf3} ", "{Nf3}.\nmark: one\n\n", 1) + "retell: one\n"
    )
    block = told(source)[-1]
    assert isinstance(block, ToldBlock)
    shown = [beat.text.shown for beat in block.body if isinstance(beat, ToldBeat)]
    assert shown == ["1... d5 2. g3 Nf6 3. Bg2 e6 4. O-O Be7", "5. d3 O-O"]


def test_a_retelling_of_a_line_since_left_goes_where_that_line_went() -> None:
    source = "mark: home\n\n{e4} {e5}.\n\nboard: start\n\n{d4}.\n\nretell: home\n"
    assert list(moves_told(told(source)))[-1] == ["retell", "d4"]
    other = "board: 4k3/8/8/8/8/8/4P3/4K3 w - - 0 1\nretell: home\n"
    assert list(moves_told(told("mark: home\n\n{e4} {e5}.\n\n" + other)))[-1] == ["retell", "e5"]


def test_after_a_lost_move_it_is_said_once_in_its_block_and_the_words_go_on() -> None:
    source = (
        "title: x\n\n{e4} {e5}.\n\naside: x\n  {Nf6} {Nf3: the bishop} {d9}.\n  claim: nonsense\n\n"
        "{Nf3} {Nc6}.\n"
    )
    said = outcome_of(source)
    assert [(fault.code, fault.line) for fault in said.faults] == [("illegal-move", 6)]
    assert list(moves_told(said.told.body)) == [["main", san] for san in ("e4", "e5", "Nf3", "Nc6")]
    aside = said.told.body[1]
    assert isinstance(aside, ToldBlock)
    assert [type(element) for element in aside.body] == [ToldBeat]


def test_a_lost_move_is_over_with_the_next_board() -> None:
    said = outcome_of("title: x\n\n{e9} {d5}.\n\nboard: start\n\n{e4} {Nd9}.\n")
    assert [fault.line for fault in said.faults] == [3, 7]


def test_a_question_whose_answer_is_lost_is_not_faulty_itself() -> None:
    said = outcome_of("title: x\n\nquestion: Where?\n\n{e9}.\n")
    assert [fault.line for fault in said.faults] == [5]


def test_an_impossible_position_says_why_when_a_move_is_made_in_it() -> None:
    for change, why in (
        ("remove e1", "White has no king"),
        ("white king on e4", "two kings"),
        ("e2 to e8, e1 to e2, d8 to e1", "has no king"),
        ("a2 to a1", "pawn"),
        (
            "d8 to e2, remove d1, black queen on e2, e7 to e6, Black to move",
            "White is in check and not to move",
        ),
    ):
        said = outcome_of(f"title: x\n\nimagine: {change}\n  Look. {{d4}}.\n\n{{e4}}.\n")
        assert [fault.code for fault in said.faults] == ["impossible-board"], change
        assert why in said.faults[0].message
        assert list(moves_told(said.told.body)) == [["main", "e4"]]


def test_castling_rights_and_en_passant_fall_in_an_imagined_position() -> None:
    source = "{e4} {a6} {e5} {d5}.\n\nimagine: remove h1\n  Look.\n\n{exd6}.\n"
    block = told(source)[1]
    assert isinstance(block, ToldBlock)
    assert block.inner.fen.split()[2:4] == ["Qkq", "-"]


def test_exact_notation_wins_over_other_readings() -> None:
    source = "board: White Kg1 Bd2 pb2; Black Kg8 Nc3 pa7; White to move\n\n{bxc3}.\n"
    assert list(moves_told(told(source))) == [["main", "bxc3"]]


def test_the_lost_one_of_several_moves_is_pointed_at() -> None:
    source = "title: x\n\nNow {1. e4 e5 2. Nf6 Nc6} and on.\n"
    (fault,) = outcome_of(source).faults
    assert (fault.line, fault.column, fault.width) == (3, 18, 3)
    assert "Legal knight moves: Nh3, Nf3, Ne2, Nc3, Na3" in fault.message


@pytest.mark.parametrize(
    "block", ["imagine: remove e4\n  {e5} {Nf9}.\n  claim: x", "instead: x\n  {e5} {Nf9}."]
)
def test_in_a_block_that_begins_wrongly_only_that_is_told(block: str) -> None:
    said = outcome_of(f"title: x\n\n{block}\n\n{{e4}}.\n")
    assert len(said.faults) == 1
    assert list(moves_told(said.told.body)) == [["main", "e4"]]
