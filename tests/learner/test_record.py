"""The learner's record: kept whole, opened from every older form, rescued from damage."""

from __future__ import annotations

import concurrent.futures
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.learner.migrations import MIGRATIONS, PRESENT
from player.learner.record import Record, open_record
from player.learner.tries import Question, Try
from player.world.trouble import Trouble

NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)


def question(key: str = "abc", **more: object) -> Question:
    values = {"kind": "move", "root": "8/8/8/8/8/8/8/K1k5 w - - 0 1", "moves": ("a1a2",), "text": "Where to?"}
    return Question(key, answers=("a2a3",), **values, **more)  # type: ignore[arg-type]


def attempt(number: int, key: str = "abc") -> Try:
    at = NOON + timedelta(seconds=number)
    return Try(f"u{number}", key, at, "lesson", f"v{number}", "Ka3", "a2a3", "right", 1, 0, 1200, "sure")


@pytest.fixture
def record(tmp_path: Path) -> Record:
    return open_record(tmp_path / "record.sqlite3")


def test_what_is_kept_is_read_back(record: Record) -> None:
    asked = question(ideas=("the long diagonal",), lesson="/l/one.lesson", title="One", line=7, part_key=True)
    assert record.keep([asked], [attempt(1), attempt(2)]) == 2
    assert record.questions() == {"abc": asked}
    assert list(record.tries("abc")) == [attempt(1), attempt(2)]
    assert list(record.tries("other")) == []


def test_a_try_is_kept_once_however_often_it_is_written(record: Record) -> None:
    assert record.keep([], [attempt(1)]) == 1
    assert record.keep([], [attempt(1), attempt(2)]) == 1


def test_new_words_for_a_question_leave_its_tries(record: Record) -> None:
    record.keep([question()], [attempt(1)])
    record.keep([question(title="Another title")])
    assert [one.title for one in record.questions().values()] == ["Another title"]
    assert len(list(record.tries("abc"))) == 1


@given(st.text(), st.text(), st.lists(st.text()))
def test_any_text_comes_back_as_it_was(said: str, meant: str, ideas: list[str]) -> None:
    with open_record(Path(":memory:")) as record:
        one = Try("u", "k", NOON, "lesson", "v", said.replace("\x00", ""), meant, "wrong", 1, 0)
        asked = question("k", ideas=tuple(ideas))
        record.keep([asked], [one])
        assert list(record.tries()) == [one]
        assert record.questions()["k"] == asked


def test_erasing_leaves_nothing_in_the_file(tmp_path: Path) -> None:
    path = tmp_path / "record.sqlite3"
    with open_record(path) as record:
        record.keep([question()], [attempt(1)])
        record.erase()
        assert record.questions() == {}
    left = b"".join(one.read_bytes() for one in tmp_path.iterdir())
    assert b"Where to?" not in left and b"Ka3" not in left


@pytest.mark.parametrize("done", range(PRESENT))
def test_every_older_form_opens(tmp_path: Path, done: int) -> None:
    path = tmp_path / "record.sqlite3"
    old = sqlite3.connect(path)
    for migration in MIGRATIONS[:done]:
        old.executescript(migration.script)
    old.execute(f"PRAGMA user_version = {done}")
    if done:
        old.execute(
            "INSERT INTO questions (key, kind, root, moves, text, answers, ideas, lesson, title, line)"
            " VALUES ('abc', 'move', '8/8/8/8/8/8/8/K1k5 w - - 0 1', 'a1a2', 'Where to?', '[\"a2a3\"]', '[]',"
            " '', '', 0)"
        )
        old.execute(
            "INSERT INTO tries VALUES (1, 'u1', 'abc', ?, 'lesson', 'v1', 'Ka3', 'a2a3', 'right', 1, 0, 1200,"
            " 'sure', NULL, '')",
            ((NOON + timedelta(seconds=1)).isoformat(timespec="milliseconds"),),
        )
    old.commit()
    old.close()
    with open_record(path) as record:
        assert record.questions() == ({"abc": question()} if done else {})
        assert list(record.tries()) == ([attempt(1)] if done else [])
        assert record.read("PRAGMA user_version") == [(PRESENT,)]


def test_a_later_programs_record_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "record.sqlite3"
    with open_record(path) as record:
        record.keep([question()])
    later = sqlite3.connect(path)
    later.execute(f"PRAGMA user_version = {PRESENT + 1}")
    later.close()
    with pytest.raises(Trouble, match="later moveteller"):
        open_record(path)
    assert path.exists()


def test_a_file_that_is_no_record_is_set_aside(tmp_path: Path) -> None:
    path = tmp_path / "record.sqlite3"
    path.write_bytes(b"this is no database at all" * 100)
    with open_record(path) as record:
        assert record.notes and "set aside" in record.notes[0]
        assert record.keep([question()], [attempt(1)]) == 1
    assert (tmp_path / "record.sqlite3.damaged").read_bytes().startswith(b"this is no")


@pytest.mark.parametrize("seed", range(6))
def test_what_can_be_read_of_a_damaged_record_is_taken_over(tmp_path: Path, seed: int) -> None:
    path = tmp_path / "record.sqlite3"
    with open_record(path) as record:
        record.keep([question(f"q{n}") for n in range(50)], [attempt(n, f"q{n % 50}") for n in range(3000)])
        record.read("PRAGMA wal_checkpoint(TRUNCATE)")
    data = bytearray(path.read_bytes())
    page = 4096 * random.Random(seed).randrange(4, len(data) // 4096 - 4)
    data[page : page + 4096] = os.urandom(4096)
    path.write_bytes(data)
    with open_record(path) as record:
        left = list(record.tries())
        assert len(left) >= 2000
        assert record.keep([], [attempt(5001)]) == 1


def test_a_full_disk_is_told_and_loses_nothing(tmp_path: Path) -> None:
    with open_record(tmp_path / "record.sqlite3") as record:
        record.keep([question()], [attempt(1)])
        pages = record.read("PRAGMA page_count")[0][0]
        record.read(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(Trouble, match="disk is full"):
            record.keep([], [attempt(n) for n in range(2, 2000)])
        assert list(record.tries()) == [attempt(1)]


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a file stands here")
    with pytest.raises(Trouble, match="cannot be"):
        open_record(tmp_path / "data" / "record.sqlite3")


WRITER = """
import sys
import time
from pathlib import Path
from tests.learner.test_record import attempt, question
from player.learner.record import open_record
first, count = int(sys.argv[2]), int(sys.argv[3])
with open_record(Path(sys.argv[1])) as record:
    record.keep([question()])
    for number in range(first, first + count):
        record.keep([], [attempt(number)])
        print(number, flush=True)
"""


def writer(path: Path, first: int, count: int) -> subprocess.Popen[str]:
    command = [sys.executable, "-c", WRITER, str(path), str(first), str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def kills(path: Path, count: int, seed: int) -> None:
    rng = random.Random(seed)
    for turn in range(count):
        process = writer(path, turn * 100_000, 100_000)
        assert process.stdout is not None
        told = [int(process.stdout.readline()) for _ in range(rng.randrange(1, 40))]
        process.send_signal(signal.SIGKILL)
        told += [int(line) for line in process.stdout.read().splitlines(keepends=True) if line.endswith("\n")]
        process.wait()
        process.stdout.close()
        with open_record(path) as record:
            assert record.notes == ()
            kept = {int(one.uid[1:]) for one in record.tries()}
            assert set(told) <= kept
            assert record.read("PRAGMA integrity_check") == [("ok",)]


@pytest.mark.skipif(sys.platform == "win32", reason="signals")
def test_a_kill_at_any_moment_loses_no_answer(tmp_path: Path) -> None:
    kills(tmp_path / "record.sqlite3", 6, 1)


@pytest.mark.large
def test_two_hundred_kills_lose_no_answer(tmp_path: Path) -> None:
    kills(tmp_path / "record.sqlite3", 200, 2)


def test_two_windows_that_write_at_once_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "record.sqlite3"
    open_record(path).close()
    writers = [writer(path, first, 300) for first in (0, 100_000)]
    for one in writers:
        one.communicate()
        assert one.returncode == 0
    with open_record(path) as record:
        assert len(list(record.tries())) == 600


@pytest.mark.large
@pytest.mark.skipif(sys.platform == "win32", reason="signals")
def test_two_windows_writing_for_a_minute_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "record.sqlite3"
    open_record(path).close()
    writers = [writer(path, first, 900_000) for first in (0, 1_000_000)]
    with concurrent.futures.ThreadPoolExecutor() as pool:
        reading = [pool.submit(one.communicate) for one in writers]
        time.sleep(60)
        for one in writers:
            one.send_signal(signal.SIGKILL)
        told = [int(n) for done in reading for n in done.result()[0].splitlines(keepends=True) if "\n" in n]
    with open_record(path) as record:
        assert record.notes == ()
        assert set(told) <= {int(one.uid[1:]) for one in record.tries()}
        assert len(told) > 1000
