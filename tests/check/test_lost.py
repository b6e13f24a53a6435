"""After a lost move nothing is doubted by the board, until the board is known again."""

from __future__ import annotations

from player.check.lost import lost_from
from player.script.faults import Fault
from tests.check.checking import faults_of

SCRIPT = """title: Lost

White begins {Nf3} {d5}. The bishop on c4 waits.

aside: If not
  {Nf6} {Ke4} and the rook on h5 looks on.

  The queen on a5 too.

The knight on g5 jumps. {g6} {Qh8} and the queen on h6 stands well.

The king on e3 rests.

board: start

The rook on c5 sleeps. {e4}.
"""


def codes(script: str) -> list[tuple[int, str]]:
    return [(fault.line, fault.severity) for fault in faults_of(script)]


def test_only_what_stands_on_a_known_board_is_doubted() -> None:
    assert codes(SCRIPT) == [(3, "query"), (6, "fault"), (10, "query"), (10, "fault"), (16, "query")]


def test_the_lines_of_a_block_are_lost_until_it_ends() -> None:
    fault = Fault(6, 9, 5, "fault", "illegal-move", "No.")
    assert lost_from(SCRIPT.splitlines(), [fault]) == {6: 9, 7: 1, 8: 1, 9: 1}
    assert lost_from(SCRIPT.splitlines(), [Fault(6, 9, 5, "query", "illegal-move", "No.")]) == {}


def test_a_board_that_is_not_understood_is_lost_until_the_next_one() -> None:
    lines = ["board: begin", "", "{Bg4}. The rook on c5 sleeps.", "board: start", "{e4}."]
    assert lost_from(lines, [Fault(1, 8, 5, "fault", "bad-board", "No.")]) == {1: 8, 2: 1, 3: 1}


def test_the_moves_before_a_lost_one_in_its_brace_are_not_played_and_not_doubted() -> None:
    script = "title: Lost\n\nWhite begins {Nf3}, then {d5}, and now {g3 Nf6 Bg4}.\n"
    assert [fault.severity for fault in faults_of(script)] == ["fault"]
