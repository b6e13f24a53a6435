"""Unseen positions: three at least for every idea of the demo lessons, each fact judged a second time."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.check.series_ideas import ideas_in
from player.cli.lessons import demo_scripts, read_script
from player.cues.sheet import Sheet
from player.learner.turning import WAYS, Turning
from player.learner.unseen import Fact, Taught, Unseen, positions, taught, unseen
from player.world.files import read_text_forgiving
from tests.cli.running import moveteller
from tests.oracle import exact


@lru_cache(maxsize=1)
def series() -> tuple[tuple[Sheet, ...], tuple[Taught, ...]]:
    sheets, lessons = [], []
    for path in demo_scripts():
        opened = read_script(path)
        sheet = opened.sheet
        sheets.append(sheet)
        keys = {step.line: step.ask.key for step in sheet.steps if step.ask is not None}
        lessons += taught(opened.told, keys)
    return tuple(sheets), tuple(lessons)


@lru_cache(maxsize=1)
def found() -> tuple[Unseen, ...]:
    sheets, lessons = series()
    return tuple(unseen(lessons, positions(sheets)))


def ideas() -> list[str]:
    names: dict[str, None] = {}
    for path in demo_scripts():
        names |= dict.fromkeys(ideas_in(read_text_forgiving(path)))
    return list(names)


@pytest.mark.parametrize("idea", ideas())
def test_every_idea_has_three_and_none_is_in_the_series(idea: str) -> None:
    epds = [" ".join(one.fen.split()[:4]) for one in found() if one.idea == idea]
    assert len(set(epds)) >= 3
    assert not set(epds) & positions(series()[0])


def truth(fact: Fact, board: chess.Board, answer: str | None) -> bool | None:
    """Whether the fact holds, worked out by the tests' own rules; None where they do not know its kind."""
    played = answer is not None and re.fullmatch(r"[a-h]\d[a-h]\d\w?", answer)
    move = chess.Move.from_uci(answer) if answer is not None and played else chess.Move.null()
    here = exact.after(board, move) if fact.after else board
    words = fact.words
    before = board if fact.after else here
    tests: list[tuple[str, Callable[[re.Match[str]], object]]] = [
        (r"\S+ is legal", lambda m: move in before.legal_moves),
        (r"\S+ is check", lambda m: before.gives_check(move)),
        (r"\S+ is mate", lambda m: exact.after(before, move).is_checkmate()),
        (r"\S+ threatens mate", lambda m: exact.threatens_mate(before, move)),
        (r"\S+ wins (the queen|a piece)", lambda m: exact.wins(before, move, m[1])),
        (r"(White|Black) attacks (\w\d) (\d) times?", lambda m: hit(here, m[1], m[2]) == int(m[3])),
        (r"the \w+ on (\w\d) is attacked", lambda m: exact.attacked(here, sq(m[1]))),
        (r"the \w+ on (\w\d) is guarded (\d) times?", lambda m: exact.guards(here, sq(m[1])) == int(m[2])),
        (r"(\w\d) is an outpost for (White|Black)", lambda m: exact.outpost(here, sq(m[1]), m[2] == "White")),
        (r"(\w\d)-(\w\d) is (open|closed)", lambda m: exact.line_state(here, sq(m[1]), sq(m[2])) == m[3]),
        (r"the pawn on (\w\d) is (passed)", lambda m: exact.pawn_is(here, sq(m[1]), m[2])),
        (r"the king is inside the square of the pawn on (\w\d)", lambda m: exact.in_square(here, sq(m[1]))),
        (r"(White|Black) has the opposition", lambda m: exact.opposition(here, m[1] == "White")),
        (r"(White|Black) wins with best play", lambda m: exact.best_play(here) == m[1].lower()),
        (r"the position is drawn", lambda m: exact.best_play(here) == "drawn"),
        (r"(White|Black) has the bishop pair", lambda m: exact.bishop_pair(here, m[1] == "White")),
        (r"mate in (\d)", lambda m: exact.mate_in(here, int(m[1]))),
        (r"the rooks of (White|Black) are connected", lambda m: exact.rooks_connected(here, m[1] == "White")),
        (r"(White|Black) has the move", lambda m: here.turn == (m[1] == "White")),
    ]  # fmt: skip
    for pattern, judge in tests:
        match = re.fullmatch(pattern, words)
        if match:
            return bool(judge(match))
    return None


def hit(board: chess.Board, side: str, name: str) -> int:
    return exact.hitting(board, side == "White", sq(name))


def sq(name: str) -> int:
    return chess.parse_square(name)


def test_every_fact_holds_by_a_second_judge() -> None:
    judged = 0
    for one in found():
        board = chess.Board(one.fen)
        assert board.is_valid()
        verdicts = [truth(fact, board, one.answers[0]) for fact in one.facts]
        assert False not in verdicts, (one.fen, one.facts, verdicts)
        assert True in verdicts, one.facts
        judged += verdicts.count(True)
    assert judged >= 2 * len(found())


def test_the_questions_speak_of_the_new_board() -> None:
    """Whoever is named in a question is to move there, and squares it names were turned with the men."""
    for one in found():
        asked = one.source.split("question:")[1].splitlines()[0]
        board = chess.Board(one.fen)
        named = re.search(r"(White|Black) to move", asked)
        assert named is None or board.turn == (named[1] == "White")
        for man, square in re.findall(
            r"the (knight|bishop|rook|queen|king|pawn) (?:on|from) ([a-h][1-8])", asked.lower()
        ):
            piece = board.piece_at(sq(square))
            assert piece is not None and chess.piece_name(piece.piece_type) == man


@given(st.sampled_from(WAYS), st.integers(0, 40), st.randoms())
def test_turning_keeps_the_rules(way: Turning, plies: int, rng: object) -> None:
    board = chess.Board()
    for _ in range(plies):
        moves = list(board.legal_moves)
        if not moves:
            break
        board.push(rng.choice(moves))  # type: ignore[attr-defined]
    turned = way.board(board)
    if turned is None:
        return
    moved = {way.move(move) for move in board.legal_moves}
    assert set(turned.legal_moves) == moved


@pytest.mark.parametrize(
    ("way", "before", "after"),
    [
        (WAYS[0], "White's knight goes from b1 to d2", "Black's knight goes from b8 to d7"),
        (WAYS[0], "Nbd2, exd5 and R1e4", "Nbd7, exd4 and R8e5"),
        (WAYS[1], "the e-file, the kingside, Nbd2", "the d-file, the queenside, Nge2"),
        (WAYS[1], "a bishop on light squares", "a bishop on dark squares"),
        (WAYS[2], "the c-pawn on light squares", "the f-pawn on light squares"),
        (WAYS[0], "take a look at the aside", "take a look at the aside"),
    ],
)  # fmt: skip
def test_words_turn_with_the_board(way: Turning, before: str, after: str) -> None:
    assert way.words(before) == after


def test_new_positions_are_asked_once_and_scored_apart(tmp_path: Path) -> None:
    moveteller(tmp_path, "play", "4", "--lines", "--at", "question 1", typed="Ke5\n\n")
    new = ("revisit", "--new", "--lines", "--idea", "the square of the pawn")
    first = moveteller(tmp_path, *new, typed="tell me\n\n\nquit\n").out
    assert "A new position, not shown in any lesson." in first
    count = int(re.search(r"Question 1 of (\d+)", first)[1])  # type: ignore[index]
    again = moveteller(tmp_path, *new).out
    assert f"Question 1 of {count - 1}" in again
    assert "Nothing waits for today" in moveteller(tmp_path, "revisit", "--lines").out
    none = moveteller(tmp_path, "revisit", "--new", "--lines", "--idea", "nonsense").out
    assert "no new position about 'nonsense'" in none
