"""What each line of a script becomes in the sheet."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from typing import Any

import pytest

from player.cues.compile import compile_lesson
from player.cues.sheet import Ask, Sheet, Step
from player.facts.place import Place
from player.script.told import Shown
from player.wording.utterance import Utterance
from tests.cues.compiled import OPENING, landings, sheet_of, spoken, steps_of, turns, words
from tests.golden import Golden
from tests.script.corpora import outcome_of


def ask_in(body: str) -> Ask:
    sheet = sheet_of(body)
    (asked,) = sheet.questions
    ask = sheet.steps[asked].ask
    assert ask is not None
    return ask


def kinds(steps: tuple[Step, ...]) -> list[tuple[str, bool]]:
    return [(step.kind, step.ear_only) for step in steps]


# Sentences and cues.


def test_a_sentence_is_a_step_and_the_moves_in_it_are_its_cues() -> None:
    steps = steps_of("White begins {knight to f3}, a start. Black takes space with {d5}.")
    assert words(steps) == ["White begins knight to f3, a start.", "Black takes space with d5."]
    assert [landings(step) for step in steps] == [[("Nf3", "knight")], [("d5", "d5.")]]
    assert [step.rest_ms for step in steps] == [180, 450]
    assert steps[0].beat == steps[1].beat


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ("Now {e4:} it is. And on.", [[("e4", "it")], []]),
        ("One step. {e4:} And on.", [[], [("e4", "And")]]),
        ("Now, with {e4:}, on we go.", [[("e4", "on")]]),
        ("He waited, then {e4:}.", [[("e4", "")]]),
        ("One. Two. {e4:}", [[], [("e4", "")]]),
        ("{e4:} {e5:} Both are there.", [[("e4", "Both"), ("e5", "Both")]]),
        ("{1. e4 e5 2. Nf3} it was.", [[("e4", "e4,"), ("e5", "e5,"), ("Nf3", "knight")]]),
        ("{e4: a step *, a step}.", [[("e4", "a")]]),
        ("“{e4},” he said.", [[("e4", "e4,")]]),
    ],
)
def test_a_move_lands_where_its_words_begin(body: str, expected: list[list[tuple[str, str]]]) -> None:
    assert [landings(step) for step in steps_of(body) if not step.ear_only] == expected


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("White begins {knight to f3}, and {d5} answers.", []),
        ("{e4 e5 Nf3: a pawn *, a pawn *, a knight *}.", ["That is pawn to e4, pawn to e5, knight to f3."]),
        ("{e4: to e4} {d5} {exd5: he takes}.", ["That is e-pawn takes pawn on d5."]),
        ("{e4} {e5} {Nf3} {Nf6} {Bc4} {Bc5} {O-O: White castles}.", []),
        ("{e4} {e5} {Nf3} {Nf6} {Bc4} {Bc5}. {O-O: the king hides}.", ["That is castling kingside."]),
    ],
)
def test_moves_whose_squares_are_not_said_are_said_to_the_ear(body: str, said: list[str]) -> None:
    assert words(tuple(step for step in steps_of(body) if step.ear_only)) == said


def test_moves_without_words_are_one_silent_step() -> None:
    step, for_the_ear = steps_of("{e4:} {e5:}")
    assert for_the_ear.ear_only and words((for_the_ear,)) == ["That is pawn to e4, pawn to e5."]
    assert step.say is None
    assert [turn.san for turn in turns(step)] == ["e4", "e5"]
    assert [cue.word for cue in step.cues] == [0, 0]
    assert step.after == Place().then("e2e4", "e7e5")


def test_a_stamp_is_on_the_first_sentence_and_a_move_keeps_its_own() -> None:
    steps = steps_of("[0:14] First {e4}. Second {e5 @0:16.4}.")
    assert [step.stamp_ms for step in steps] == [14_000, None]
    assert [cue.stamp_ms for step in steps for cue in step.cues] == [None, 16_400]


def test_words_of_the_header_are_respelled_and_files_are_named_as_asked() -> None:
    head = "title: x\npronounce Calder: KAWL-der\n\n"
    sheet = sheet_of("Calder plays {e4}.", head, "alphabet")
    assert spoken(sheet.steps[1]) == "kawl-der plays Echo four."
    assert landings(sheet.steps[1]) == [("e4", "Echo")]
    assert [step.key for step in sheet.steps] == [
        step.key for step in sheet_of("Calder plays {e4}.", head).steps
    ]


# The opening, parts, sides, pauses.


def test_the_first_step_tells_the_length_and_the_number_of_questions() -> None:
    sheet = sheet_of("question: Which?\n\n{e4} it is.\n\n[5:10] On.", "title: Doors\ncoach: Ines Calder\n\n")
    first = sheet.steps[0]
    assert first.ear_only and first.part == -1
    assert words((first,)) == ["Doors, by Ines Calder. It takes about 5 minutes and has 1 question."]
    assert sheet.starts[0] == sheet.starts[1] == 0
    assert words(sheet_of("On.").steps[:1]) == ["x. It takes about 1 minute and has no questions."]


def test_a_part_is_announced_and_counted() -> None:
    sheet = sheet_of("Before.\n\npart: The {show g2-b7: long} road\n\nAfter.")
    assert words(sheet.steps)[1:] == ["Before.", "Part: The long road.", "After."]
    part = sheet.steps[2]
    assert (part.kind, part.ear_only, part.rest_ms, sheet.steps[1].rest_ms) == ("part", True, 700, 700)
    assert [cue.word for cue in part.cues] == [2]
    assert [(made.title, made.first) for made in sheet.parts] == [("The long road", 2)]
    assert [step.part for step in sheet.steps] == [-1, -1, 0, 0]


def flips(body: str, side: str = "white") -> list[bool]:
    steps = steps_of(body, f"title: x\nside: {side}\n\n")
    return [step.flip for step in steps if step.kind == "tell"]


def test_black_sits_at_the_bottom_of_a_lesson_for_black_unless_the_view_says_otherwise() -> None:
    assert flips("One.\n\nview: black\n\nTwo.\n\nview: white\n\nThree.") == [False, True, False]
    assert flips("One.\n\nview: white\n\nTwo.", "black") == [True, False]
    assert flips("One.", "both") == [False]
    assert flips("One.\n\npart: P\n\nside: black\n\nTwo.") == [False, True]
    assert flips("view: white\nside: black\n\nOne.\n\npart: P\n\nTwo.\n\nside: black\n\nThree.") == [
        False,
        False,
        True,
    ]


def test_a_block_turns_the_board_back_at_its_return() -> None:
    steps = steps_of("One.\n\naside: A\n  view: black\n\n  Two.\n\nThree.")
    assert [step.flip for step in steps] == [False, False, False, True, False, False]


def test_a_pause_is_a_silent_step() -> None:
    steps = steps_of("One.\n\npause: 2s\n\nTwo.")
    assert (steps[1].kind, steps[1].say, steps[1].rest_ms) == ("rest", None, 2000)
    assert [step.beat for step in steps] == sorted({step.beat for step in steps})


def test_claims_and_games_are_not_told() -> None:
    body = (
        "game: Wren - Calder, Pellow Ferry 1998, 1-0\n\n{Nf3} {d5} {g3} {Nf6} {Bg2}.\nclaim: g2-d5 is closed"
    )
    assert words(steps_of(body)) == ["Nf3 d5 g3 Nf6 Bg2."]


# Asides, imagined positions, retellings, boards.


def test_an_aside_is_entered_and_returned_from() -> None:
    sheet = sheet_of("{e4}.\n\naside: If Black hurries\n  {c5} is quick.\n\n{e5} now.")
    assert words(sheet.steps)[2:] == [
        "An aside.",
        "If Black hurries",
        "c5 is quick.",
        "Back to the lesson, after pawn to e4; Black to move.",
        "e5 now.",
    ]
    assert kinds(sheet.steps[2:]) == [
        ("enter", True),
        ("enter", False),
        ("tell", False),
        ("return", True),
        ("tell", False),
    ]
    assert [step.scopes for step in sheet.steps] == [(), (), (0,), (0,), (0,), (), ()]
    (scope,) = sheet.scopes
    assert (scope.kind, scope.title, scope.first, scope.last) == ("aside", "If Black hurries", 2, 5)


def test_instead_names_the_move_taken_back_and_begins_before_it() -> None:
    sheet = sheet_of(
        OPENING + "instead: A bolder way\n  {c5}.\n  aside: Deeper\n    {Nc3}.\n  back: So much for that."
    )
    assert words(sheet.steps)[2:] == [
        "Instead of castling kingside:",
        "A bolder way",
        "c5.",
        "An aside.",
        "Deeper",
        "Nc3.",
        "Back to the aside, after pawn to c5; White to move.",
        "So much for that.",
    ]
    back = sheet.steps[-1]
    assert (back.kind, back.ear_only, back.scopes) == ("return", False, ())
    assert sheet.steps[2].before == Place(back.before.root, back.before.moves[:-1])
    assert [scope.last for scope in sheet.scopes] == [9, 8]


def test_the_words_of_a_return_are_one_step() -> None:
    steps = steps_of("{e4}.\n\naside: A\n  On.\n  back: They are back. {show e4: It stands}.")
    assert words(steps[-1:]) == ["They are back. It stands."]
    assert [cue.word for cue in steps[-1].cues] == [3]


def test_an_imagined_position_is_told_by_what_differs() -> None:
    steps = steps_of(
        "{Nf3} {d5}.\n\nimagine: remove f3, d2 to d4, white rook on a4, Black to move\n  Look at that."
    )
    assert words(steps)[1:] == [
        "Imagined: no knight on f3, the white pawn from d2 on d4, a white rook on a4, Black to move.",
        "Look at that.",
        "The board is as it was, after pawn to d5; White to move.",
    ]
    assert steps[1].before == steps[1].after == steps[2].before != steps[3].before


def test_a_retelling_goes_through_the_moves_once_more() -> None:
    steps = steps_of("mark: the door\n\n{Nf3} {d5}.\n\nretell: the door\n\nOn.")
    assert words(steps)[1:] == [
        "Once more from the door.",
        "1. Nf3 d5",
        "Back to the lesson, after pawn to d5; White to move.",
        "On.",
    ]
    assert [turn.san for turn in turns(steps[2])] == ["Nf3", "d5"]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("start", "The starting position; White to move."),
        ("after 1...d5", "Back to the position after pawn to d5; White to move."),
        ("back 1 move", "Back to the position after pawn to d5; White to move."),
        ("the door", "Back to the door, after knight to f3; Black to move."),
        (
            "White Kd5 pe5; Black Ke8; White to move",
            "A new position. White: king d5; pawn e5. Black: king e8. White to move.",
        ),
    ],
)
def test_a_board_line_is_announced(line: str, said: str) -> None:
    head = "title: x\n\n"
    steps = steps_of(
        f"board: start\n\n{{Nf3}}.\n\nmark: the door\n\n{{d5}} {{g3}}.\n\nboard: {line}\n\nOn.", head
    )
    step = steps[-2]
    assert (step.kind, step.ear_only, words((step,))) == ("board", True, [said])
    assert step.before == step.after == steps[-1].before


# Marks and ideas.


def test_a_show_line_happens_at_once_and_is_said_to_who_listens() -> None:
    steps = steps_of("One.\nshow: g2-b7 as line\n\nTwo.")
    assert kinds(steps)[1] == ("show", True)
    assert words(steps)[1] == "Shown as line: the line from g2 to b7."
    (cue,) = steps[1].cues
    assert cue.word == 0 and isinstance(cue.do, Shown)


def test_marks_in_a_sentence_are_said_too_where_its_words_leave_squares_out() -> None:
    steps = steps_of("See {show d5 to c4, e4: who hits whom}. And {show e4, f3: the pawn on e4 and Nf3}. On.")
    assert words(steps) == [
        "See who hits whom.",
        "Shown: from d5 to c4 and e4.",
        "And the pawn on e4 and Nf3.",
        "On.",
    ]
    assert (steps[1].kind, steps[1].ear_only, steps[1].cues) == ("show", True, ())
    assert [len(step.cues) for step in steps] == [1, 0, 1, 0]


def test_an_idea_keeps_its_words() -> None:
    sheet = sheet_of("idea the long road: It is long. It is ours.\n\nidea THE LONG ROAD: Again.\n\nOn.")
    ideas = [step for step in sheet.steps if step.kind == "idea"]
    assert words(tuple(ideas)) == ["It is long.", "It is ours.", "Again."]
    assert [step.idea for step in ideas] == ["the long road", "the long road", "THE LONG ROAD"]
    assert sheet.ideas["the long road"] == "It is long. It is ours."


# Questions.


def test_a_question_is_asked_after_the_whole_position() -> None:
    sheet = sheet_of("{Nf3} {d5}.\n\nquestion: Which way?\n  think: 20s\n\n{g3}. It looks far.\n\n{Nf6}.")
    (asked,) = sheet.questions
    position, step = sheet.steps[asked - 1], sheet.steps[asked]
    assert position.ear_only and words((position,))[0].startswith("White: king e1; queen d1;")
    assert words((step,)) == ["Which way?"]
    assert step.ask is not None
    assert (step.ask.told, step.ask.answers, step.ask.think_ms) == (asked + 1, ("g2g3",), 20_000)
    assert words(step.ask.because) == ["It looks far."]
    assert step.ask.because[0].before == step.ask.place.then("g2g3")
    assert not step.ask.because_given


def test_choices_are_numbered_after_the_question() -> None:
    sheet = sheet_of("question: Which?\n  choice: the lamp\n  choice: the kettle\n  answer: the lamp\n\nOn.")
    (asked,) = sheet.questions
    step = sheet.steps[asked]
    assert words((step,)) == ["Which? 1: the lamp; 2: the kettle."]
    assert step.ask is not None
    assert (step.ask.text, step.ask.choices, step.ask.told) == ("Which?", ("the lamp", "the kettle"), None)


def test_each_move_has_a_reply_of_its_own_and_the_first_plays_on() -> None:
    ask = ask_in(
        "question: What now?\n  also c4, d4: Sound. It is.\n"
        "  reply a4, h4: After {a5} it stalls.\n  otherwise: Look again.\n"
        "  nudge: One.\n  nudge: {show e4: Here}.\n\n{e4} it is."
    )
    assert [reply.answers for reply in ask.also] == [("c2c4",), ("d2d4",)]
    assert [words(reply.track) for reply in ask.also] == [["Sound.", "It is."]] * 2
    assert [reply.track[0].before.moves for reply in ask.also] == [("c2c4",), ("d2d4",)]
    plays, stays = (reply.track for reply in ask.replies)
    assert plays[0].after.moves == ("a2a4", "a7a5")
    assert stays[0].before == stays[0].after == Place().then("h2h4") and stays[0].cues == ()
    assert words(ask.otherwise) == ["Look again."]
    assert [words(nudge) for nudge in ask.nudges] == [["One."], ["Here.", "Shown: the square e4."]]


def test_a_reply_to_other_answers_is_one() -> None:
    ask = ask_in("question: Which?\n  ask: square\n  answer: e4\n  reply d4, d5: {show e4: No}.\n\nOn.")
    (reply,) = ask.replies
    assert reply.answers == ("d4", "d5")
    assert len(reply.track[0].cues) == 1


def test_a_question_keeps_its_key_whatever_its_words() -> None:
    plain = ask_in("question: What now?\n\n{e4} it is.")
    reworded = ask_in("New words first.\n\nquestion: And here?\n  nudge: Think.\n\nSo: {e4: a step} it is.")
    other = ask_in("question: What now?\n\n{d4} it is.")
    assert plain.key == reworded.key != other.key


def test_the_telling_step_is_at_the_depth_of_the_question() -> None:
    sheet = sheet_of(
        "{e4}.\n\naside: A\n  question: What?\n\n  First, a word. Then {c5}.\n\n"
        "question: What?\n\n{c5} again."
    )
    inner, outer = (sheet.steps[asked].ask for asked in sheet.questions)
    assert inner is not None and outer is not None
    assert inner.told is not None and outer.told is not None
    assert words((sheet.steps[inner.told], sheet.steps[outer.told])) == ["Then c5.", "c5 again."]
    assert inner.key == outer.key


# The whole.

SAMPLE = """script: 1
title: One Set-up, Many Doors
coach: Ines Calder
side: white
pronounce Calder: KAWL-der

part: Opening remarks

[0:00] Good evening, and welcome to the reading room. I am Ines Calder.

part: The set-up

[0:14] White begins {knight to f3}, Black takes space with {d5}, and now
{g3 Nf6 Bg2: a pawn *, a knight *, and the bishop finds the long diagonal *}.
claim: g2-d5 is closed

idea the long diagonal: A bishop on the long diagonal wakes when the pawn in front of it is challenged.

[0:31] {e6} {castles} {Be7} {d3} {castles}. {show e2-e4 as plan: The next push} is in the air.

question: White to move. Where does the knight from b1 belong?
  also c4: Sound too; it steers for a different set-up.
  reply Nc3: From here the knight blocks the very pawn we may want to push.
  otherwise: Think of the men still at home.
  nudge: Most of the queenside still sleeps, and one man there jumps.
  about: the long diagonal
  think: 20s

[0:58] {Nbd2}. It backs e4 and leaves the c-pawn free.

aside: If Black hurries in the centre
  [1:12] {d4: pushing past} opens our diagonal himself, and White nibbles at once, {c3}.
instead: And if the knight had gone to c3
  {Nc3} {d4} and it must move again.

[1:40] {c5} {c3} {Nc6} {Re1}.
imagine: remove f3, remove d5, remove c6
  [1:52] Picture these three gone. Now {show g2-b7 as line: the bishop} looks all the way to b7.
pause: a breath
"""


def plain(value: Any) -> Any:
    """A sheet as plain data; a place is its FEN, spans are one text, and what is empty is left out."""
    if isinstance(value, Place):
        return value.fen
    if isinstance(value, Utterance):
        spans = " ".join(f"{start}-{end}" for start, end in value.words)
        return {"spoken": value.spoken, "shown": value.shown, "words": spans}
    if is_dataclass(value):
        made = {field.name: plain(getattr(value, field.name)) for field in fields(value)}
        return {
            name: kept
            for name, kept in made.items()
            if kept is not None and kept is not False and kept not in ("", [], {})
        }
    if isinstance(value, tuple):
        return [plain(part) for part in value]
    if isinstance(value, dict):
        return {name: plain(kept) for name, kept in value.items()}
    return value


def test_a_whole_lesson_is_what_it_was(golden: Golden) -> None:
    sheet: Sheet = sheet_of(SAMPLE, "")
    golden("sample.json", json.dumps(plain(sheet), indent=1, ensure_ascii=False) + "\n")


def test_a_faulty_lesson_is_told_as_far_as_it_goes() -> None:
    said = outcome_of("title: x\n\n{e4} {Ke5} {d4} and so on.\n\nboard: start\n\n{d4}.")
    assert said.faults
    steps = compile_lesson(said.told).steps
    assert [turn.san for step in steps for turn in turns(step)] == ["e4", "d4"]


def test_a_lesson_without_words_is_its_opening() -> None:
    sheet = compile_lesson(outcome_of("title: x\n").told)
    assert len(sheet.steps) == 1 and sheet.starts == (0, 0)
