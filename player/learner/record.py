"""The learner's record: an SQLite file in the folder for data, that never leaves the machine."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Any, TypeVar, cast

from player.learner.migrations import TooNew, migrate
from player.learner.rescue import rescued
from player.learner.tries import Question, Try
from player.world.files import make_folder
from player.world.trouble import Trouble

T = TypeVar("T")

FILE_NAME = "record.sqlite3"
WAIT_S = 10.0
"""How long a write waits for another window's."""


def record_path(data: Path) -> Path:
    """The record's file in the folder for data."""
    return data / FILE_NAME


class Record:
    """The record, opened. Every write is whole and on its way to the disk when it returns.

    Raises Trouble, in a sentence for the learner, where the file cannot be opened, read or written.
    """

    def __init__(self, connection: sqlite3.Connection, path: Path, notes: tuple[str, ...] = ()) -> None:
        self._connection = connection
        self.path = path
        self.notes = notes
        """Sentences about what had to be mended."""

    # -- writing ---------------------------------------------------------------------------------------------

    def keep(self, questions: Iterable[Question] = (), tries: Iterable[Try] = ()) -> int:
        """Keep questions and tries, all or none; a try whose `uid` is kept already is left as it is.

        Returns how many of the tries are new.
        """
        asked = [_question_row(one) for one in questions]
        given = [_try_row(one) for one in tries]

        def kept(connection: sqlite3.Connection) -> int:
            connection.executemany(_KEEP_QUESTION, asked)
            before = connection.total_changes
            connection.executemany(_KEEP_TRY, given)
            return connection.total_changes - before

        return self._written(kept)

    def add_effort(self, uid: str, effort: str) -> None:
        """How it went, in the learner's words, for a try that is kept."""
        self.write("UPDATE tries SET effort = ? WHERE uid = ?", [(effort, uid)])

    def write(self, statement: str, rows: Iterable[tuple[Any, ...]]) -> None:
        """Run one statement for all these rows, all or none."""
        values = list(rows)
        self._written(lambda connection: connection.executemany(statement, values))

    # -- reading ---------------------------------------------------------------------------------------------

    def questions(self) -> dict[str, Question]:
        """All questions by key."""
        return {row[0]: _question(row) for row in self.read(f"SELECT {_QUESTION_COLUMNS} FROM questions")}

    def question(self, key: str) -> Question | None:
        """The question with this key, or None."""
        rows = self.read(f"SELECT {_QUESTION_COLUMNS} FROM questions WHERE key = ?", (key,))
        return _question(rows[0]) if rows else None

    def tries(self, question: str | None = None) -> Iterator[Try]:
        """The tries at one question, or all, in the order they were kept."""
        where, values = ("WHERE question = ?", (question,)) if question is not None else ("", ())
        for row in self.read(f"SELECT {_TRY_COLUMNS} FROM tries {where} ORDER BY id", values):
            yield _try(row)

    def read(self, query: str, values: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
        """The rows that a query finds."""
        return self._done(lambda: self._connection.execute(query, values).fetchall())

    def erase(self) -> None:
        """Forget everything, and leave nothing of it in the file."""

        def erased(connection: sqlite3.Connection) -> None:
            tables = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
            for (name,) in tables:
                connection.execute(f'DELETE FROM "{name}"')

        self._written(erased)
        for statement in ("PRAGMA wal_checkpoint(TRUNCATE)", "VACUUM", "PRAGMA wal_checkpoint(TRUNCATE)"):
            self.read(statement)

    def close(self) -> None:
        self._connection.close()

    def __enter__(self) -> Record:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def _written(self, work: Callable[[sqlite3.Connection], T]) -> T:
        """Do this work on the tables, all of it or none."""

        def whole() -> T:
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                done = work(self._connection)
                self._connection.execute("COMMIT")
                return done
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise

        return self._done(whole)

    def _done(self, work: Callable[[], T]) -> T:
        """Do this work; where damage comes to light, mend the record and do it once more."""
        try:
            return work()
        except sqlite3.OperationalError as error:
            raise _trouble(self.path, error) from error
        except sqlite3.DatabaseError:
            self._connection.close()
            self._connection, note = _mended(self.path)
            self.notes = (*self.notes, note)
        try:
            return work()
        except sqlite3.Error as error:
            raise _trouble(self.path, error) from error


def open_record(path: Path) -> Record:
    """Open the record, making it if need be; a damaged file is set aside and what can be read is taken over.

    `notes` of the record say what was done. Raises Trouble where it cannot be used at all.
    """
    try:
        make_folder(path.parent)
    except OSError as error:
        raise Trouble(f"Your answers cannot be kept in {path}: {error.strerror}.") from error
    try:
        return Record(_opened(path), path)
    except TooNew:
        raise Trouble(
            f"The record in {path} was made by a later moveteller than this one; it is left as it is."
        ) from None
    except sqlite3.OperationalError as error:
        raise _trouble(path, error) from error
    except sqlite3.DatabaseError:
        pass
    connection, note = _mended(path)
    return Record(connection, path, (note,))


def _mended(path: Path) -> tuple[sqlite3.Connection, str]:
    """A fresh record with what the damaged one still held, and a sentence about it. Raises Trouble."""
    try:
        aside, count = rescued(path, _opened)
        held = f"{count} answers could be read from it" if count else "nothing could be read from it"
        note = f"The record of your answers was damaged; it is set aside as {aside.name}, and {held}."
        return _opened(path), note
    except (sqlite3.Error, OSError) as error:
        raise _trouble(path, error) from error


def _opened(path: Path) -> sqlite3.Connection:
    """A connection with its tables in their present form. Raises sqlite3.Error, TooNew."""
    connection = sqlite3.connect(path, timeout=WAIT_S, isolation_level=None)
    try:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = NORMAL")
        connection.execute("PRAGMA secure_delete = ON")
        migrate(connection)
        connection.execute("SELECT count(*) FROM (SELECT 1 FROM tries LIMIT 1)").fetchone()
    except BaseException:
        connection.close()
        raise
    return connection


def _trouble(path: Path, error: Exception) -> Trouble:
    why = str(error)
    if "locked" in why:
        return Trouble(f"Another window is writing to {path}, and does not end. Close it, and try again.")
    if "full" in why:
        return Trouble(f"Your answers can no longer be kept in {path}: the disk is full.")
    return Trouble(f"The record of your answers in {path} cannot be used: {why}.")


_QUESTION_COLUMNS = "key, kind, root, moves, text, answers, ideas, lesson, title, line, part_key, of"
_KEEP_QUESTION = f"""
    INSERT INTO questions ({_QUESTION_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
    ON CONFLICT (key) DO UPDATE SET root = excluded.root, moves = excluded.moves, text = excluded.text,
        ideas = excluded.ideas, lesson = excluded.lesson, title = excluded.title, line = excluded.line,
        part_key = excluded.part_key, of = excluded.of
"""
_TRY_COLUMNS = (
    "uid, question, at, mode, visit, given, meant, grade, number, nudges, took_ms, sure, effort, script"
)
_KEEP_TRY = f"""
    INSERT INTO tries ({_TRY_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
    ON CONFLICT (uid) DO NOTHING
"""


def _question_row(one: Question) -> tuple[Any, ...]:
    return (
        one.key,
        one.kind,
        one.root,
        " ".join(one.moves),
        one.text,
        json.dumps(one.answers, ensure_ascii=False),
        json.dumps(one.ideas, ensure_ascii=False),
        one.lesson,
        one.title,
        one.line,
        int(one.part_key),
        one.like,
    )


def _question(row: tuple[Any, ...]) -> Question:
    return Question(
        key=row[0],
        kind=row[1],
        root=row[2],
        moves=tuple(row[3].split()),
        text=row[4],
        answers=tuple(json.loads(row[5])),
        ideas=tuple(json.loads(row[6])),
        lesson=row[7],
        title=row[8],
        line=row[9],
        part_key=bool(row[10]),
        like=row[11],
    )


def _try_row(one: Try) -> tuple[Any, ...]:
    return (
        one.uid,
        one.question,
        one.at.isoformat(timespec="milliseconds"),
        one.mode,
        one.visit,
        one.given,
        one.meant,
        one.grade,
        one.number,
        one.nudges,
        one.took_ms,
        one.sure,
        one.effort,
        one.script,
    )


def _try(row: tuple[Any, ...]) -> Try:
    return Try(row[0], row[1], datetime.fromisoformat(row[2]), *cast(Any, row[3:]))
