"""A log of lines loses at most the line that was being written, and never makes one up."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.world.line_log import LineLog, pack, unpack

LINES = st.lists(st.text(st.characters(exclude_characters="\n"), max_size=20), max_size=6)


def written(lines: list[str]) -> bytes:
    return b"".join(pack(line) for line in lines)


def test_lines_come_back_in_order_across_openings(tmp_path: Path) -> None:
    path = tmp_path / "new folder" / "journal"
    log = LineLog(path)
    assert log.read() == []
    assert not path.parent.exists()
    with log:
        log.append('{"input": "go on"}')
        log.append("")
    with LineLog(path) as again:
        again.append("drei ♞")
        assert again.read() == ['{"input": "go on"}', "", "drei ♞"]
    assert LineLog(path).look().rest_bytes == 0


@given(LINES)
def test_cut_at_any_byte_it_reads_back_the_lines_that_were_whole(lines: list[str]) -> None:
    data = written(lines)
    ends = [len(written(lines[:count])) for count in range(len(lines) + 1)]
    for cut in range(len(data) + 1):
        found = unpack(data[:cut])
        whole = sum(end <= cut for end in ends) - 1
        assert list(found.lines) == lines[:whole]
        assert (found.whole_bytes, found.rest_bytes) == (ends[whole], cut - ends[whole])
        assert found.torn == (found.rest_bytes > 0)


@given(LINES, st.data())
def test_one_changed_byte_costs_the_lines_from_there_on_and_makes_none_up(
    lines: list[str], data: st.DataObject
) -> None:
    intact = bytearray(written([*lines, "last"]))
    at = data.draw(st.integers(0, len(intact) - 1))
    intact[at] ^= data.draw(st.integers(1, 255))
    found = list(unpack(bytes(intact)).lines)
    before = sum(len(written(lines[: count + 1])) <= at for count in range(len(lines)))
    assert found == lines[:before]


@given(st.binary(max_size=60))
def test_foreign_bytes_are_no_lines(data: bytes) -> None:
    assert unpack(data).whole_bytes == 0


@given(LINES, st.integers(1, 200), st.text(st.characters(exclude_characters="\n"), max_size=20))
def test_the_next_opening_mends_a_torn_end(
    tmp_path_factory: pytest.TempPathFactory, lines: list[str], cut: int, more: str
) -> None:
    path = tmp_path_factory.mktemp("log") / "journal"
    path.write_bytes(written([*lines, "torn"])[: -(1 + cut % (len(pack("torn")) - 1))])
    with LineLog(path) as log:
        log.append(more)
    assert path.read_bytes() == written([*lines, more])
    assert [each.name for each in path.parent.iterdir()] == ["journal"]


def test_damage_in_the_middle_is_kept_aside_before_it_is_mended(tmp_path: Path) -> None:
    path = tmp_path / "journal"
    damaged = written(["one", "two"]).replace(b"two", b"tow") + pack("three")
    path.write_bytes(damaged)
    assert LineLog(path).read() == ["one"]
    with LineLog(path) as log:
        log.append("new")
    assert LineLog(path).read() == ["one", "new"]
    assert (tmp_path / "journal.damaged").read_bytes() == damaged


def test_all_lines_can_be_replaced_at_once(tmp_path: Path) -> None:
    with LineLog(tmp_path / "journal") as log:
        log.append("one")
        log.append("two")
        log.replace_all(["only"])
        log.append("next")
        with pytest.raises(ValueError, match="line feed"):
            log.replace_all(["good", "b\nad"])
        with pytest.raises(ValueError, match="line feed"):
            log.append("b\nad")
        log.append("last")
    assert LineLog(tmp_path / "journal").read() == ["only", "next", "last"]


def test_a_full_disk_leaves_the_log_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write = os.write
    with LineLog(tmp_path / "journal") as log:
        log.append("one")
        monkeypatch.setattr(os, "write", lambda handle, data: write(handle, data[:5]))
        with pytest.raises(OSError, match=os.strerror(errno.ENOSPC)):
            log.append("another line")
        monkeypatch.undo()
        assert log.look().rest_bytes == 0
        log.append("two")
    assert LineLog(tmp_path / "journal").read() == ["one", "two"]


@pytest.mark.skipif(os.name != "posix", reason="SIGKILL is POSIX's")
def test_a_process_killed_while_it_writes_leaves_whole_lines_in_order(tmp_path: Path) -> None:
    path = tmp_path / "journal"
    script = (
        "import sys; from pathlib import Path; from player.world.line_log import LineLog\n"
        "log = LineLog(Path(sys.argv[1])); n = 0\n"
        "while True: log.append(f'{n} ' + 'x' * 3000); n += 1; print(n, flush=True)\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", script, str(path)], stdout=subprocess.PIPE, text=True, cwd=Path.cwd()
    ) as running:
        assert running.stdout is not None
        for _ in range(50):
            said = running.stdout.readline()
        running.send_signal(signal.SIGKILL)
    lines = LineLog(path).read()
    assert len(lines) >= int(said)
    assert [line.split()[0] for line in lines] == [str(number) for number in range(len(lines))]
