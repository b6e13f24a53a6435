"""Which lesson is meant."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from player.cli.lessons import demo_scripts, find_lesson, find_lessons, following, scripts_in
from player.world.trouble import Trouble
from tests.cli.running import moveteller
from tests.worlds import scratch_world


def script(folder: Path, name: str, head: str = "") -> Path:
    folder.mkdir(exist_ok=True)
    path = folder / name
    path.write_text(f"{head}\n\nSo {{e4}}. And {{e5}}.\n", encoding="utf-8")
    return path


def test_a_path_with_or_without_its_ending(tmp_path: Path) -> None:
    path = script(tmp_path, "one.lesson")
    world = scratch_world(tmp_path)
    assert (
        find_lesson(world, "one.lesson") == find_lesson(world, "one") == find_lesson(world, str(path)) == path
    )


def test_a_folder_is_a_series_in_its_own_order(tmp_path: Path) -> None:
    folder = tmp_path / "series"
    last = script(folder, "a.lesson", "series: Club, 10 of 10")
    first = script(folder, "z.lesson", "series: Club, 2 of 10")
    loose = [script(folder, f"{name}.lesson") for name in ("b2", "b10")]
    (folder / "notes.txt").write_text("none", encoding="utf-8")
    assert scripts_in(folder) == [first, last, *loose]
    world = scratch_world(tmp_path)
    assert find_lessons(world, "series") == [first, last, *loose]
    assert find_lesson(world, "series") == first


def test_a_demo_goes_by_number_name_and_title(tmp_path: Path) -> None:
    world = scratch_world(tmp_path)
    first = demo_scripts()[0]
    for named in ("1", "the-set-up", "The Set-up", "1-the-set-up", "1-the-set-up.lesson"):
        assert find_lesson(world, named) == first
    with pytest.raises(Trouble):
        find_lesson(world, str(len(demo_scripts()) + 1))


def test_an_empty_folder_is_no_lesson(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    with pytest.raises(Trouble, match="There is no lesson in empty"):
        find_lesson(scratch_world(tmp_path), "empty")


def test_without_a_terminal_the_shelf_is_a_list(tmp_path: Path) -> None:
    script(tmp_path, "mine.lesson", "title: My own \x1b[31mlesson")
    ran = moveteller(tmp_path)
    assert ran.code == 0
    assert "My own lesson, in " in ran.out and "\x1b" not in ran.out
    assert "1. The Set-up, in " in ran.out
    assert len(ran.out.splitlines()) >= len(demo_scripts()) + 2
    assert "Play one with: " in ran.out and "stopped" not in ran.out


def test_the_list_says_where_one_stopped(tmp_path: Path) -> None:
    script(tmp_path, "mine.lesson", "title: My own")
    moveteller(tmp_path, "play", "mine", "--lines", typed="")
    assert re.search("My own, stopped at 0:0[0-9], in ", moveteller(tmp_path).out)
    moveteller(tmp_path, "play", "mine", "--at-once")
    assert "My own, told to its end, in " in moveteller(tmp_path).out


def test_the_lesson_that_follows_is_the_next_of_the_same_series(tmp_path: Path) -> None:
    third = script(tmp_path, "a.lesson", "title: Third\nseries: Club, 3 of 3")
    first = script(tmp_path, "b.lesson", "title: First\nseries: Club, 1 of 3")
    other = script(tmp_path, "c.lesson", "series: Else, 2 of 2")
    loose = script(tmp_path, "d.lesson")
    assert following(first) == (third, "Third")
    assert [following(one) for one in (third, other, loose, tmp_path / "no" / "x.lesson")] == [None] * 4
