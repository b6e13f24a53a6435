"""A lesson line by line: what is said, who says it, and what a script of lines can do."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from player.session.session import Told
from player.stage.happenings import Attempt, Board, Over
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from tests.golden import Golden
from tests.lines.telling import AT_ONCE, PACED, lines_of, telling
from tests.session.sessions import Playing

WHO = re.compile(r"(Ines|Board|You|Lesson): \S")
WALK = """\


Nc3
Ke2
g3
knight
nudge
what if Bh3 Nc6
home
look around f1
Bg2



aside 1

where
skip



a3



a4
a5
tell me

"""


def test_a_walk_reads_as_it_did(tmp_path: Path, golden: Golden) -> None:
    golden("walk.txt", telling(tmp_path, WALK))


def test_a_lesson_at_once_reads_as_it_did(tmp_path: Path, golden: Golden) -> None:
    golden("at-once.txt", telling(tmp_path, "", told=AT_ONCE))


def test_the_opening_is_read_once(tmp_path: Path) -> None:
    for told in (AT_ONCE, PACED):
        for ear in (False, True):
            said = telling(tmp_path, "\n\n\ngo to start\n", told=replace(told, ear=ear))
            once = said.split("> go to start")[0]
            assert once.count("It takes about") == 1
            assert ("It takes about" in said.partition("> go to start")[2]) == ear


def test_a_move_is_shown_in_plain_letters(tmp_path: Path) -> None:
    source = "title: Rooks\n\nboard: White Kg1 Ra1 Rf1; Black Kg8; White to move\n\nNow {Rac1}. Done.\n"
    assert "White plays Rac1, rook a to c1." in telling(tmp_path, "", told=AT_ONCE, source=source)


def test_every_line_says_who_speaks(tmp_path: Path) -> None:
    assert all(WHO.match(line) for line in lines_of(telling(tmp_path, WALK)))


def test_a_coach_without_a_name_is_the_coach(tmp_path: Path) -> None:
    out = telling(tmp_path, "\n\n", source="title: x\n\nSo {e4}. And {e5}.\n")
    assert "Coach: So e4.\n" in out


def test_the_same_lines_make_the_same_happenings_as_a_bare_session(tmp_path: Path) -> None:
    heard: list[Told] = []
    telling(tmp_path, WALK, heard=heard)
    bare = Playing(PACED, learn=lambda place, move: ("After that comes a capture.", "board"))
    bare.session.start()
    bare.session.settle()
    for line in WALK.splitlines():
        bare.feed(Typed(line))
        bare.session.settle()
    bare.feed(Did("quit"))
    assert heard == bare.told
    grades = [one.grade for one in heard if isinstance(one, Attempt)]
    assert grades == ["wrong", "right", "wrong", "told"]


def test_it_needs_no_more_than_enter_and_answers(tmp_path: Path) -> None:
    heard: list[Told] = []
    telling(tmp_path, "\n" * 3 + "Bg2\n" + "\n" * 9 + "d3\n\n\n", heard=heard)
    assert any(isinstance(one, Over) for one in heard)
    right = [one.grade for one in heard if isinstance(one, Attempt)]
    assert right == ["right", "right"]


def test_at_the_end_of_the_input_a_lesson_at_once_is_told_to_its_end(tmp_path: Path) -> None:
    heard: list[Told] = []
    out = telling(tmp_path, "Bg2\n", told=AT_ONCE, heard=heard)
    assert [one.grade for one in heard if isinstance(one, Attempt)] == ["right", "passed"]
    assert out.endswith("Lesson: The lesson is told.\n")


def test_at_the_end_of_the_input_any_other_lesson_keeps_its_place(tmp_path: Path) -> None:
    out = telling(tmp_path, "\n", journal=tmp_path / "j.log")
    assert out.endswith("Lesson: Goodbye. The lesson keeps your place.\n")
    again = telling(tmp_path, "\n", journal=tmp_path / "j.log")
    assert "Good evening" not in again
    assert "Lesson: It goes on where you stopped." in again and "The last move was" in again


def test_lines_are_no_wider_than_asked(tmp_path: Path) -> None:
    out = telling(tmp_path, WALK, width=40)
    assert max(map(len, out.splitlines())) <= 40
    whole = telling(tmp_path, WALK)
    assert out.split() == whole.split()


def test_it_has_no_control_bytes_and_no_meaning_in_indentation(tmp_path: Path) -> None:
    out = telling(tmp_path, WALK)
    assert not re.search(r"[^\S\n ]|[\x00-\x09\x0b-\x1f\x7f-\x9f]", out)
    assert not re.search(r"^ ", out, re.M)


def test_an_output_of_ascii_gets_ascii(tmp_path: Path) -> None:
    source = "title: Café “Läufer”\ncoach: Inés\n\nSo – that’s {e4}…  And {e5}.\n"
    out = telling(tmp_path, "\n\n", source=source, encoding="ascii")
    assert out.isascii() and "?" not in out
    assert "Ines: So - that's e4..." in out


def test_marks_and_moves_are_said_in_words(tmp_path: Path) -> None:
    source = (
        "title: x\n\nSo {e4}. {show e4-e5 as road: Look}, and {show d4, f4: there}. {e5} {Nf3} {d6} {Bb5+}.\n"
    )
    out = telling(tmp_path, "\n\n\n", source=source)
    assert "Board: White plays e4, pawn to e4.\n" in out
    assert "Board: Shown as road: the line from e4 to e5.\n" in out
    assert "Board: Shown: the squares d4 and f4.\n" in out
    assert "Board: White plays Bb5+, bishop to b5, check.\n" in out


def test_nothing_is_timed(tmp_path: Path) -> None:
    bare = Playing(PACED)
    bare.session.start()
    bare.session.settle()
    assert bare.session.due_ms() is None
    for line in WALK.splitlines():
        bare.feed(Typed(line))
        bare.session.settle()
        assert bare.session.due_ms() is None


def test_ear_mode_says_each_announcement_once(tmp_path: Path) -> None:
    out = telling(tmp_path, "", told=Telling(voice=False, at_once=True, ear=True))
    assert out.count("Part: The middle.") == 1 and "Part 2: The middle." not in out
    assert out.count("Imagined:") == 1


def test_every_told_move_is_a_line(tmp_path: Path) -> None:
    heard: list[Told] = []
    out = telling(tmp_path, "", told=AT_ONCE, heard=heard)
    moves = [one for one in heard if isinstance(one, Board) and one.move is not None]
    assert len(re.findall(r"^Board: (?:White|Black) (?:plays|castles) ", out, re.M)) == len(moves)


def test_a_key_that_is_no_word_does_nothing(tmp_path: Path) -> None:
    out = telling(tmp_path, "\x1b[A\n\x1b[200~\x1b[201~\n")
    assert out.count("Lesson: That key does nothing here. Type a move, or a word such as help.\n") == 2
    assert "White plays Nf3" in out and "Nf6" not in out  # only the first beat, which no key let go on
