"""What coaches write who think of something else: keys, stamps, letters and turns that are nearly right."""

from __future__ import annotations

import pytest

from tests.script.corpora import outcome_of


@pytest.mark.parametrize(
    ("told_so", "said"),
    [
        ("{Nf3} {Nf6} {1...Nf6}", "numbered as Black's"),
        ("{Nf3} {2. g3}", "numbered as White's"),
        ("{g3} {g6} {Bg2} {Bg7} {Nf3} {Nf6} {0-0} d6 {d3}", "only White can do that"),
        ("{g3} {g6} {Bg2} {Bg7} {Nf3} {Nf6} {castles} {d6} Now d3, and {0-0}", "only Black can do that"),
    ],
)
def test_a_move_of_the_other_side_is_said_to_be_out_of_turn(told_so: str, said: str) -> None:
    (fault,) = outcome_of(f"title: x\n\n{told_so}\n").faults
    assert fault.code == "illegal-move"
    assert said in fault.message


def test_a_move_with_the_right_number_that_no_man_can_make_is_not_called_out_of_turn() -> None:
    (fault,) = outcome_of("title: x\n\n{1. e4} {e5} {2. Nf6}\n").faults
    assert "Legal knight moves" in fault.message


@pytest.mark.parametrize("stamp", ["[0:20]", "[0:20.000]", "[0:20.500]"])
def test_a_stamp_that_goes_back_is_pointed_at_alone(stamp: str) -> None:
    (fault,) = outcome_of(f"title: x\n\n[0:30] One.\n\n{stamp} Two, and more.\n").faults
    assert (fault.line, fault.column) == (5, 1)
    assert fault.fix == "[0:31]"
    assert fault.width == len(stamp)


@pytest.mark.parametrize("value", ["d3, e3", "d3 or e3", "d3 and e3", "d3, or e3"])
def test_squares_may_be_parted_by_a_word(value: str) -> None:
    source = f"title: x\n\nquestion: Where to?\n  ask: square\n  answer: {value}\n"
    outcome = outcome_of(source)
    assert outcome.faults == ()


def test_an_empty_aside_shows_the_line_under_it_indented() -> None:
    (fault, *_) = outcome_of("title: x\n\n{e4}\n\naside: Or so\n{c5} is met too.\n").faults
    assert fault.fix == "aside: Or so\n      {c5} is met too."


def test_a_key_under_a_key_with_a_capital_is_in_no_sentence() -> None:
    outcome = outcome_of("title: x\n\n{e4}.\n\nShow: e4\nclaim: Black has the move\n")
    assert outcome.faults == ()
    assert [one.code for one in outcome.queries] == ["capital-key"]


@pytest.mark.parametrize(
    ("deed", "here", "code"), [("Sf3", "Nf3", "de"), ("1. Sc3!", "Nc3", "de"), ("Cf3", "Nf3", "es|fr")]
)
def test_letters_of_another_language_are_told_in_the_lessons_own(deed: str, here: str, code: str) -> None:
    (fault,) = outcome_of(f"title: x\n\nNow {{{deed}}} comes.\n").faults
    assert fault.fix == f"{{{here}}}"
    assert any(f"language: {one} " in fault.message for one in code.split("|"))


@pytest.mark.parametrize("text", ["Which one, and why: think?", "What would Otto answer: this?", "Ask: who?"])
def test_words_that_only_look_like_keys_may_be_asked(text: str) -> None:
    assert outcome_of(f"title: x\n\n{{e4}}\n\nquestion: {text}\n\n{{e5}}.\n").faults == ()


def test_keys_with_a_capital_are_meant_in_the_header_and_in_a_question() -> None:
    source = (
        "# mine\nTitle: The Lamp\n\nCoach: Marta\nGood evening. {e4}\n\n"
        "question: What now?\n  Reply d5: Too soon.\n  Nudge: It hits d4.\n\n{e5}.\n"
    )
    outcome = outcome_of(source)
    assert outcome.queries == ()
    assert [(one.code, one.fix) for one in outcome.faults] == [
        ("capital-key", "title: The Lamp"),
        ("capital-key", "coach: Marta"),
        ("capital-key", "reply d5: Too soon."),
        ("capital-key", "nudge: It hits d4."),
    ]


def test_a_key_with_a_capital_may_be_speech_once_something_is_told() -> None:
    outcome = outcome_of("title: x\n\nGood evening.\n\nTitle: that is what I never had.\n")
    assert outcome.faults == ()


@pytest.mark.parametrize(
    ("line", "fix"),
    [
        ("Aside : if d4\n  {e5}.", "aside: if d4"),
        ("claim = Black has the move", "claim: Black has the move"),
        ("claim - Black has the move", "claim: Black has the move"),
    ],
)
def test_the_line_that_is_shown_is_right(line: str, fix: str) -> None:
    outcome = outcome_of(f"title: x\n\n{{e4}}\n\n{line}\n")
    assert (*outcome.faults, *outcome.queries)[0].fix == fix


def test_letters_that_are_no_language_s_stay_unknown() -> None:
    (fault,) = outcome_of("title: x\n\nNow {Zf3} comes.\n").faults
    assert "language:" not in fault.message


def test_words_that_mean_two_moves_are_pointed_at_whole() -> None:
    source = "title: x\n\n{g3 g6 Bg2 Bg7 Nf3 Nf6 O-O d6 d3} Now {both sides castle}.\n"
    (fault,) = outcome_of(source).faults
    assert source.splitlines()[2][fault.column - 1 :][: fault.width] == "{both sides castle}"


@pytest.mark.parametrize(
    ("deed", "said"),
    [
        ("knight takes on e5 check", "Nxe5 does not give check."),
        ("knight takes e5 with check: out it goes", "Nxe5 does not give check."),
        ("Nxe5 mate", "Nxe5 is not mate."),
        ("the knight takes on e5, checkmate", "Nxe5 is not mate."),
    ],
)
def test_a_check_named_in_the_move_itself_must_be_given(deed: str, said: str) -> None:
    (fault,) = outcome_of(f"title: x\n\n{{Nf3}} {{e5}} {{{deed}}}\n").faults
    assert (fault.code, fault.message, fault.fix) == ("no-check", said, "{Nxe5}")


@pytest.mark.parametrize("deed", ["queen h5 mate", "Qh5 check", "queen to h5, checkmate", "Qh5#", "queen h5"])
def test_a_check_that_is_given_may_be_named(deed: str) -> None:
    assert outcome_of(f"title: x\n\n{{e4 f6 d4 g5}} {{{deed}}}\n").faults == ()


def test_a_check_is_named_in_the_language_of_the_lesson() -> None:
    source = "title: x\nlanguage: de\n\n{Sf3} {e5} {Springer schlägt e5 Schach}\n"
    (fault,) = outcome_of(source).faults
    assert (fault.code, fault.fix) == ("no-check", "{Sxe5}")


@pytest.mark.parametrize("wrong", ["{Sc3#}", "{Sc3: der Läufer zieht}", "{5. Sc3}", "{Springer e4}"])
def test_what_is_shown_has_the_letters_of_the_lesson(wrong: str) -> None:
    opened = "title: x\nlanguage: de\n\n{Sf3 d5 Sd4 a6 Sb3 a5 Sc5 h6 Sd3 h5 Sc5 a4 d3 g6 Sd2 f6}\n\n"
    opened = opened if "Springer" in wrong else "title: x\nlanguage: de\n\n"
    faulty = outcome_of(f"{opened}{wrong}\n")
    (shown,) = (*faulty.faults, *faulty.queries)
    mended = outcome_of(f"{opened}{shown.fix}\n")
    assert (mended.faults, mended.queries) == ((), ())


def test_an_answer_is_named_in_the_letters_of_the_lesson() -> None:
    source = "title: x\nlanguage: de\n\nquestion: Was nun?\n  answer: e4\n\n{Sf3}.\n"
    (fault,) = outcome_of(source).faults
    assert "The move told next is Sf3." in fault.message


@pytest.mark.parametrize(
    ("value", "fix"),
    [
        ("Bg2-d5", "show: g2-d5"),
        ("arrow g2 d5", "show: g2-d5"),
        ("the knight on F6", "show: f6"),
        ("e4 e5 & d4", "show: e4, e5, d4"),
        ("from a1 & h7", "show: a1, h7"),
        ("the plan", "show: g2-b7 as line"),
    ],
)
def test_what_cannot_be_shown_gives_its_squares_as_they_can(value: str, fix: str) -> None:
    (fault,) = outcome_of(f"title: x\n\n{{e4}}\n\nshow: {value}\n").faults
    assert (fault.code, fault.fix) == ("bad-show", fix)
    assert outcome_of(f"title: x\n\n{{e4}}\n\n{fix}\n").faults == ()


@pytest.mark.parametrize(
    ("kind", "meant"),
    [
        ("squares", "square"),
        ("number", "count"),
        ("How many?", "count"),
        ("multiple choice", "choice"),
        ("free text", "words"),
        ("a word", "words"),
        ("nonsense", "square"),
    ],
)
def test_a_kind_of_question_that_is_none_gets_the_nearest(kind: str, meant: str) -> None:
    faults = outcome_of(f"title: x\n\n{{e4}}\n\nquestion: So?\n  ask: {kind}\n\n{{e5}}.\n").faults
    assert [one.fix for one in faults if one.code == "bad-ask"] == [f"ask: {meant}"]


@pytest.mark.parametrize(
    ("change", "fix"),
    [
        ("without the knight on f6", "imagine: remove f6"),
        ("take away the pawn d5", "imagine: remove d5"),
        ("no f6 knight", "imagine: remove f6"),
    ],
)
def test_a_man_thought_away_is_shown_as_removed(change: str, fix: str) -> None:
    opened = "title: x\n\n{Nf3 d5 g3 Nf6 Bg2 e6}.\n\n"
    (fault,) = outcome_of(f"{opened}imagine: {change}\n  Now look.\n").faults
    assert fault.fix == fix
    assert outcome_of(f"{opened}{fix}\n  Now look.\n").faults == ()
