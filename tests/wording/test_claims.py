"""Claims as sentences: every form, its free words, and what is no claim."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import player
from player.facts.prove import KINDS
from player.wording.claim_forms import EXAMPLES, FORMS
from player.wording.claims import claim_of, nearest_forms
from tests.wording.claim_wordings import WORDED

PAGE = Path(player.__file__).parent / "help" / "claims.md"


@pytest.mark.parametrize("sentence", EXAMPLES)
def test_articles_is_and_case_are_free(sentence: str) -> None:
    claim = claim_of(sentence)
    assert claim is not None
    assert claim.kind in KINDS
    bare = " ".join(word for word in sentence.split() if word not in ("the", "a", "an", "is", "are"))
    assert claim_of(bare) == claim
    assert claim_of(f"  {sentence[0].upper()}{sentence[1:]}. ".replace(" ", "  ")) == claim
    shouted = claim_of(sentence.upper())
    assert shouted is not None
    assert shouted.kind == claim.kind


def test_every_form_is_told_by_its_example() -> None:
    for form in FORMS:
        assert claim_of(form.example) is not None
    assert {claim.kind for claim in map(claim_of, EXAMPLES) if claim} == set(KINDS)


def test_the_page_has_every_form_and_only_sentences_that_are_understood() -> None:
    page = PAGE.read_text(encoding="utf-8")
    rows = re.findall(r"^\| (?!sentence|-)(.+?) \|", page, re.MULTILINE)
    said = rows + re.findall(r"^- `(.+?)`:", page, re.MULTILINE)
    for sentence in said:
        assert claim_of(sentence) is not None, sentence
    assert set(EXAMPLES) <= set(said)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("White attacks e4 two times", "white attacks e4 2 times"),
        ("White attacks e4 twice", "White attacks e4 2 times"),
        ("White attacks e4 one time", "White attacks e4 once"),
        ("White is a pawn up", "White is up a pawn"),
        ("White is down a pawn", "Black is up a pawn"),
        ("Black is up two pawns", "Black is up 2 pawns"),
        ("Black is up a piece for a pawn", "Black is up a knight for one pawn"),
        ("the bishops are of opposite colors", "the bishops are of opposite colours"),
        ("g2\N{EN DASH}d5 is open", "g2-d5 is open"),
        ("the e file is open", "the e-file is open"),
        ("the a file is open", "a-file open"),
        ("the e-file is half open for White", "the e-file is half-open for White"),
        ("after 1.e4 e5 2. Nf3, Black has the move", "after e4 e5 Nf3, Black has the move"),
        ("the knight on f3 is unguarded", "the knight on f3 is guarded no times"),
    ],
)
def test_two_ways_of_saying_the_same(one: str, other: str) -> None:
    assert claim_of(one) is not None
    assert claim_of(one) == claim_of(other)


@pytest.mark.parametrize("sentence", WORDED.strip().splitlines())
def test_other_wordings_are_understood(sentence: str) -> None:
    claim = claim_of(sentence)
    assert claim is not None
    assert claim.kind in KINDS
    assert claim_of(f"{sentence}.") == claim


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Black's knight on f6 is defended twice", "the black knight on f6 is guarded 2 times"),
        ("the f6-knight is protected by two men", "the knight on f6 is guarded 2 times"),
        ("e5 is attacked three times by White", "White attacks e5 3 times"),
        ("White is ahead by two pawns", "White is up two pawns"),
        ("White has one extra pawn", "White is up a pawn"),
        ("White is a piece up for two pawns", "White is up a piece for two pawns"),
        ("White is ahead by two pieces for a rook", "White is up two pieces for a rook"),
        ("the material balance is equal", "material is equal"),
        ("White has a half-open e-file", "the e-file is half-open for White"),
        ("White has an outpost on e4", "e4 is an outpost for White"),
        ("there are opposite-colored bishops", "the bishops are of opposite colours"),
        ("White has the two bishops", "White has the bishop pair"),
        ("White can castle short", "White may castle kingside"),
        ("Black can no longer castle", "Black has lost the right to castle"),
        ("Black's rooks are connected", "the rooks of Black are connected"),
        ("it's Black's turn", "Black has the move"),
        ("with best play, White wins", "White wins with best play"),
        ("it is a draw with best play", "the position is drawn"),
        ("it is mate in two", "mate in 2"),
        ("Black's only legal move is Kf8", "Kf8 is Black's only legal move"),
        ("after Nf3 and Nc6: Black to move", "after 1.Nf3 Nc6, it is Black's move"),
        ("if White passes then Bd6 would be legal", "if White passes, Bd6 is legal"),
        (
            "the black king is in the square of the a5-pawn",
            "the black king is inside the square of the pawn on a5",
        ),
    ],
)
def test_more_ways_of_saying_the_same(one: str, other: str) -> None:
    assert claim_of(one) is not None
    assert claim_of(one) == claim_of(other)


@pytest.mark.parametrize(
    "endless",
    [
        "after " + "e4 " * 900 + "what",
        "after " + "e4, " * 900 + "what",
        "after e4, " * 300 + "stalemate",
        "if White passes, " * 200 + "stalemate",
        "it " * 1200 + "is",
        "Nf6 forks " + "e4, " * 900,
        "-" * 3000,
        "White is up " + "a pawn and " * 300 + "x",
        "White has " + "9" * 3000 + " moves",
        "x" * 100_000,
    ],
)
def test_an_endless_sentence_is_no_claim(endless: str) -> None:
    assert claim_of(endless) is None
    assert len(nearest_forms(endless)) <= 3


def test_a_whole_game_may_stand_before_a_claim() -> None:
    moves = "Nf3 Nf6 Ng1 Ng8 " * 100
    claim = claim_of(f"after {moves}, White has the move")
    assert claim is not None
    assert len(claim.line) == 400


@pytest.mark.parametrize(
    "sentence",
    [
        "",
        "White is better",
        "d5 is a good square",
        "the knight on f6 is not pinned",
        "the knight on f9 is pinned",
        "White attacks i4 2 times",
        "White attacks e4 some times",
        "White is up",
        "White is up a wizard",
        "White is up a pawn for a pawn",
        "material is not equal",
        "the knight on d4 is passed",
        "after e4",
        "after e4, White is better",
        "after a while, material is equal",
        "if White passes, White is better",
        "if nobody passes, material is equal",
        "forks c4",
        "threatens",
        "das Material ist gleich",
    ],
)
def test_what_is_no_claim(sentence: str) -> None:
    assert claim_of(sentence) is None
    assert len(nearest_forms(sentence)) <= 3


def test_the_nearest_form_comes_first() -> None:
    assert nearest_forms("material is about equal")[0] == "material is equal"
    assert nearest_forms("the pawn d4 is passed")[0] == "the pawn on d4 is passed"


@pytest.mark.parametrize(
    ("sentence", "nearest"),
    [
        ("the knight on f6 is hanging", "the knight on f6 is undefended"),
        ("the bishop on g2 looks at d5", "the bishop on g2 attacks d5"),
        ("the rook on e1 is eyeing e5", "the rook on e1 attacks e5"),
        ("White is winning", "White wins with best play"),
        ("Black is winning.", "Black wins with best play"),
        ("White is threatening to play e5", "Bg5 threatens Bxf6"),
        ("White has doubled pawns on the c-file", "the pawn on d4 is doubled"),
        ("there is a fork on c7", "Nc7 forks e8 and a8"),
        ("Nxe5 loses a piece", "Nc7 wins the exchange"),
        ("the pawn on d5 is attacked if White plays e4", "after Ng5 Be7, g2-d5 is open"),
        ("White has castled", "White has lost the right to castle"),
        ("two pieces attack d5", "White attacks d5 2 times"),
        ("e4 is protected", "the knight on f6 is guarded 2 times"),
        ("the square d5 is a hole", "d5 is an outpost for White"),
        ("the a-pawn cannot be stopped", "the king is inside the square of the pawn on a4"),
        ("Black's queen is pinned", "the knight on f6 is pinned"),
    ],
)
def test_the_nearest_form_is_about_the_same_thing_and_the_same_men(sentence: str, nearest: str) -> None:
    assert claim_of(sentence) is None
    assert nearest_forms(sentence)[0] == nearest


@given(st.text(max_size=80) | st.sampled_from(EXAMPLES).map("perhaps {} today".format))
def test_the_nearest_forms_are_claims_and_differ(sentence: str) -> None:
    forms = nearest_forms(sentence)
    assert all(claim_of(form) for form in forms)
    assert len(set(forms)) == len(forms) == 3


@pytest.mark.parametrize(
    ("sentence", "same"),
    [
        ("the d-file is open after dxe4", "after dxe4, the d-file is open"),
        ("the d-file is open after e4 dxe4 3. dxe4.", "after e4 dxe4 dxe4, the d-file is open"),
        ("the pawn on d5 is attacked once, after e4", "after e4, the pawn on d5 is attacked 1 time"),
        ("after the moves e4 and dxe4, the d-file is open", "after e4 dxe4, the d-file is open"),
        ("after the move e4, Black has the move", "after e4, Black has the move"),
        ("the knight on c6 can't move", "the knight on c6 has no moves"),
        ("Black can't move", "Black has no legal moves"),
        ("White cannot move", "White has 0 moves"),
        ("the diagonal from g2 to b7 is closed", "g2-b7 is closed"),
    ],
)
def test_cannot_counts_to_none_and_a_diagonal_has_ends(sentence: str, same: str) -> None:
    assert claim_of(sentence) is not None
    assert claim_of(sentence) == claim_of(same)


@given(st.text(max_size=80))
def test_any_text_is_answered(text: str) -> None:
    claim_of(text)
    nearest_forms(text)
    claim_of(f"after {text}, {text}")


@given(st.sampled_from(EXAMPLES), st.sampled_from(EXAMPLES))
def test_prefixes_take_any_claim(first: str, second: str) -> None:
    claim = claim_of(f"if Black passes, {first}")
    assert claim is not None
    assert claim.inner == claim_of(first)
    after = claim_of(f"after e4 e5, {second}")
    assert after is not None
    assert after.line == ("e4", "e5")
