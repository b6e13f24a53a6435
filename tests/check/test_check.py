"""The checker, through its doors: claims, `fine:`, ideas, and a series as a whole."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from player.script.faults import Fault
from tests.check.checking import faults_in, faults_of

HEAD = "script: 1\ntitle: A walk\ncoach: Ines\nside: white\n\n"
Checked = Callable[[str], list[Fault]]


@pytest.fixture
def found(tmp_path: Path) -> Checked:
    def of(body: str) -> list[Fault]:
        path = tmp_path / "walk.lesson"
        path.write_text(HEAD + body, encoding="utf-8")
        return list(faults_in(path))

    return of


def codes(faults: list[Fault]) -> list[tuple[str, str]]:
    return [(fault.severity, fault.code) for fault in faults]


def test_a_clean_script_has_nothing(found: Checked) -> None:
    assert found("White begins {Nf3} and {d5} comes.\nclaim: the knight on f3 is guarded 2 times\n") == []


def test_a_name_that_a_voice_must_guess_is_named_once_where_it_first_stands(found: Checked) -> None:
    (fault,) = found("Old Wrzesniewska begins {Nf3}. Wrzesniewska smiles.\n")
    assert (fault.severity, fault.code) == ("query", "word-guessed")
    assert (fault.line, fault.column, fault.width) == (6, 5, len("Wrzesniewska"))
    assert found("Old Wrzesniewska begins {Nf3}.\nfine: Wrzesniewska\n") == []


def test_a_name_with_a_pronunciation_is_not_guessed(tmp_path: Path) -> None:
    path = tmp_path / "walk.lesson"
    said = HEAD.rstrip("\n") + "\npronounce Wrzesniewska: vjesh-NEF-ska\n\n"
    path.write_text(said + "Old Wrzesniewska begins {Nf3}.\n", encoding="utf-8")
    assert faults_in(path) == ()


def test_a_false_claim_is_a_fault_that_names_the_man(found: Checked) -> None:
    (fault,) = found("White begins {Nf3}.\nclaim: the knight on f3 is undefended\n")
    assert (fault.severity, fault.code) == ("fault", "claim-false")
    assert "the pawn on e2" in fault.message
    assert (fault.line, fault.column, fault.width) == (7, 8, len("the knight on f3 is undefended"))


def test_a_false_claim_is_a_fault_that_names_the_move(found: Checked) -> None:
    board = "board: White Kg5 Rc1; Black Kg8 pa7; White to move\n\n"
    (fault,) = found(board + "{Rc8}.\nclaim: Rc8 is mate\n")
    assert fault.severity == "fault"
    assert "After Rc8+ there is K" in fault.message


def test_an_unproved_claim_is_a_query_never_a_pass(found: Checked) -> None:
    faults = found("White begins {Nf3}.\nclaim: the position is drawn\n")
    assert codes(faults) == [("query", "claim-unproved")]


def test_a_claim_in_no_known_form_shows_the_nearest(found: Checked) -> None:
    (fault,) = found("White begins {Nf3}.\nclaim: material is nearly equal\n")
    assert (fault.severity, fault.code) == ("fault", "claim-unknown")
    assert "material is equal" in fault.message
    assert fault.fix == "claim: material is equal"


def test_a_judgement_is_sent_back_to_the_coach_s_own_words(found: Checked) -> None:
    (fault,) = found("White begins {Nf3}.\nclaim: White is better\n")
    assert (fault.severity, fault.code, fault.fix) == ("fault", "claim-unknown", "")
    assert fault.message.startswith("This is a judgement, which no board can prove.")


def test_a_longer_mate_than_need_be_is_a_query(found: Checked) -> None:
    board = "board: White Kg6 Rc1; Black Kg8 pa7; White to move\n"
    assert found(board + "claim: mate in 1\n") == []
    (query,) = found(board + "claim: mate in 2\n")
    assert (query.severity, query.code) == ("query", "claim-less")
    assert "Rc8#" in query.message


def test_a_claim_in_an_aside_sees_the_board_of_the_aside(found: Checked) -> None:
    body = "{Nf3} {d5}.\n\naside: once\n  {g3} {Nf6}.\n  claim: f1-h3 is open\n\nclaim: f1-h3 is open\n"
    assert [(fault.code, fault.line) for fault in found(body)] == [("claim-false", 12)]


def test_the_move_just_told_may_be_named_or_meant(found: Checked) -> None:
    board = "board: White Kg1 Nd5; Black Ke8 Ra8; White to move\n\n{Nc7}.\n"
    assert found(board + "claim: Nc7 forks e8 and a8\nclaim: forks e8 and a8\nclaim: Nc7+ is check\n") == []


def test_a_mark_may_be_named(found: Checked) -> None:
    body = "{Nf3} {Nf6}.\nmark: The Dance\n\n{Ng1} {Ng8} {Nf3} {Nf6}.\n"
    assert found(body + "claim: the position is the same as the dance\nclaim: it is a repetition\n") == []
    (fault,) = found(body + "claim: the position is the same as the waltz\n")
    assert fault.code == "claim-unknown"


def test_fine_waves_off_a_doubt_about_these_words(found: Checked) -> None:
    body = "White plays g3 one day. First {Nf3}.\n"
    assert len(found(body)) == 1
    assert found(body + "fine: g3\n") == []


def test_fine_waves_off_a_doubt_about_a_claim(found: Checked) -> None:
    body = "First {Nf3}.\nclaim: the position is drawn\n"
    assert found(body + "fine: the position is drawn\n") == []
    assert codes(found(body + "fine: White wins\n")) == [
        ("query", "claim-unproved"),
        ("query", "fine-without-doubt"),
    ]


def test_fine_waves_off_no_fault(found: Checked) -> None:
    body = "First {Nf3}.\nclaim: the e-file is open\nfine: the e-file is open\n"
    assert ("fault", "claim-false") in codes(found(body))


def test_fine_looks_no_further_than_the_beat_above(found: Checked) -> None:
    body = "White plays g3 one day. First {Nf3}.\n\nA quiet word.\nfine: g3\n"
    assert codes(found(body)) == [("query", "move-outside"), ("query", "fine-without-doubt")]


def test_fine_that_waves_off_nothing_is_a_query(found: Checked) -> None:
    assert codes(found("White begins {Nf3}.\nfine: the knight\n")) == [("query", "fine-without-doubt")]


QUESTION = "question: Which?\n  about: the door\n\n{Nf3}.\n"


def test_an_idea_nobody_told_is_a_query(found: Checked, tmp_path: Path) -> None:
    (query,) = found(QUESTION)
    assert (query.severity, query.code, query.line) == ("query", "about-unknown", 7)
    assert faults_of(HEAD + QUESTION, ["The Door"]) == ()
    assert found("idea the door: It opens.\n\n" + QUESTION) == []


def test_an_idea_told_earlier_in_the_series_is_known(tmp_path: Path) -> None:
    first, second = tmp_path / "1.lesson", tmp_path / "2.lesson"
    head = "title: T\nseries: Doors, {} of 2\n\n"
    first.write_text(head.format(1) + "{e4}.\n\nidea the door: It opens.\n", encoding="utf-8")
    second.write_text(head.format(2) + QUESTION, encoding="utf-8")
    assert faults_in(first) == faults_in(second) == ()
    first.unlink()
    assert [fault.code for fault in faults_in(second)] == ["about-unknown"]
