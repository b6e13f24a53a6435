"""The little languages inside a script: marks, changes, boards, times, games, answers and keys."""

from __future__ import annotations

import chess
import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.facts.place import Place
from player.script.answers import answers_of, kind_of
from player.script.boards import Arrived, NoBoard, board_of
from player.script.games import GameNames, game_names
from player.script.heads import head_of, time_ms, time_text
from player.script.here import beginning
from player.script.imagine import imagined
from player.script.keys import KEYS, is_one_letter_off, near_key
from player.script.marks import Unshown, shown_of
from player.script.parse import Piece, RawBrace, by_grammar, parse
from player.script.physical import physical_lines
from player.script.stretch import joined
from player.script.times import length_ms, pause_ms
from player.script.told import Mark, Shown


@pytest.mark.parametrize(
    ("value", "marks", "meaning"),
    [
        ("e4", [Mark("square", "e4")], ""),
        ("E4 d5", [Mark("square", "e4"), Mark("square", "d5")], ""),
        ("e4 and d5, c3", [Mark("square", "e4"), Mark("square", "d5"), Mark("square", "c3")], ""),
        ("e4, e4", [Mark("square", "e4")], ""),
        ("g2-b7 as line", [Mark("line", "g2", "b7")], "line"),
        ("g2 - b7, e4", [Mark("line", "g2", "b7"), Mark("square", "e4")], ""),
        ("d5 to c4, e4", [Mark("hit", "d5", "c4"), Mark("hit", "d5", "e4")], ""),
        ("a1, d5 to c4", [Mark("square", "a1"), Mark("hit", "d5", "c4")], ""),
        (
            "d5 to c4, g2-b7, e4",
            [Mark("hit", "d5", "c4"), Mark("line", "g2", "b7"), Mark("square", "e4")],
            "",
        ),
        (
            "d5 to c4, a1 to a2, a3",
            [Mark("hit", "d5", "c4"), Mark("hit", "a1", "a2"), Mark("hit", "a1", "a3")],
            "",
        ),
        ("e4 as weak square", [Mark("square", "e4")], "weak square"),
    ],
)
def test_marks(value: str, marks: list[Mark], meaning: str) -> None:
    assert shown_of(value) == Shown(tuple(marks), meaning)


@pytest.mark.parametrize(
    "value",
    [
        "",
        "as plan",
        "e9",
        "i4",
        "e44",
        "e4-",
        "e4-e9",
        "the door",
        "e4, x",
        "e4 as",
        "d5 to",
        "d5 to d5",
        "e4-d5-c6",
    ],
)
def test_what_cannot_be_shown(value: str) -> None:
    assert isinstance(shown_of(value), Unshown)


@pytest.mark.parametrize(
    ("changes", "placement", "turn", "castling"),
    [
        ("remove e2", "rnbqkbnr/pppppppp/8/8/8/8/PPPP1PPP/RNBQKBNR", "w", "KQkq"),
        ("remove the white pawn on e2 and d7", "", "", ""),
        (
            "remove the knight on g1, black rook on e4",
            "rnbqkbnr/pppppppp/8/8/4r3/8/PPPPPPPP/RNBQKB1R",
            "w",
            "KQkq",
        ),
        ("a1 to a4", "rnbqkbnr/pppppppp/8/8/R7/8/PPPPPPPP/1NBQKBNR", "w", "Kkq"),
        ("e1 to e4, a white king on e1", "rnbqkbnr/pppppppp/8/8/4K3/8/PPPPPPPP/RNBQKBNR", "w", "KQkq"),
        ("d2-d4, Black to move", "rnbqkbnr/pppppppp/8/8/3P4/8/PPP1PPPP/RNBQKBNR", "b", "KQkq"),
        ("pass", "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR", "b", "KQkq"),
        ("white queen on e8", "rnbqQbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR", "w", "KQ"),
    ],
)
def test_changes(changes: str, placement: str, turn: str, castling: str) -> None:
    place, bad = imagined(chess.Board(), changes)
    if not placement:
        assert [change.text for change in bad] == ["d7"]
        return
    assert bad == []
    assert place.fen.split()[:3] == [placement, turn, castling]
    assert place.moves == ()


@pytest.mark.parametrize(
    "changes",
    [
        "remove",
        "remove e4",
        "remove the rook on e2",
        "remove the black pawn on e2",
        "e4 to e5",
        "dragon on e4",
        "rook on e4",
        "maybe",
    ],
)
def test_what_is_no_change(changes: str) -> None:
    place, bad = imagined(chess.Board(), changes)
    assert [change.text for change in bad] == [changes]
    assert place == Place()


@pytest.mark.parametrize(
    ("value", "fen"),
    [
        ("start", chess.STARTING_FEN),
        ("White Kd5 Ra7 pe5; Black Ke8 Rb6; White to move", "4k3/R7/1r6/3KP3/8/8/8/8 w - - 0 1"),
        ("black ke8, rb6, e7; white: Kd5; Black to move.", "4k3/4p3/1r6/3K4/8/8/8/8 b - - 0 1"),
        ("4k3/8/8/8/8/8/8/4K2R w K", "4k3/8/8/8/8/8/8/4K2R w K - 0 1"),
    ],
)
def test_boards(value: str, fen: str) -> None:
    arrived = board_of(value, beginning(), {}, "en")
    assert isinstance(arrived, Arrived)
    assert (arrived.place.fen, arrived.doubt) == (fen, "")


@pytest.mark.parametrize(
    ("value", "doubt"),
    [
        ("4k3/8/8/8/8/8/8/4K3", "who is to move"),
        ("White Kd5; Black Ke8", "who is to move"),
        ("4k3/8/8/8/8/8/8/4K3 w KQ - 0 1", "castling rights"),
    ],
)
def test_doubtful_boards(value: str, doubt: str) -> None:
    arrived = board_of(value, beginning(), {}, "en")
    assert isinstance(arrived, Arrived)
    assert doubt in arrived.doubt
    assert arrived.place.board().is_valid()


@pytest.mark.parametrize(
    "value",
    [
        "",
        "White",
        "White Kd5 Ra9",
        "White Kd5 Kd5",
        "8/8/8/8",
        "back 0 moves",
        "back 1 move",
        "after 1.e4",
        "after",
        "up",
    ],
)
def test_what_is_no_board(value: str) -> None:
    assert isinstance(board_of(value, beginning(), {}, "en"), NoBoard)


@pytest.mark.parametrize(
    ("text", "ms"),
    [
        ("0:14", 14_000),
        ("0:14.5", 14_500),
        ("0:14.05", 14_050),
        ("75:00", 4_500_000),
        ("1:02:03", 3_723_000),
        ("1:02:03.004", 3_723_004),
        *(
            (text, None)
            for text in ("", "14", "0:60", "0:7", "1:60:00", "0:14.", "0:14.0001", "-0:14", "a:bc", "1:2:03")
        ),
    ],
)
def test_times(text: str, ms: int | None) -> None:
    assert time_ms(text) == ms
    if ms is not None:
        assert time_ms(time_text(ms)) == ms


@pytest.mark.parametrize(
    ("text", "ms"),
    [
        *(
            ("20s", 20_000),
            ("1.5 s", 1_500),
            ("2 seconds", 2_000),
            ("1m", 60_000),
            ("1m30s", 90_000),
            ("2 min", 120_000),
        ),
        *((text, None) for text in ("", "0s", "s", "20", "long", "-3s", "99m", "1e3s", "2s 1m")),
    ],
)
def test_lengths(text: str, ms: int | None) -> None:
    assert length_ms(text) == ms
    assert pause_ms(text) == ms


def test_a_breath_is_seven_tenths_of_a_second() -> None:
    assert pause_ms("A breath") == 700
    assert length_ms("a breath") is None


@pytest.mark.parametrize(
    ("value", "names"),
    [
        ("Calder - Orme, Reading Room 1998, 1-0", GameNames("Calder", "Orme", "Reading Room", "1998", "1-0")),
        ("Calder, Ines - Orme", GameNames("Calder, Ines", "Orme")),
        ("Calder \u2013 Orme, 1998", GameNames("Calder", "Orme", "", "1998")),
        (
            "A-B Club - C, Hall, Upper Town, 1/2-1/2",
            GameNames("A-B Club", "C", "Hall, Upper Town", "", "1/2-1/2"),
        ),
        ("A - B, *", GameNames("A", "B", result="*")),
        *((value, None) for value in ("", "Calder", "Calder-Orme", "Calder - ", " - Orme")),
    ],
)
def test_games(value: str, names: GameNames | None) -> None:
    assert game_names(value) == names


def test_answers_by_kind() -> None:
    assert answers_of("square", "e4,d5 and C3", ()) == ("e4", "d5", "c3")
    assert answers_of("square", "e4 e9", ()) == "e9"
    assert answers_of("count", "three, 4 none", ()) == ("3", "4", "0")
    assert answers_of("count", "many", ()) == "many"
    assert answers_of("choice", "the lamp, a Kettle", ("The lamp", "a kettle")) == ("The lamp", "a kettle")
    assert answers_of("choice", "so, no", ("yes", "no")) == "so"
    assert answers_of("words", "a pin, pinned", ()) == ("a pin", "pinned")
    assert kind_of(" Square ") == "square"
    assert kind_of("riddle") is None


def test_one_letter_off() -> None:
    for wrong in ("clam", "claims", "cliam", "clain", "laim"):
        assert is_one_letter_off(wrong, "claim")
        assert near_key(wrong) == "claim"
    for other in ("claim", "cl", "clumsy", "reclaim", "mailc"):
        assert not is_one_letter_off(other, "claim")
    assert all(near_key(key) != key for key in KEYS)


@pytest.mark.parametrize(
    ("text", "key", "name", "slip"),
    [
        ("claim: x", "claim", "", ""),
        ("claim:", "claim", "", ""),
        ("claim:x", "claim", "", "no-blank"),
        ("claim : x", "claim", "", "blank-before"),
        ("claim x: y", "", "", "with-words"),
        ("also c4, Nc3: y", "also", "c4, Nc3", ""),
        ("also: y", "also", "", "no-name"),
        ("replay Nc3: y", "reply", "Nc3", "near"),
        ("Claim: x", "claim", "", "capital"),
        ("clam: x", "claim", "", "near"),
        ("kettle: x", "", "", "unknown"),
        ("the kettle: x", "", "the kettle", ""),
        ("claim\\: x", "", "", ""),
        ("[0:14] claim: x", "claim", "", ""),
        ("[0:14]claim: x", "claim", "", ""),
    ],
)
def test_heads(text: str, key: str, name: str, slip: str) -> None:
    head = head_of(text)
    assert (head.key, head.slip) == (key, slip)
    if key:
        assert head.name == name
        assert text[head.value :] == text.split(":", 2 if text.startswith("[") else 1)[-1].lstrip()


def test_pieces_of_a_line_know_where_they_stood() -> None:
    text = "On {Nf3 @0:16.4: out} so"
    on, brace, so = parse(text)[0]
    assert isinstance(brace, RawBrace)
    assert isinstance(on, Piece)
    assert isinstance(so, Piece)
    assert brace.stamp is not None
    assert brace.say is not None
    for piece in (on, so, brace.deed, brace.stamp, brace.say):
        assert text[piece.at : piece.end] == piece.text
    assert text[brace.start : brace.end] == "{Nf3 @0:16.4: out}"


@given(st.text(st.sampled_from('ab N3{}{}:: @\\*."é'), max_size=40))
def test_common_lines_are_taken_apart_as_the_grammar_does(text: str) -> None:
    pieces, broken = parse(text)
    if not broken:
        assert pieces == by_grammar(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "a",
        "{a}",
        "{}",
        "{:}",
        "{: a}",
        "{a:}",
        "{a: b: c}",
        "{a:b: c}",
        "{a}{b}",
        " {a} ",
        "{a b:c:}",
        "x:y",
        "{Nf3 @0:16.4: out}",
        "{@}",
        "{a@:}",
        "{a @ 1 : b}",
        "{a @b@c}",
    ],
)
def test_common_lines_by_example(text: str) -> None:
    assert parse(text) == (by_grammar(text), [])


def test_a_stretch_points_back_into_its_lines() -> None:
    lines, _ = physical_lines("  one two\n\tthree\u2026 four")
    stretch = joined([(line, 0) for line in lines])
    assert stretch.text == "one two three... four"
    assert [stretch.spot(at, at + 3).column for at in (0, 4, 8, 17)] == [3, 7, 2, 9]
    assert stretch.spot(4, 20).width == 3
    assert stretch.cut(4, 13).text == "two three"
    assert stretch.cut(4, 13).spot(4, 9).line == 2
