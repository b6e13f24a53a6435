"""A reply to every move: about that move, in this position, short, and never from a form."""

from __future__ import annotations

import random
import re
from pathlib import Path

import chess
import pytest

from player.facts.place import Place
from player.wording.replies import replies, reply
from tests.script.corpora import outcome_of

_CORPUS = Path(__file__).parents[1] / "corpus" / "middlegames.txt"
_ROWS = [
    (Place(fen), uci)
    for fen, uci in (
        line.rsplit(" ", 1) for line in _CORPUS.read_text("utf-8").splitlines() if not line.startswith("#")
    )
]
_MAN = re.compile(r"\b(pawn|knight|bishop|rook|queen|king) on ([a-h][1-8])\b")
_NAMES = re.compile(r"\b[a-h][1-8]\b|\b(?:pawn|knight|bishop|rook|queen|king|castling)\b")


def place(*sans: str, fen: str = chess.STARTING_FEN) -> Place:
    board = chess.Board(fen)
    moves = []
    for san in sans:
        moves.append(board.push_san(san).uci())
    return Place(fen, tuple(moves))


def said(at: Place, san: str, answer: str | None = None, told: tuple[str, ...] = ()) -> str:
    board = at.board()
    best = board.parse_san(answer).uci() if answer else None
    return reply(at, board.parse_san(san).uci(), best, told).sentence


@pytest.mark.parametrize("row", _ROWS[::20], ids=range(len(_ROWS[::20])))
def test_every_legal_move_but_the_answer_gets_its_own_words(row: tuple[Place, str]) -> None:
    checked(*row)


@pytest.mark.large
@pytest.mark.parametrize("row", _ROWS, ids=range(len(_ROWS)))
def test_two_hundred_positions_have_a_reply_to_every_move(row: tuple[Place, str]) -> None:
    checked(*row)


def checked(at: Place, answer: str) -> None:
    board = at.board()
    answered = replies(at, answer)
    assert set(answered) == {move.uci() for move in board.legal_moves} - {answer}
    long = 0
    for uci, one in answered.items():
        assert _NAMES.search(one.sentence), one.sentence
        assert "  " not in one.sentence and " ," not in one.sentence and "{" not in one.sentence
        assert one.sentence[0].isupper() and one.sentence.endswith(".")
        long += len(one.sentence.split()) > 25
        assert len(one.sentence.split()) <= 36, one.sentence
        assert_men_stand(board, uci, one.sentence)
    assert long * 5 <= len(answered)


def assert_men_stand(board: chess.Board, uci: str, sentence: str) -> None:
    """Every man that is named stands there, before the move or after it."""
    after = board.copy(stack=False)
    after.push_uci(uci)
    for kind, square in _MAN.findall(sentence):
        at = chess.parse_square(square)
        kinds = {one.piece_type_at(at) for one in (board, after)}
        assert chess.PIECE_NAMES.index(kind) in kinds, (board.fen(), uci, sentence)


def test_what_mates_stalemates_and_gives_a_result_away_is_said() -> None:
    assert re.search(r"queen to h4.*mate", said(place("f3", "e5"), "g4"))
    assert "stalemate" in said(place(fen="7k/8/5K2/8/8/8/6Q1/8 w - - 0 1"), "Qg6")
    won = said(place(fen="4k3/8/4K3/4P3/8/8/8/8 w - - 0 1"), "Kd5")
    assert "it is a draw" in won and "with best play" in won


def test_a_poor_trade_names_what_taking_back_gets() -> None:
    sentence = said(
        place("Nf3", "d5", "g3", "Nf6", "Bg2", "e6", "O-O", "c5", "d3", "Nc6", "Nbd2", "Be7"), "Ne4"
    )
    assert "pawn on d5 can take" in sentence and "only a pawn" in sentence


def test_a_man_that_can_be_taken_is_named_with_its_taker() -> None:
    sentence = said(place("Nf3", "d5"), "e4")
    assert "pawn on d5" in sentence and "can take" in sentence and "nothing takes back" in sentence


def test_nothing_is_called_lost_that_only_may_be_taken() -> None:
    for at, answer in _ROWS[::10]:
        for one in replies(at, answer).values():
            assert not re.search(r"\b(?:best|blunder|winning|losing|loses the)\b", one.sentence), one.sentence


def test_where_no_move_is_asked_for_none_is_said_to_be_meant() -> None:
    here = place(fen="6k1/5ppp/8/8/8/8/r4PPP/3R2K1 w - - 0 30")
    for move in here.board().legal_moves:
        sentence = reply(here, move.uci()).sentence
        assert "meant" not in sentence and "lesson" not in sentence.lower(), sentence


def test_a_pawn_that_becomes_a_lesser_man_is_said_as_a_deed() -> None:
    here = place(fen="8/6P1/K1P5/8/6p1/5P2/2k4p/8 w - - 0 1")
    assert "making a rook on g8" in said(here, "g8=R", "c6c7").lower()


def test_a_capture_that_makes_a_passed_pawn_brings_none_on() -> None:
    here = place(fen="r2k1b1r/2qn2p1/2p3Q1/p3p2p/1P1P4/1PN1P3/3BBnPP/1K2R1R1 w - - 0 26")
    sentence = said(here, "dxe5", "b4a5")
    assert "passed pawn a step on" not in sentence and "pushes the passed pawn" not in sentence


def test_a_move_against_which_nothing_is_found_is_not_called_proved() -> None:
    found = reply(Place(), "e2e4")
    assert (found.kind, found.standing) == ("sound", "unknown")
    assert "e4" in found.sentence
    wrong = reply(place("f3", "e5"), "g2g4")
    assert wrong.standing == "board"


def test_two_wrong_tries_do_not_sound_from_a_form() -> None:
    dice = random.Random(5)
    alike = pairs = 0
    for at, answer in _ROWS[::8]:
        moves = [move.uci() for move in at.board().legal_moves if move.uci() != answer]
        first, second = dice.sample(moves, 2)
        one = reply(at, first, answer)
        two = reply(at, second, answer, earlier=(first,))
        pairs += 1
        frames = [{form for form in found.forms if form[-1].isdigit()} for found in (one, two)]
        alike += bool(frames[0] & frames[1] & {form for form in frames[0] if len(form.split()) < 3})
    assert alike * 5 <= pairs


def test_the_reply_to_a_move_alone_is_the_same_each_time() -> None:
    at, answer = _ROWS[3]
    every = replies(at, answer)
    assert all(reply(at, uci, answer) == one for uci, one in list(every.items())[:8])


def test_accepted_moves_are_left_to_the_coach() -> None:
    assert "d2d4" not in replies(Place(), "g1f3", ("d2d4",))


def test_an_illegal_move_is_refused() -> None:
    with pytest.raises(ValueError, match="not legal"):
        reply(Place(), "e2e5")


_DEMOS = sorted((Path(__file__).parents[2] / "demo_lessons").glob("*.lesson"))


@pytest.mark.large
@pytest.mark.parametrize("path", _DEMOS, ids=lambda path: path.stem)
def test_every_question_of_the_demo_lessons_has_a_reply_to_every_move(path: Path) -> None:
    from player.cues.compile import compile_lesson

    sheet = compile_lesson(outcome_of(path.read_text("utf-8")).told)
    for index in sheet.questions:
        ask = sheet.steps[index].ask
        if ask is not None and ask.answer is not None and ask.kind == "move":
            checked(ask.place, ask.answer.uci)
