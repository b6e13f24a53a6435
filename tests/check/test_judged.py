"""Judgements are counted, and never doubted."""

from __future__ import annotations

from player.check.judged import in_words, judgements


def test_sentences_that_judge_are_counted_once_each() -> None:
    source = "title: A Better Way\n\nWhite is better, and it is easier to play. {Nf3}. A solid move.\n"
    assert judgements(source) == 2
    assert judgements("The knight stands on f3.\n") == 0


def test_the_number_is_said_in_a_sentence() -> None:
    assert in_words(0) == ""
    assert in_words(1) == "1 sentence is a judgement: the coach's word."
    assert in_words(3) == "3 sentences are judgements: the coach's word."
