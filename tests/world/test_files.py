"""Files are whole or as they were, and are read as people save them."""

from __future__ import annotations

import errno
import os
import stat
import threading
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.world.files import (
    append_whole,
    make_folder,
    open_to_append,
    read_text_forgiving,
    set_aside,
    write_atomically,
)
from player.world.trouble import Trouble, in_words

posix_only = pytest.mark.skipif(os.name != "posix", reason="POSIX permissions, links and pipes")


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_text_is_written_as_utf8_with_line_feeds(tmp_path: Path) -> None:
    write_atomically(tmp_path / "a.lesson", "Läufer\nzwei\n")
    assert (tmp_path / "a.lesson").read_bytes() == b"L\xc3\xa4ufer\nzwei\n"
    write_atomically(tmp_path / "a.lesson", b"\x00\xff")
    assert (tmp_path / "a.lesson").read_bytes() == b"\x00\xff"
    assert names(tmp_path) == ["a.lesson"]


@posix_only
def test_permissions_stay_and_new_files_follow_the_umask(tmp_path: Path) -> None:
    known = tmp_path / "known"
    known.write_text("old")
    known.chmod(0o640)
    write_atomically(known, "new")
    assert stat.S_IMODE(known.stat().st_mode) == 0o640
    before = os.umask(0o027)
    try:
        write_atomically(tmp_path / "fresh", "new")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "fresh").stat().st_mode) == 0o640


@posix_only
def test_a_link_stays_a_link_and_its_file_gets_the_content(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    (tmp_path / "far" / "file").write_text("old")
    (tmp_path / "link").symlink_to(Path("far") / "file")
    write_atomically(tmp_path / "link", "new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "far" / "file").read_text() == "new"
    (tmp_path / "dangling").symlink_to(tmp_path / "far" / "not yet")
    write_atomically(tmp_path / "dangling", "made")
    assert (tmp_path / "far" / "not yet").read_text() == "made"
    assert names(tmp_path) == ["dangling", "far", "link"]
    assert names(tmp_path / "far") == ["file", "not yet"]


@posix_only
def test_a_pipe_is_written_to_as_it_is(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    heard: list[bytes] = []
    reader = threading.Thread(target=lambda: heard.append((tmp_path / "pipe").read_bytes()))
    reader.start()
    write_atomically(tmp_path / "pipe", "said")
    reader.join()
    assert heard == [b"said"]
    assert names(tmp_path) == ["pipe"]


@pytest.mark.parametrize("stop", [OSError(errno.ENOSPC, "full"), KeyboardInterrupt()])
@pytest.mark.parametrize("at", ["write", "fsync", "replace"])
def test_a_failure_anywhere_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, stop: BaseException, at: str
) -> None:
    path = tmp_path / "kept.toml"
    path.write_text("old")

    def fail(*args: object) -> None:
        raise stop

    monkeypatch.setattr(os, at, fail)
    with pytest.raises(type(stop)) as caught:
        write_atomically(path, "new")
    monkeypatch.undo()
    assert path.read_text() == "old"
    assert names(tmp_path) == ["kept.toml"]
    if isinstance(caught.value, OSError):
        assert caught.value.filename == str(path)


def test_a_folder_or_a_missing_folder_is_an_error_that_names_the_file(tmp_path: Path) -> None:
    with pytest.raises(IsADirectoryError):
        write_atomically(tmp_path, "x")
    with pytest.raises(FileNotFoundError) as caught:
        write_atomically(tmp_path / "no" / "file", "x")
    assert in_words(caught.value) == f"{tmp_path / 'no' / 'file'} is not there."
    with pytest.raises(UnicodeEncodeError):
        write_atomically(tmp_path / "file", "\ud83d")
    assert names(tmp_path) == []


@posix_only
@pytest.mark.skipif(os.name == "posix" and os.geteuid() == 0, reason="root may write anything")
def test_a_read_only_file_is_not_replaced_behind_its_owners_back(tmp_path: Path) -> None:
    path = tmp_path / "mine"
    path.write_text("old")
    path.chmod(0o444)
    with pytest.raises(PermissionError):
        write_atomically(path, "new")
    assert path.read_text() == "old"


def test_a_short_write_is_taken_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "log"
    path.write_bytes(b"one\n")
    handle = open_to_append(path)
    write = os.write
    monkeypatch.setattr(os, "write", lambda handle, data: write(handle, bytes(data)[:2]))
    with pytest.raises(OSError, match=os.strerror(errno.ENOSPC)):
        append_whole(handle, b"another\n", 4, path)
    monkeypatch.undo()
    append_whole(handle, b"next\n", 4, path)
    os.close(handle)
    assert path.read_bytes() == b"one\nnext\n"


@pytest.mark.parametrize(
    ("saved", "text"),
    [
        (b"", ""),
        ("Läufer\n".encode(), "Läufer\n"),
        (b"\xef\xbb\xbfscript: 1\r\nend\r", "script: 1\nend\n"),
        ("Läufer\r\n".encode("utf-16"), "Läufer\n"),
        ("\ufeffLäufer\n".encode("utf-16-be"), "Läufer\n"),
    ],
)
def test_texts_are_read_as_people_save_them(tmp_path: Path, saved: bytes, text: str) -> None:
    (tmp_path / "t").write_bytes(saved)
    assert read_text_forgiving(tmp_path / "t") == text


@pytest.mark.parametrize(
    ("saved", "line"),
    [(b"caf\xe9", 1), (b"a\r\nb\r\ncaf\xe9\n", 3), (b"a\rb\n\n\x80", 4), (b"\xff\xfea\x00\n\x00b", 2)],
)
def test_what_cannot_be_read_is_told_with_its_line(tmp_path: Path, saved: bytes, line: int) -> None:
    (tmp_path / "t").write_bytes(saved)
    with pytest.raises(Trouble, match=rf"line {line} cannot be read\. Save it as UTF-8\.$"):
        read_text_forgiving(tmp_path / "t")


def test_a_huge_file_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "t").write_bytes(b"x" * 2_000_001)
    with pytest.raises(Trouble, match="larger than 2 MB"):
        read_text_forgiving(tmp_path / "t", largest_bytes=2_000_000)


@given(st.text(st.characters(exclude_categories=["Cs"])), st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]))
def test_any_text_comes_back_with_its_line_ends_as_line_feeds(
    tmp_path_factory: pytest.TempPathFactory, text: str, encoding: str
) -> None:
    path = tmp_path_factory.mktemp("t") / "t"
    path.write_bytes(text.encode(encoding))
    expected = text.replace("\r\n", "\n").replace("\r", "\n")
    assert read_text_forgiving(path) == (expected.removeprefix("\ufeff") if encoding == "utf-8" else expected)


@posix_only
def test_folders_are_made_for_this_user_alone(tmp_path: Path) -> None:
    make_folder(tmp_path / "a" / "b")
    make_folder(tmp_path / "a" / "b")
    assert [stat.S_IMODE((tmp_path / name).stat().st_mode) for name in ("a", "a/b")] == [0o700, 0o700]
    (tmp_path / "file").touch()
    with pytest.raises(NotADirectoryError):
        make_folder(tmp_path / "file" / "x")


def test_damaged_files_are_set_aside_under_free_names(tmp_path: Path) -> None:
    for content in ("first", "second", "third"):
        (tmp_path / "s.toml").write_text(content)
        set_aside(tmp_path / "s.toml")
    assert names(tmp_path) == ["s.toml.damaged", "s.toml.damaged-2", "s.toml.damaged-3"]
    assert (tmp_path / "s.toml.damaged-2").read_text() == "second"


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (
            OSError(errno.ENOSPC, "x", "f"),
            "The disk is full: f could not be written, and what was there before",
        ),
        (OSError(errno.ENOSPC, "x"), "The disk is full: not everything could be written."),
        (OSError(errno.EACCES, "x", "old", None, "new"), "new may not be read or written by you."),
        (OSError(errno.EIO, "Input/output error", "f"), "f could not be used: Input/output error."),
        (OSError("odd"), "A file could not be used: odd."),
    ],
)
def test_errors_of_the_system_are_put_in_words(error: OSError, words: str) -> None:
    assert in_words(error).startswith(words)
