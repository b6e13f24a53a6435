"""What checking has found out, kept on disk so that only what changed is looked at again.

One SQLite file. An entry lies under the hash of everything its content depends on, the program itself
included, so that nothing in it can be out of date; it carries a hash of itself, so that a damaged one counts
as none.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.util
import json
import sqlite3
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import player
from player.world.files import make_folder

FILE_NAME = "checked.sqlite3"
LIMIT_BYTES = 64 * 1024 * 1024
_FORM = "1"
_PRUNED_SHARE = 0.75
_WAIT_SECONDS = 2.0
_NO_DAMAGE = {
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_LOCKED,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_PERM,
    sqlite3.SQLITE_NOMEM,
    sqlite3.SQLITE_INTERRUPT,
}
_LIBRARIES = ("chess", "lark", "rapidfuzz")
_LAYERS = ("facts", "wording", "script", "check", "engine")


class Kept:
    """The entries of one file. Trouble with the disk is no trouble for the check: nothing is then kept."""

    def __init__(
        self, folder: Path, limit_bytes: int = LIMIT_BYTES, wait_seconds: float = _WAIT_SECONDS
    ) -> None:
        self._path = folder / FILE_NAME
        self._limit = limit_bytes
        self._wait = wait_seconds
        self._db: sqlite3.Connection | None = None
        self._fresh: dict[str, str] = {}
        self._used: set[str] = set()
        self._off = False

    def get(self, key: str) -> Any:
        """The value kept under a key, or None where there is none that is whole."""
        if key in self._fresh:
            return json.loads(self._fresh[key])
        row = None
        with self._trouble_ends_it():
            found = self._open()
            if found is not None:
                row = found.execute("select value, hash from kept where key = ?", (key,)).fetchone()
        if row is None or not isinstance(row[0], str) or _hash(key, row[0]) != row[1]:
            return None
        self._used.add(key)
        return json.loads(row[0])

    def put(self, key: str, value: Any) -> None:
        """Keep a value that JSON can hold; it is written when the file is closed."""
        self._fresh[key] = json.dumps(value, ensure_ascii=True, separators=(",", ":"))

    def save(self) -> None:
        """Write what is new, all at once, and make room by removing what has longest not been used."""
        fresh, self._fresh = self._fresh, {}
        used, self._used = self._used, set()
        if not fresh:
            return
        with self._trouble_ends_it():
            db = self._open()
            if db is None:
                return
            with db:
                db.execute("begin immediate")
                turn = (db.execute("select max(turn) from kept").fetchone()[0] or 0) + 1
                rows = ((key, value, _hash(key, value), turn) for key, value in fresh.items())
                db.executemany("insert or replace into kept values (?, ?, ?, ?)", rows)
                db.executemany("update kept set turn = ? where key = ?", ((turn, key) for key in used))
                self._prune(db)

    def close(self) -> None:
        self.save()
        if self._db is not None:
            with contextlib.suppress(sqlite3.Error):
                self._db.close()
            self._db = None

    def _open(self) -> sqlite3.Connection | None:
        if self._db is None and not self._off:
            make_folder(self._path.parent)
            self._db = sqlite3.connect(self._path, timeout=self._wait, isolation_level=None)
            self._db.execute(
                "create table if not exists kept "
                "(key text primary key, value text, hash text, turn integer) without rowid"
            )
        return self._db

    def _prune(self, db: sqlite3.Connection) -> None:
        size = db.execute("select coalesce(sum(length(value) + 150), 0) from kept").fetchone()[0]
        if size <= self._limit:
            return
        for key, length in db.execute("select key, length(value) + 150 from kept order by turn").fetchall():
            if size <= self._limit * _PRUNED_SHARE:
                break
            db.execute("delete from kept where key = ?", (key,))
            size -= length

    @contextlib.contextmanager
    def _trouble_ends_it(self) -> Iterator[None]:
        """A file that is none of ours any more is removed and made anew next time; a busy one is left."""
        try:
            yield
        except (sqlite3.Error, ValueError, TypeError) as error:
            self._give_up()
            if getattr(error, "sqlite_errorcode", 0) & 0xFF not in _NO_DAMAGE:
                with contextlib.suppress(OSError):
                    self._path.unlink()
        except OSError:
            self._give_up()

    def _give_up(self) -> None:
        self._off = True
        if self._db is not None:
            with contextlib.suppress(sqlite3.Error):
                self._db.close()
        self._db = None


def key_of(kind: str, *parts: Any) -> str:
    """The name under which a result is kept: a hash of the program and of all that went into it."""
    text = json.dumps([_FORM, program_hash(), kind, parts], ensure_ascii=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


@cache
def program_hash() -> str:
    """A hash of all that decides what checking finds: our own files below the skins, and the libraries'."""
    home = Path(player.__file__).parent
    files = [path for layer in _LAYERS for path in (home / layer).rglob("*") if path.suffix != ".pyc"]
    total = hashlib.sha256(player.__version__.encode())
    for path in sorted(path for path in files if path.is_file()):
        total.update(str(path.relative_to(home)).encode() + b"\0" + path.read_bytes() + b"\0")
    for name in _LIBRARIES:
        spec = importlib.util.find_spec(name)
        if spec is not None and spec.origin is not None:
            total.update(Path(spec.origin).read_bytes())
    return total.hexdigest()


def _hash(key: str, value: str) -> str:
    return hashlib.sha256(f"{key} {value}".encode()).hexdigest()[:24]
