"""An answer sheet: one learner's result for one lesson, as anonymous plain text.

It has no name, no date and no time of day. The form is a line an item, each a key, a colon and words:

    answer sheet: 1
    lesson: The Set-up
    script: c4f14d8961e6
    question c0392d7a36d7: wrong h2h4, right e1g1, nudges 1, felt sure
    question 5e0d6a3c9b11: told
    repeated line 44: 2 times
    stopped: line 68

A learner may take any line but the first three out, and what is left is still a sheet.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from player.learner.record import Record
from player.learner.tries import Sureness, Try
from player.stage.happenings import Grade
from player.world.clean import clean_line
from player.world.trouble import Trouble

FORM = 1
MOST_BYTES = 5_000
_GRADES: frozenset[str] = frozenset({"right", "also", "wrong", "told", "passed", "seen"})
_SURE: frozenset[str] = frozenset({"sure", "fairly sure", "guess"})


@dataclass(frozen=True, slots=True)
class Answered:
    """What became of a question the first time it was put: the tries in order (grade, what was meant)."""

    question: str
    tries: tuple[tuple[Grade, str], ...]
    nudges: int = 0
    sure: Sureness | None = None

    @property
    def first_right(self) -> bool | None:
        """Whether the first try was right; None where there was none that counts."""
        grade = self.tries[0][0] if self.tries else "told"
        return None if grade in ("told", "passed", "seen") else grade != "wrong"


@dataclass(frozen=True, slots=True)
class AnswerSheet:
    """The result. `script` begins the hash of the script's text; `repeated` maps a line to how often its
    moment was heard again; `stopped` is the line where the learner left, 0 for the end, None where not said.
    """

    lesson: str
    script: str
    answers: tuple[Answered, ...] = ()
    repeated: tuple[tuple[int, int], ...] = ()
    stopped: int | None = None


def sheet_from(record: Record, lesson: str, title: str, script: str, order: Iterable[str]) -> AnswerSheet:
    """The sheet of the lesson at this path. `order` has its questions' keys as they are told.

    Of every question the first putting counts whose end is known, in the lesson itself.
    """
    answers = []
    for key in order:
        tries = [one for one in record.tries(key) if one.mode == "lesson"]
        if tries:
            visit = tries[0].visit
            answers.append(_answered(key, [one for one in tries if one.visit == visit]))
    moments = record.read(
        "SELECT what, line, count(*) FROM moments WHERE lesson = ? AND what = 'repeated'"
        " GROUP BY line ORDER BY line",
        (lesson,),
    )
    last = record.read(
        "SELECT what, line FROM moments WHERE lesson = ? AND what IN ('stopped', 'over') ORDER BY id",
        (lesson,),
    )
    over = any(what == "over" for what, _ in last)
    return AnswerSheet(
        clean_line(title),
        script[:12],
        tuple(answers),
        tuple((line, count) for _, line, count in moments),
        0 if over else last[-1][1] if last else None,
    )


def _answered(key: str, tries: list[Try]) -> Answered:
    return Answered(
        key,
        tuple((one.grade, _plain(one.meant)) for one in tries),
        max(one.nudges for one in tries),
        tries[0].sure,
    )


def _plain(meant: str) -> str:
    """What was meant, in at most forty characters that no line needs for itself."""
    return re.sub(r"[,:\s]+", " ", clean_line(meant)).strip()[:40]


def lines_of(sheet: AnswerSheet) -> list[str]:
    """The sheet as lines of text; those that would make it too long are left out, repeats first."""
    head = [f"answer sheet: {FORM}", f"lesson: {sheet.lesson}", f"script: {sheet.script}"]
    answers = [_answer_line(one) for one in sheet.answers]
    repeats = [
        f"repeated line {line}: {'once' if count == 1 else f'{count} times'}"
        for line, count in sheet.repeated
    ]
    end = (
        []
        if sheet.stopped is None
        else [f"stopped: line {sheet.stopped}" if sheet.stopped else "stopped: end"]
    )
    while True:
        lines = [*head, *answers, *repeats, *end]
        if sum(len(line.encode()) + 1 for line in lines) < MOST_BYTES:
            return lines
        (repeats or answers).pop()


def _answer_line(one: Answered) -> str:
    parts = [f"{grade} {meant}".strip() for grade, meant in one.tries]
    if one.nudges:
        parts.append(f"nudges {one.nudges}")
    if one.sure is not None:
        parts.append(f"felt {one.sure}")
    return f"question {one.question}: {', '.join(parts)}"


def read_sheet(text: str, name: str) -> AnswerSheet:
    """The sheet that a text holds. Raises Trouble, naming the file, where it holds none."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if not lines or lines[0] != f"answer sheet: {FORM}":
        raise Trouble(f"{name} is no answer sheet: its first line is not 'answer sheet: {FORM}'.")
    lesson = script = ""
    stopped: int | None = None
    answers: dict[str, Answered] = {}
    repeated: dict[int, int] = {}
    for line in lines[1:]:
        key, _, words = (part.strip() for part in line.partition(":"))
        if key == "lesson":
            lesson = clean_line(words)
        elif key == "script":
            script = clean_line(words)[:12]
        elif key == "stopped":
            number = re.fullmatch(r"line (\d{1,6})", words)
            stopped = int(number.group(1)) if number else 0 if words == "end" else stopped
        elif found := re.fullmatch(r"repeated line (\d{1,6})", key):
            times = re.fullmatch(r"(\d{1,4}) times", words)
            repeated[int(found.group(1))] = int(times.group(1)) if times else 1
        elif found := re.fullmatch(r"question ([0-9a-f]{12})", key):
            answered = _read_answer(found.group(1), words)
            if answered is not None:
                answers.setdefault(answered.question, answered)
    if not lesson:
        raise Trouble(f"{name} does not say of which lesson it is.")
    return AnswerSheet(lesson, script, tuple(answers.values()), tuple(sorted(repeated.items())), stopped)


def _read_answer(key: str, words: str) -> Answered | None:
    tries: list[tuple[Grade, str]] = []
    nudges, sure = 0, None
    for part in words.split(","):
        first, _, rest = part.strip().partition(" ")
        if first in _GRADES:
            tries.append((first, clean_line(rest).strip()[:40]))  # type: ignore[arg-type]
        elif first == "nudges" and rest.isdigit():
            nudges = min(int(rest), 99)
        elif first == "felt" and rest in _SURE:
            sure = rest
    return Answered(key, tuple(tries), nudges, sure) if tries else None  # type: ignore[arg-type]
