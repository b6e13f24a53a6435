"""Moves told outside braces are queries, and mere mentions of moves and squares are not."""

from __future__ import annotations

import pytest

from tests.script.corpora import outcome_of


def queries(words: str) -> list[str]:
    said = outcome_of(f"title: x\n\n{{Nf3}} {{d5}}.\n\n{words}\n")
    assert said.faults == ()
    return [query.message.split(" is legal")[0] for query in said.queries]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("White plays g3.", ["g3"]),
        ("Now comes Nc3.", ["Nc3"]),
        ("And 2. g3 it is.", ["g3"]),
        ("Here Rg1, and the door stays open.", ["Rg1"]),
        ("The knight goes to e5, a long way.", ["The knight goes to e5"]),
        ("White answers with g3 at once.", ["g3"]),
    ],
)
def test_told_outside_a_brace(words: str, told: list[str]) -> None:
    assert queries(words) == told


@pytest.mark.parametrize(
    "words",
    [
        "The pawn on e4 would be strong.",
        "It backs e4 and leaves c3 free.",
        "If Nc3, the pawn is blocked.",
        "White could play Nc3 here.",
        "Why not Nc3?",
        "Black plays Nf6 next.",
        "Black plays Nf6.",
        "After Nc3 the knight blocks the pawn.",
        "The idea is Nc3.",
        "{Nc3} and so Nc3 has been played.",
        "We want g3, and so {g3: it is}.",
        "White castles tomorrow.",
    ],
)
def test_only_mentioned(words: str) -> None:
    assert queries(words) == []


def test_nothing_is_asked_in_a_language_whose_words_are_not_known() -> None:
    said = outcome_of("title: x\nlanguage: de\n\n{e4} {e5}.\n\nNun kommt Nc3.\n")
    assert said.queries == ()
