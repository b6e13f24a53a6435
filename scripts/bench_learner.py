"""How fast the record answers: .venv/bin/python -m scripts.bench_learner

A record of 50,000 answers to 1,500 questions about 40 ideas is made in a scratch folder; then each line is
the least of five runs, and what it is beside the plain reading of as many rows.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from player.learner.answer_sheet import Answered, AnswerSheet, lines_of, read_sheet
from player.learner.group import merged
from player.learner.progress import progress, sentences
from player.learner.record import Record, open_record
from player.learner.schedule import waits_count
from player.learner.tries import Question, Try

ANSWERS, QUESTIONS, IDEAS, SHEETS = 50_000, 1_500, 40, 100
START = datetime(2023, 1, 1, tzinfo=UTC)
NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)


def least(work: Callable[[], object], runs: int = 5) -> float:
    """Seconds of the quickest run."""
    best = float("inf")
    for _ in range(runs):
        begun = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - begun)
    return best


def fill(record: Record) -> None:
    """Answers by chance, three of four right, half an hour apart."""
    rng = random.Random(1)
    root = "8/8/8/8/8/8/8/K1k5 w - - 0 1"
    asked = [
        Question(f"q{n}", "move", root, (), "Where?", ("a1a2",), (f"idea {n % IDEAS}",), "/l", "L", n)
        for n in range(QUESTIONS)
    ]
    tries = []
    for number in range(ANSWERS):
        at = START + timedelta(minutes=30 * number)
        grade = "wrong" if rng.random() < 0.25 else "right"
        key = f"q{rng.randrange(QUESTIONS)}"
        uid = f"u{number}"
        tries.append(Try(uid, key, at, "revisit", "v", "Ka2", "a1a2", grade, 1, 0, 1000))  # type: ignore[arg-type]
    record.keep(asked, tries)


def sheets() -> list[str]:
    """Answer sheets of a lesson with twelve questions, as text."""
    rng = random.Random(2)
    out = []
    for _ in range(SHEETS):
        answers = []
        for number in range(12):
            grade = rng.choice(("right", "wrong"))
            answers.append(Answered(f"{number:012x}", ((grade, "g1f3"),)))  # type: ignore[arg-type]
        out.append("\n".join(lines_of(AnswerSheet("L", "abc", tuple(answers), (), 0))))
    return out


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "record.sqlite3"
        with open_record(path) as record:
            fill(record)
            begun = time.perf_counter()
            waits_count(record, NOW)
            first = time.perf_counter() - begun
            rows = least(lambda: record.read("SELECT * FROM tries"))
            told = least(lambda: sentences(progress(record, NOW), NOW))
            waiting = least(lambda: waits_count(record, NOW))
        opening = least(lambda: open_record(path).close())
    written = sheets()
    merging = least(lambda: merged([read_sheet(text, "x") for text in written]))
    print(f"reading {ANSWERS:,} rows              {rows * 1000:8.1f} ms")
    print(f"progress in sentences           {told * 1000:8.1f} ms  {told / rows:6.2f}x   (aim 500 ms)")
    print(f"what waits for today            {waiting * 1000:8.1f} ms  {waiting / rows:6.2f}x   (aim 50 ms)")
    print(f"opening the record              {opening * 1000:8.1f} ms  {opening / rows:6.2f}x")
    print(f"all {QUESTIONS:,} cards made for once     {first * 1000:8.1f} ms  {first / rows:6.2f}x")
    print(
        f"{SHEETS} sheets read and merged      {merging * 1000:8.1f} ms  {merging / rows:6.2f}x   (aim 2 s)"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
