"""What is kept of a check: whole or not at all, bounded, and never in the way."""

from __future__ import annotations

import random
import sqlite3
from pathlib import Path

import pytest

from player.check.kept import FILE_NAME, Kept, key_of


def test_what_is_put_comes_back_in_the_next_run(tmp_path: Path) -> None:
    first = Kept(tmp_path / "c")
    key = key_of("claim", "words", ("e2e4",), 5)
    assert first.get(key) is None
    first.put(key, ["é", 1, None])
    assert first.get(key) == ["é", 1, None]
    first.close()
    assert Kept(tmp_path / "c").get(key) == ["é", 1, None]


def test_keys_differ_by_every_part() -> None:
    parts = [("a", 1), ("a", 2), ("b", 1), ("a", "1"), ("a",), ("a", 1, None)]
    assert len({key_of("claim", *one) for one in parts} | {key_of("script", "a", 1)}) == len(parts) + 1


@pytest.mark.parametrize("seed", range(12))
def test_damage_heals(tmp_path: Path, seed: int) -> None:
    kept = Kept(tmp_path)
    keys = [key_of("claim", number) for number in range(200)]
    for number, key in enumerate(keys):
        kept.put(key, ["words", number])
    kept.close()
    file = tmp_path / FILE_NAME
    data = bytearray(file.read_bytes())
    chance = random.Random(seed)
    if seed < 8:
        for _ in range(200):
            data[chance.randrange(len(data))] = chance.randrange(256)
    else:
        data = data[: chance.randrange(len(data))]
    file.write_bytes(bytes(data))
    for _ in range(3):
        again = Kept(tmp_path)
        for number, key in enumerate(keys):
            value = again.get(key)
            assert value in (None, ["words", number])
            if value is None:
                again.put(key, ["words", number])
        again.close()
    last = Kept(tmp_path)
    assert [last.get(key) for key in keys] == [["words", number] for number in range(200)]


def test_an_entry_changed_by_hand_counts_as_none(tmp_path: Path) -> None:
    kept = Kept(tmp_path)
    key = key_of("claim", "x")
    kept.put(key, ["false"])
    kept.close()
    with sqlite3.connect(tmp_path / FILE_NAME) as db:
        db.execute("update kept set value = '[\"true\"]'")
    assert Kept(tmp_path).get(key) is None


def test_it_stays_within_its_bounds_and_keeps_what_is_used(tmp_path: Path) -> None:
    often = key_of("claim", "often")
    for run in range(20):
        kept = Kept(tmp_path, limit_bytes=40_000)
        if kept.get(often) is None:
            kept.put(often, "used in every run")
        for number in range(10):
            kept.put(key_of("claim", run, number), "x" * 300)
        kept.close()
    with sqlite3.connect(tmp_path / FILE_NAME) as db:
        size = db.execute("select sum(length(value) + 150) from kept").fetchone()[0]
    assert size <= 40_000
    assert Kept(tmp_path).get(often) is not None


def test_a_folder_that_is_none_is_no_trouble(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    kept = Kept(tmp_path / "file")
    key = key_of("claim", "x")
    assert kept.get(key) is None
    kept.put(key, 1)
    kept.close()
    other = tmp_path / "other"
    (other / FILE_NAME).mkdir(parents=True)
    kept = Kept(other)
    assert kept.get(key) is None
    kept.close()


def test_a_file_of_another_form_is_made_anew(tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / FILE_NAME) as db:
        db.execute("create table kept (something text)")
    key = key_of("claim", "x")
    for _ in range(2):
        kept = Kept(tmp_path)
        kept.get(key)
        kept.put(key, 1)
        kept.close()
    assert Kept(tmp_path).get(key) == 1


def test_a_file_in_use_is_left_as_it_is(tmp_path: Path) -> None:
    first = Kept(tmp_path)
    key, other = key_of("claim", "x"), key_of("claim", "y")
    first.put(key, 1)
    first.close()
    with sqlite3.connect(tmp_path / FILE_NAME, isolation_level=None) as db:
        db.execute("begin exclusive")
        kept = Kept(tmp_path, wait_seconds=0.05)
        assert kept.get(key) is None
        kept.put(other, 2)
        kept.close()
        db.execute("rollback")
    assert Kept(tmp_path).get(key) == 1
