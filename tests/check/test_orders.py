"""Conflicting advice about one position, however it was reached."""

from __future__ import annotations

from pathlib import Path

from player.check.series import check_all
from player.script.faults import Fault

HEAD = "title: T\nseries: Doors, {number} of 9\ncoach: Ines\nside: {side}\n\n"


def conflicts(folder: Path, *bodies: str, side: str = "white") -> list[tuple[int, Fault]]:
    paths = []
    for number, body in enumerate(bodies, 1):
        path = folder / f"{number}.lesson"
        path.write_text(HEAD.format(number=number, side=side) + body, encoding="utf-8")
        paths.append(path)
    checked = check_all(paths)
    assert not [f for one in checked for f in one.faults if f.severity == "fault"]
    found = [(number, fault) for number, one in enumerate(checked, 1) for fault in one.faults]
    return [(number, fault) for number, fault in found if fault.code == "advice-conflicts"]


ONE = "{Nf3} {d5} {g3} {Nf6} {Bg2} {e6}. Now {d3}.\n"
OTHER = "{Nf3} {Nf6} {g3} {d5} {Bg2} {e6}. Now {c4}.\n"


def test_two_orders_and_two_minds(tmp_path: Path) -> None:
    ((number, fault),) = conflicts(tmp_path, ONE, OTHER)
    assert (number, fault.line, fault.severity) == (2, 6, "query")
    assert "1.lesson, line 6" in fault.message
    assert "d3" in fault.message and "c4" in fault.message


def test_the_same_advice_by_another_order_is_fine(tmp_path: Path) -> None:
    assert conflicts(tmp_path, ONE, OTHER.replace("c4", "d3")) == []


def test_rights_to_castle_make_another_position(tmp_path: Path) -> None:
    lost = "{Nf3} {Nf6} {g3} {Rg8} {Bg2} {Rh8}. Now {c4}.\n"
    kept = "{Nf3} {Nf6} {g3} {Nc6} {Bg2} {Nb8}. Now {d3}.\n"
    assert conflicts(tmp_path, lost, kept) == []
    assert len(conflicts(tmp_path, lost, lost.replace("c4", "d3"))) == 1


def test_an_also_names_the_other(tmp_path: Path) -> None:
    asked = ONE.replace(" Now {d3}.", "\n\nquestion: What now?\n  also c4: Sound too.\n\n{d3}.")
    assert conflicts(tmp_path, asked, OTHER) == []


def test_a_move_called_wrong_and_played_elsewhere(tmp_path: Path) -> None:
    asked = ONE.replace(" Now {d3}.", "\n\nquestion: What now?\n  reply c4: No.\n\n{d3}.")
    ((number, fault),) = conflicts(tmp_path, asked, OTHER)
    assert number == 2
    assert "c4 gets a reply as a wrong move" in fault.message and "1.lesson, line 9" in fault.message
    ((number, fault),) = conflicts(tmp_path, OTHER, asked)
    assert (number, fault.line) == (2, 9)
    assert "1.lesson, line 6" in fault.message


def test_within_one_lesson_and_by_its_line(tmp_path: Path) -> None:
    ((_, fault),) = conflicts(tmp_path, f"{ONE}\nboard: start\n\n{OTHER}")
    assert fault.line == 10
    assert "stands in line 6." in fault.message


def test_what_black_may_do_and_what_is_only_looked_at_is_no_advice(tmp_path: Path) -> None:
    assert conflicts(tmp_path, "{Nf3} {d5}.\n", "{Nf3} {f5}.\n") == []
    looked = "{Nf3} {d5} {g3}.\n\ninstead: And with the other pawn\n  {c4} {e6}.\n"
    assert conflicts(tmp_path, looked) == []
    game = "game: Oake - Wren, Pellow Ferry 1998, 1-0\n\n{Nf3} {d5} {c4}.\n"
    assert conflicts(tmp_path, "{Nf3} {d5} {g3}.\n", game) == []
    assert conflicts(tmp_path, "{Nf3} {d5}.\n", "{Nf3} {f5}.\n", side="black")


def test_it_can_be_waved_off(tmp_path: Path) -> None:
    assert conflicts(tmp_path, ONE, OTHER + "fine: c4\n") == []
