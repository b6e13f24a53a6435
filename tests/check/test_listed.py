"""A number of good replies said in prose, and the replies that the script tells there."""

from __future__ import annotations

import pytest

from player.check.looked import look

BODY = """\
title: T
coach: Ines

{Nf3}. %s

aside: With the c-pawn
  {c5}.

aside: The Dutch
  {f5}.

{d5} {g3}.
"""


def doubts(sentence: str) -> list[str]:
    found = look(BODY % sentence, (), 1000, None).faults
    assert not [fault for fault in found if fault.severity == "fault"]
    return [fault.message for fault in found if fault.code == "replies-not-listed"]


@pytest.mark.parametrize(
    "sentence", ["Black has three reasonable replies.", "Here Black has 3 good answers."]
)
def test_as_many_as_are_told(sentence: str) -> None:
    assert doubts(sentence) == []


@pytest.mark.parametrize("sentence", ["Black has five reasonable replies.", "Now Black has two sound moves."])
def test_more_or_fewer(sentence: str) -> None:
    (message,) = doubts(sentence)
    assert "3 (c5, f5, d5)" in message


@pytest.mark.parametrize(
    "sentence",
    ["Black has five pawns there.", "White has five reasonable replies.", "Black has many good moves."],
)
def test_other_words_are_left_alone(sentence: str) -> None:
    assert doubts(sentence) == []
