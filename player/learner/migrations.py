"""The record's tables, and the way from every older form to the present one.

SQLite's `user_version` is the number of migrations done. A migration is never changed once it is out: a new
need is a new one at the end.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass


@dataclass(frozen=True)
class Migration:
    """One named change of the tables."""

    name: str
    script: str


MIGRATIONS: tuple[Migration, ...] = (
    Migration(
        "questions and tries",
        """
        CREATE TABLE questions (
            key TEXT PRIMARY KEY, kind TEXT NOT NULL, root TEXT NOT NULL, moves TEXT NOT NULL,
            text TEXT NOT NULL, answers TEXT NOT NULL, ideas TEXT NOT NULL, lesson TEXT NOT NULL,
            title TEXT NOT NULL, line INTEGER NOT NULL
        );
        CREATE TABLE tries (
            id INTEGER PRIMARY KEY, uid TEXT NOT NULL UNIQUE, question TEXT NOT NULL, at TEXT NOT NULL,
            mode TEXT NOT NULL, visit TEXT NOT NULL, given TEXT NOT NULL, meant TEXT NOT NULL,
            grade TEXT NOT NULL, number INTEGER NOT NULL, nudges INTEGER NOT NULL, took_ms INTEGER,
            sure TEXT, effort TEXT, script TEXT NOT NULL
        );
        CREATE INDEX tries_of_question ON tries (question, id);
        """,
    ),
    Migration(
        "key questions and unseen positions",
        """
        ALTER TABLE questions ADD COLUMN part_key INTEGER NOT NULL DEFAULT 0;
        ALTER TABLE questions ADD COLUMN of TEXT NOT NULL DEFAULT '';
        """,
    ),
    Migration(
        "what waits, kept ready",
        """
        CREATE TABLE waiting (
            question TEXT PRIMARY KEY, card TEXT NOT NULL, due TEXT NOT NULL, tries INTEGER NOT NULL
        );
        CREATE INDEX waiting_due ON waiting (due);
        CREATE TABLE fits (
            id INTEGER PRIMARY KEY, at TEXT NOT NULL, answers INTEGER NOT NULL, kept INTEGER NOT NULL,
            weights TEXT NOT NULL, losses TEXT NOT NULL
        );
        """,
    ),
    Migration(
        "ideas met, and beats repeated",
        """
        CREATE TABLE ideas (
            name TEXT NOT NULL, lesson TEXT NOT NULL, title TEXT NOT NULL, words TEXT NOT NULL,
            at TEXT NOT NULL, PRIMARY KEY (name, lesson)
        );
        CREATE TABLE moments (
            id INTEGER PRIMARY KEY, lesson TEXT NOT NULL, script TEXT NOT NULL, step TEXT NOT NULL,
            line INTEGER NOT NULL, what TEXT NOT NULL, at TEXT NOT NULL
        );
        CREATE INDEX moments_of_lesson ON moments (lesson, what);
        """,
    ),
)

PRESENT = len(MIGRATIONS)


class TooNew(Exception):
    """The record was made by a later program than this one."""


def migrate(connection: sqlite3.Connection) -> None:
    """Bring the tables to their present form, each step whole or not at all. Raises TooNew."""
    while True:
        connection.execute("BEGIN IMMEDIATE")
        try:
            done = int(connection.execute("PRAGMA user_version").fetchone()[0])
            if done > PRESENT:
                raise TooNew
            if done == PRESENT:
                connection.execute("COMMIT")
                return
            for statement in MIGRATIONS[done].script.split(";"):
                if statement.strip():
                    connection.execute(statement)
            connection.execute(f"PRAGMA user_version = {done + 1}")
            connection.execute("COMMIT")
        except BaseException:
            connection.execute("ROLLBACK")
            raise
