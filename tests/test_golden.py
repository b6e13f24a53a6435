"""The golden fixture itself: it fails when it should, and writes only when asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.golden import Golden


def test_a_missing_file_fails_and_is_not_written(tmp_path: Path) -> None:
    with pytest.raises(pytest.fail.Exception, match="no golden file"):
        Golden(tmp_path, update=False)("told.txt", "one\n")
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_differs_fails_with_the_lines_and_is_kept(tmp_path: Path) -> None:
    Golden(tmp_path, update=True)("told.txt", "one\ntwo\n")
    with pytest.raises(pytest.fail.Exception, match=r"-two\n\+three"):
        Golden(tmp_path, update=False)("told.txt", "one\nthree\n")
    assert (tmp_path / "told.txt").read_text(encoding="utf-8") == "one\ntwo\n"


def test_the_same_text_passes_however_the_lines_end_on_disk(tmp_path: Path) -> None:
    (tmp_path / "told.txt").write_bytes(b"one\r\ntwo\r\n")
    Golden(tmp_path, update=False)("told.txt", "one\ntwo\n")


def test_an_update_names_what_it_rewrote_and_leaves_the_rest(tmp_path: Path) -> None:
    golden = Golden(tmp_path, update=True)
    golden("a.txt", "one\n")
    golden("a.txt", "one\n")
    golden("b/c.txt", "two\n")
    assert golden.rewritten == [tmp_path / "a.txt", tmp_path / "b" / "c.txt"]


def test_the_fixture_looks_beside_the_test(golden: Golden) -> None:
    assert golden.folder == Path(__file__).parent / "golden"
