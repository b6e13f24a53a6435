"""What is kept, written out and erased; and how it stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.running import moveteller


@pytest.fixture
def met(tmp_path: Path) -> Path:
    moveteller(tmp_path, "play", "1", "--lines", "--at", "question 1", typed="h4\nO-O\n\n")
    return tmp_path


def test_export_writes_a_file_or_the_output(met: Path) -> None:
    out = moveteller(met, "record", "export").out
    assert 'wrong, "h4", try 1' in out
    assert moveteller(met, "record", "export", "all.txt").code == 0
    assert (met / "all.txt").read_text(encoding="utf-8").splitlines()[1:] == out.splitlines()[1:]


def test_erasing_asks_first_and_leaves_nothing(met: Path) -> None:
    refused = moveteller(met, "record", "erase")
    assert refused.code == 2 and "--yes" in refused.err
    assert "Nothing is erased" in moveteller(met, "record", "erase", typed="no\n", terminal=True).out
    assert "h4" in moveteller(met, "record", "export").out
    assert "erased" in moveteller(met, "record", "erase", typed="erase\n", terminal=True).out
    assert "h4" not in moveteller(met, "record", "export").out
    assert not any(b"tucks the king" in file.read_bytes() for file in met.rglob("record.sqlite3*"))


def test_nothing_kept_is_no_trouble(tmp_path: Path) -> None:
    assert moveteller(tmp_path, "record", "export").code == 0
    assert moveteller(tmp_path, "record", "erase", "--yes").code == 0
    assert "Nothing is kept yet" in moveteller(tmp_path, "progress").out
    assert "Nothing is kept yet" in moveteller(tmp_path, "progress", "--plot").out


def test_progress_names_ideas_met_and_not_met(met: Path) -> None:
    out = moveteller(met, "progress").out
    assert "You have answered 2 times" in out
    assert "Key squares: not met yet." in out
    assert "0 of 1 right" in moveteller(met, "progress", "--plot").out


def test_a_damaged_record_is_told_and_the_lesson_goes_on(met: Path) -> None:
    next(met.rglob("record.sqlite3")).write_bytes(b"rubbish" * 1000)
    ran = moveteller(met, "play", "1", "--lines", "--fresh", "--at", "question 1", typed="O-O\n")
    assert ran.code == 0 and "set aside" in ran.err
    # Two of the three come back from the lesson's journal.
    assert "You have answered 3 times" in moveteller(met, "progress").out
