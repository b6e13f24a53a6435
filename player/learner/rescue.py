"""What can still be read from a damaged record."""

from __future__ import annotations

import contextlib
import sqlite3
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from player.world.files import set_aside

_AT_ONCE = 200
_EMPTY_STRETCHES = 50
"""So many stretches without a row, where the last row's number cannot be read, are taken for the end."""


def rescued(path: Path, opened: Callable[[Path], sqlite3.Connection]) -> tuple[Path, int]:
    """Set the damaged file aside, begin a fresh record with what can be read from it.

    Returns where the damaged file is now, and how many answers were taken over. Raises OSError and
    sqlite3.Error.
    """
    aside = set_aside(path)
    for ending in ("-wal", "-shm"):
        beside = path.with_name(path.name + ending)
        if beside.exists():
            beside.replace(aside.with_name(aside.name + ending))
    fresh = opened(path)
    count = 0
    try:
        with contextlib.closing(sqlite3.connect(aside)) as old:
            for table in ("questions", "tries", "ideas", "moments", "fits"):
                kept = _copied(old, fresh, table)
                count += kept if table == "tries" else 0
    finally:
        fresh.close()
    return aside, count


def _copied(old: sqlite3.Connection, fresh: sqlite3.Connection, table: str) -> int:
    """Copy the rows of a table that can be read; returns how many."""
    known = {row[1]: row for row in fresh.execute(f"PRAGMA table_info({table})")}
    try:
        columns = [row[1] for row in old.execute(f"PRAGMA table_info({table})") if row[1] in known]
    except sqlite3.Error:
        return 0
    if not columns:
        return 0
    names = ", ".join(columns)
    marks = ", ".join("?" for _ in columns)
    count = 0
    for row in _rows(old, table, names):
        with contextlib.suppress(sqlite3.Error):
            fresh.execute(f"INSERT OR IGNORE INTO {table} ({names}) VALUES ({marks})", row)
            count += 1
    return count


def _rows(old: sqlite3.Connection, table: str, names: str) -> Iterator[tuple[Any, ...]]:
    """All rows that can be read: in stretches of row numbers, so that a damaged page costs only its own."""
    try:
        last = old.execute(f"SELECT max(rowid) FROM {table}").fetchone()[0] or 0
    except sqlite3.Error:
        last = sys.maxsize
    empty = 0
    for first in range(0, last + 1, _AT_ONCE):
        try:
            rows = old.execute(
                f"SELECT {names} FROM {table} WHERE rowid BETWEEN ? AND ?", (first, first + _AT_ONCE - 1)
            ).fetchall()
        except sqlite3.Error:
            rows = []
            for number in range(first, min(first + _AT_ONCE, last + 1)):
                with contextlib.suppress(sqlite3.Error):
                    rows += old.execute(f"SELECT {names} FROM {table} WHERE rowid = ?", (number,)).fetchall()
        empty = 0 if rows else empty + 1
        if empty > _EMPTY_STRETCHES and last == sys.maxsize:
            return
        yield from (row for row in rows if all(value is not None for value in row[:2]))
