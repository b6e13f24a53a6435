"""What an answer comes to: files of answers, every form of every legal move, and what must never be heard."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.wording.hear import Ambiguous, Illegal, MoveHeard, NotAMove, hear
from player.wording.languages import codes, language
from player.wording.san import in_letters
from tests.wording.answer_file import answers, came_to, misread, right
from tests.wording.forms import loose, notations, slips, words
from tests.wording.positions import positions

VERBS = ("look", "examine", "where", "repeat", "again", "go on", "pause", "undo", "what if", "nudge", "quit")


@pytest.mark.parametrize("name", ["tuned.txt", "held_out.txt", "fresh.txt", "other_languages.txt"])
def test_the_files_of_answers(name: str) -> None:
    lines = list(answers(name))
    wrong, silent = [], []
    for answer in lines:
        board = answer.board()
        heard = hear(board, answer.said, language=answer.language)
        if misread(board, answer.expected, heard):
            silent.append((answer.line, answer.said, came_to(board, heard)))
        elif not right(board, answer.expected, heard):
            wrong.append((answer.line, answer.said, answer.expected, came_to(board, heard)))
    assert not silent
    assert len(wrong) <= 0.03 * len(lines), wrong


def test_there_are_a_thousand_answers_and_their_moves_are_legal() -> None:
    lines = [answer for name in ("tuned.txt", "held_out.txt", "fresh.txt") for answer in answers(name)]
    assert len(lines) >= 1000
    for answer in lines:
        board = answer.board()
        expected = answer.expected
        for san in expected[2:].split() if expected.startswith("?") else [expected]:
            if not san.startswith(("!", "-")):
                assert board.san(board.parse_san(san)) == san, (answer.line, san)


def _every_form(number: int, seed: int) -> None:
    for board in positions(number, seed):
        for move in board.legal_moves:
            for form in (*notations(board, move), *words(board, move)):
                assert hear(board, form) == MoveHeard(move), (board.fen(), form)
            for form in loose(board, move):
                heard = hear(board, form)
                asked = isinstance(heard, Ambiguous) and move in heard.moves
                assert asked or heard == MoveHeard(move), (board.fen(), form)
            for form in slips(board.san(move)):
                assert hear(board, form) != MoveHeard(move), (board.fen(), form)


def test_every_form_of_every_move_is_that_move_and_a_wrong_square_is_not() -> None:
    _every_form(4, seed=3)


@pytest.mark.large
def test_every_form_of_every_move_in_many_positions() -> None:
    _every_form(200, seed=4)


@given(st.integers(0, 10_000), st.text(max_size=30))
def test_any_text_at_all_is_answered(seed: int, text: str) -> None:
    board = chess.Board() if seed % 2 else chess.Board("8/8/8/8/8/8/8/8 w - - 0 1")
    heard = hear(board, text)
    if isinstance(heard, MoveHeard):
        assert board.is_legal(heard.move)


WORDS = """
knight bishop pawn rook a b c3 d4 e5 f takes to from on with castle long queen or no not x 4 two
the promote recapture push check B N 0-0 e.p. =Q then and white black is put un
"""


@given(st.lists(st.sampled_from(WORDS.split()), max_size=7))
def test_words_in_any_order_give_a_legal_move_a_question_or_a_sentence(said: list[str]) -> None:
    board = chess.Board("r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1")
    match hear(board, " ".join(said)):
        case MoveHeard(move):
            assert board.is_legal(move)
        case Ambiguous(moves=moves, question=question, words=one_word):
            assert len(set(moves)) == len(moves) == len(one_word) == len(set(one_word)) >= 2
            assert all(
                board.is_legal(move) and " " not in word for move, word in zip(moves, one_word, strict=True)
            )
            assert question.endswith("?")
        case Illegal(sentence=sentence) | NotAMove(sentence=sentence):
            assert sentence.endswith((".", "?"))


def test_a_small_b_is_asked_about_at_a_prompt_and_exact_in_a_script() -> None:
    board = chess.Board("4k3/8/8/8/8/2n5/1P1B4/4K3 w - - 0 1")
    assert isinstance(hear(board, "bxc3"), Ambiguous)
    assert hear(board, "bxc3", script=True) == MoveHeard(chess.Move.from_uci("b2c3"))
    assert hear(board, "Bxc3", script=True) == MoveHeard(chess.Move.from_uci("d2c3"))
    assert isinstance(hear(board, "b takes c3", script=True), Ambiguous)


def test_a_promotion_without_its_piece_is_asked_about_at_a_prompt_and_refused_in_a_script() -> None:
    board = chess.Board("8/3P4/8/8/8/8/k7/2K5 w - - 0 1")
    heard = hear(board, "d8")
    assert isinstance(heard, Ambiguous)
    assert heard.question == "Promote to what: queen, rook, bishop or knight?"
    refused = hear(board, "d8", script=True)
    assert isinstance(refused, Illegal) and refused.reason == "must-promote"


@pytest.mark.parametrize(
    ("fen", "said", "question", "one_word"),
    [
        ("4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1", "Nd2", "Which knight: b or f?", ("b", "f")),
        ("6k1/8/8/R7/8/8/8/R5K1 w - - 0 1", "Ra3", "Which rook: 1 or 5?", ("1", "5")),
        ("4k3/8/8/8/8/2n5/1P1B4/4K3 w - - 0 1", "take", "Which man: bishop or pawn?", ("bishop", "pawn")),
        ("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "castle", "Castle on which side: kingside or queenside?",
         ("kingside", "queenside")),
        (chess.STARTING_FEN, "push the e-pawn", "Where to: e3 or e4?", ("e3", "e4")),
        ("8/8/k7/8/8/1Q3Q2/8/KQ6 w - - 0 1", "Qd1", "Which queen: b1, b3 or f3?", ("b1", "b3", "f3")),
    ],
)  # fmt: skip
def test_the_question_names_what_tells_the_men_apart(
    fen: str, said: str, question: str, one_word: tuple[str, ...]
) -> None:
    heard = hear(chess.Board(fen), said)
    assert isinstance(heard, Ambiguous)
    assert sorted(heard.words) == sorted(one_word)
    assert sorted(heard.question.replace("?", "").replace(",", "").split()) == sorted(
        question.replace("?", "").replace(",", "").split()
    )


@pytest.mark.parametrize(
    ("said", "near"),
    [("examin f3",
    "examine"), ("lok", "look"), ("reapeat", "repeat"), ("whatif", "what if"), ("ndge", "nudge"),
     ("zzzzzz", None), ("", None)],
)  # fmt: skip
def test_what_is_no_move_is_said_to_be_none_with_the_nearest_verb(said: str, near: str | None) -> None:
    heard = hear(chess.Board(), said, verbs=VERBS)
    assert isinstance(heard, NotAMove)
    assert heard.near == near


def test_what_was_understood_and_what_was_not_is_told() -> None:
    heard = hear(chess.Board(), "schwupps f3")
    assert isinstance(heard, NotAMove)
    assert "f3" in heard.sentence and "schwupps" in heard.sentence


def test_without_a_history_there_is_nothing_to_take_back() -> None:
    board = chess.Board()
    for san in ("e4", "d5", "exd5"):
        board.push_san(san)
    assert hear(board, "recapture") == MoveHeard(chess.Move.from_uci("d8d5"))
    heard = hear(chess.Board(board.fen()), "recapture")
    assert isinstance(heard, Illegal) and heard.reason == "no-capture-there"


@pytest.mark.parametrize("code", codes())
def test_the_piece_letters_of_a_language_are_the_ones_heard(code: str) -> None:
    spoken = language(code)
    for board in positions(6, seed=11):
        for move in board.legal_moves:
            shown = in_letters(board.san(move), spoken)
            assert hear(board, shown, language=code, script=True) == MoveHeard(move), (
                code,
                board.fen(),
                shown,
            )


def test_a_language_without_a_file_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="de, en, es, fr"):
        hear(chess.Board(), "e4", language="tlh")


def test_letters_of_another_language_are_no_pieces() -> None:
    assert isinstance(hear(chess.Board(), "Nf3", language="de"), NotAMove)
    assert hear(chess.Board(), "Sf3", language="de") == MoveHeard(chess.Move.from_uci("g1f3"))
    assert isinstance(hear(chess.Board(), "Sf3"), NotAMove)


def test_a_text_of_any_length_is_answered_at_once() -> None:
    for text in ("knight " * 5000, "a" * 50_000, "b takes " * 39, "-".join("abc" * 500)):
        assert isinstance(hear(chess.Board(), text), NotAMove)


def test_coordinates_win_over_a_rank_that_is_not_needed() -> None:
    board = chess.Board("K7/P7/3n3r/8/4p3/1b5b/p2k2pR/1r6 b - - 0 1")
    assert hear(board, "b3e6") == MoveHeard(chess.Move.from_uci("b3e6"))


@pytest.mark.parametrize(("said", "san"), [("Nf3 or so", "Nf3"), ("maybe e4, or so", "e4")])
def test_or_so_is_no_other_move(said: str, san: str) -> None:
    heard = hear(chess.Board(), said)
    assert isinstance(heard, MoveHeard) and chess.Board().san(heard.move) == san


def test_a_word_alone_is_not_a_row_of_moves() -> None:
    for said in ("ten", "then"):
        heard = hear(chess.Board(), said)
        assert isinstance(heard, NotAMove) and "One move at a time" not in heard.sentence


def test_a_long_answer_is_not_said_back_whole() -> None:
    heard = hear(chess.Board(), "x" * 5000)
    assert isinstance(heard, NotAMove)
    assert len(heard.sentence) < 120
