"""The phrases an ear listens for, tried without any sound."""

from __future__ import annotations

import re

import chess
import pytest

from player.wording.hear import Ambiguous, MoveHeard, hear
from player.wording.heard_words import Phrase, choice_phrases, command_phrases, move_phrases
from player.wording.languages import language
from player.wording.say import Depth, Naming, say
from player.wording.spoken_grammar import is_whole, jsgf, meanings_of, shown, words_of
from tests.wording.positions import positions

RANKS = dict(zip("12345678", language("en").ranks, strict=True))


def spoken(words: str) -> str:
    """What a voice says, as a recogniser would write it."""
    words = re.sub(r"\b([a-h])([1-8])\b", r"\1 \2", words.casefold().replace(",", "").replace("-", " "))
    for digit, said in zip(
        "12345678", ["one", "two", "three", "four", "five", "six", "seven", "eight"], strict=True
    ):
        words = words.replace(digit, said)
    return " ".join("ay" if word in ("a", "eigh") else word for word in words.split())


@pytest.mark.parametrize("naming", ["letters", "fide", "alphabet"])
@pytest.mark.parametrize("depth", ["full", "short", "spelled"])
def test_whatever_the_program_says_of_a_move_is_a_phrase_that_means_it(naming: Naming, depth: Depth) -> None:
    for board in positions(12, seed=5):
        phrases = move_phrases(board)
        for move in list(board.legal_moves)[::5]:
            words = spoken(say(board, move, depth=depth, naming=naming).spoken)
            assert move.uci() in meanings_of(phrases, words), (board.fen(), words)


def test_every_phrase_means_the_same_to_the_ear_as_to_the_prompt() -> None:
    for board in positions(6, seed=6):
        for phrase in move_phrases(board)[::3]:
            words = shown(" ".join(slot[0] for slot in phrase.slots if slot[0]))
            heard = hear(board, words)
            moves = [heard.move] if isinstance(heard, MoveHeard) else []
            if isinstance(heard, Ambiguous):
                moves = list(heard.moves)
            assert phrase.meaning in [move.uci() for move in moves], (board.fen(), words)


def test_a_part_of_a_phrase_or_more_than_one_is_no_phrase() -> None:
    phrases = move_phrases(chess.Board())
    assert meanings_of(phrases, "the knight to f three") == ("g1f3",)
    for words in (
        "",
        "knight",
        "knight to f",
        "knight f three four",
        "f three knight",
        "knight f three knight",
    ):
        assert meanings_of(phrases, words) == ()


def test_words_that_fit_two_moves_mean_both() -> None:
    board = chess.Board("4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1")
    both = meanings_of(move_phrases(board), "knight d two")
    assert set(both) == {"b1d2", "f3d2"}
    assert meanings_of(move_phrases(board), "knight b d two") == ("b1d2",)


def test_naming_narrows_what_is_listened_for() -> None:
    fide = move_phrases(chess.Board(), namings=("fide",))
    assert "eva" in words_of(fide)
    assert not {"e", "echo"} & words_of(fide)


def test_the_grammar_has_a_header_one_public_rule_and_plain_tokens() -> None:
    text = jsgf(move_phrases(chess.Board())) or ""
    assert text.startswith("#JSGF V1.0;\ngrammar heard;\npublic <heard> = ")
    assert text.count(";") == 3
    assert '"' not in text
    assert text.count("(") == text.count(")")


def test_a_grammar_without_a_meaning_has_none_of_its_phrases() -> None:
    phrases = [
        Phrase("a", (("one",), ("two",))),
        Phrase("b", (("one",), ("two",))),
        Phrase("c", (("three",),)),
    ]
    assert jsgf(phrases, without=["a"]) == "#JSGF V1.0;\ngrammar heard;\npublic <heard> = three;\n"
    assert jsgf(phrases, without=["a", "c"]) is None


def test_a_likelier_move_weighs_more() -> None:
    phrases = [Phrase("a", (("one",),), 3.0), Phrase("b", (("two",),), 1.0)]
    assert "/0.7500/ one | /0.2500/ two" in (jsgf(phrases) or "")


def test_a_slot_may_be_left_out_and_may_hold_several_words() -> None:
    slots = (("the", ""), ("go to", "to"), ("end",))
    assert is_whole(slots, ["the", "go", "to", "end"])
    assert is_whole(slots, ["to", "end"])
    assert not is_whole(slots, ["the", "go", "end"])


def test_one_word_settles_a_doubt_where_only_one_move_has_it() -> None:
    board = chess.Board("4k3/8/8/8/8/8/8/R3K2R w - - 0 1")
    phrases = choice_phrases(board, "a1b1", "h1g1")
    assert meanings_of(phrases, "bella") == ("a1b1",)
    assert meanings_of(phrases, "gustav one") == ("h1g1",)
    assert meanings_of(phrases, "the first one") == ("a1b1",)
    assert meanings_of(phrases, "neither") == ("no",)
    assert meanings_of(phrases, "rook") == ()


def test_commands_are_their_own_words() -> None:
    phrases = command_phrases({"hold": ("hold", "wait"), "speed": ("1.25",)})
    assert meanings_of(phrases, "wait") == ("hold",)
    assert {phrase.meaning for phrase in phrases} == {"hold"}
