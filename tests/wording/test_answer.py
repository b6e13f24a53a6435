"""The one-word answer to a question between several moves."""

from __future__ import annotations

import chess
import pytest

from player.wording.answer import resolve
from player.wording.hear import Ambiguous, hear
from player.wording.languages import codes, language
from tests.wording.positions import positions


def _asked(fen: str, said: str) -> tuple[chess.Board, Ambiguous]:
    board = chess.Board(fen)
    heard = hear(board, said)
    assert isinstance(heard, Ambiguous)
    return board, heard


TWO_KNIGHTS = ("4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1", "Nd2")
BOTH_WINGS = ("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "castle")
B_OR_B = ("4k3/8/8/8/8/2n5/1P1B4/4K3 w - - 0 1", "bxc3")
PROMOTING = ("8/3P4/8/8/8/8/k7/2K5 w - - 0 1", "d8")
RANKS = ("6k1/8/8/R7/8/8/8/R5K1 w - - 0 1", "Ra3")
STEPS = (chess.STARTING_FEN, "push the e-pawn")
VICTIMS = ("4k3/8/8/2n1b3/3P4/8/8/4K2R w K - 0 1", "pawn takes")


@pytest.mark.parametrize(
    ("question", "said", "san"),
    [
        (TWO_KNIGHTS, "b", "Nbd2"),
        (TWO_KNIGHTS, "B", "Nbd2"),
        (TWO_KNIGHTS, "the b one", "Nbd2"),
        (TWO_KNIGHTS, "bella", "Nbd2"),
        (TWO_KNIGHTS, "bee", "Nbd2"),
        (TWO_KNIGHTS, "f", "Nfd2"),
        (TWO_KNIGHTS, "foxtrot", "Nfd2"),
        (TWO_KNIGHTS, "the knight on f3", "Nfd2"),
        (TWO_KNIGHTS, "from f3", "Nfd2"),
        (TWO_KNIGHTS, "f3", "Nfd2"),
        (TWO_KNIGHTS, "Nfd2", "Nfd2"),
        (TWO_KNIGHTS, "knight f d2", "Nfd2"),
        (TWO_KNIGHTS, "first rank", "Nbd2"),
        (TWO_KNIGHTS, "the f-knight", "Nfd2"),
        (TWO_KNIGHTS, "knight", None),
        (TWO_KNIGHTS, "c", None),
        (TWO_KNIGHTS, "", None),
        (TWO_KNIGHTS, "banana", None),
        (TWO_KNIGHTS, "f4", None),
        (TWO_KNIGHTS, "b or f", None),
        (TWO_KNIGHTS, "not b", None),
        (BOTH_WINGS, "kingside", "O-O"),
        (BOTH_WINGS, "short", "O-O"),
        (BOTH_WINGS, "king side", "O-O"),
        (BOTH_WINGS, "long", "O-O-O"),
        (BOTH_WINGS, "queenside, please", "O-O-O"),
        (BOTH_WINGS, "0-0-0", "O-O-O"),
        (B_OR_B, "bishop", "Bxc3"),
        (B_OR_B, "the pawn", "bxc3"),
        (B_OR_B, "b2", "bxc3"),
        (B_OR_B, "bihsop", "Bxc3"),
        (PROMOTING, "queen", "d8=Q"),
        (PROMOTING, "a knight", "d8=N"),
        (PROMOTING, "Q", "d8=Q"),
        (PROMOTING, "n", "d8=N"),
        (PROMOTING, "to a rook", "d8=R"),
        (PROMOTING, "king", None),
        (RANKS, "one", "R1a3"),
        (RANKS, "5", "R5a3"),
        (RANKS, "a5", "R5a3"),
        (STEPS, "e4", "e4"),
        (STEPS, "e three", "e3"),
        (STEPS, "four", "e4"),
        (VICTIMS, "c5", "dxc5"),
        (VICTIMS, "the knight", "dxc5"),
        (VICTIMS, "bishop", "dxe5"),
        (VICTIMS, "e", "dxe5"),
    ],
)
def test_one_word_picks_one_move(question: tuple[str, str], said: str, san: str | None) -> None:
    board, heard = _asked(*question)
    move = resolve(heard.moves, board, said)
    assert (None if move is None else board.san(move)) == san


@pytest.mark.parametrize("code", codes())
def test_each_word_of_a_question_answers_it(code: str) -> None:
    """The words are parallel to the moves, in every language, over many questions."""
    met = 0
    words = language(code)
    for board in positions(30, seed=13):
        for said in (*(words.pieces[kind] for kind in chess.PIECE_TYPES), *chess.SQUARE_NAMES):
            asking = f"{words.groups['take'][0]} {said}"
            heard = hear(board, asking, language=code)
            if isinstance(heard, Ambiguous):
                met += 1
                for move, word in zip(heard.moves, heard.words, strict=True):
                    assert resolve(heard.moves, board, word, language=code) == move, (
                        board.fen(),
                        asking,
                        word,
                    )
    assert met > 20


def test_with_nothing_to_choose_from_there_is_no_answer() -> None:
    assert resolve((), chess.Board(), "b") is None
