"""What is known of the lessons on the shelf: read from the scripts and from the journals beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from player.session.journal import Journal, Kept, journal_path
from player.wording.pace import clock
from player.world.clean import clean_line
from player.world.files import read_text_forgiving
from player.world.trouble import Trouble
from player.world.world import World


@dataclass(frozen=True, slots=True)
class Row:
    """A lesson on the shelf: title, coach, series, length in ms, questions, and where the learner stopped."""

    path: Path
    title: str
    coach: str = ""
    series: str = ""
    ms: int = 0
    questions: int = 0
    stopped: str = ""
    known: bool = False

    @property
    def about(self) -> str:
        """Coach, length, questions and where it stopped, in a few words."""
        if not self.known:
            return self.stopped
        minutes = max(1, round(self.ms / 60_000))
        asked = (
            f"{self.questions} question{'' if self.questions == 1 else 's'}"
            if self.questions
            else "no questions"
        )
        said = [self.coach, f"{minutes} minute{'' if minutes == 1 else 's'}", asked, self.stopped]
        return ", ".join(one for one in said if one)


def named(path: Path) -> Row:
    """A row that knows only its file's name."""
    return Row(path, clean_line(path.stem.replace("-", " ")) or path.name)


def read_row(world: World, path: Path) -> Row:
    """Everything about a lesson; a script that cannot be read says so in its row."""
    from player.cues.compile import compile_lesson
    from player.script.follow import follow
    from player.script.read import read

    try:
        source = read_text_forgiving(path)
    except (OSError, Trouble):
        return Row(path, named(path).title, stopped="it cannot be read")
    lesson, _ = read(source)
    told, _ = follow(lesson)
    sheet = compile_lesson(told)
    series = lesson.header.series
    return Row(
        path,
        clean_line(sheet.title) or named(path).title,
        clean_line(sheet.coach),
        clean_line(series[0]) if series else "",
        sheet.starts[-1] if sheet.starts else 0,
        len(sheet.questions),
        stopped(world, path, {step.key: ms for step, ms in zip(sheet.steps, sheet.starts, strict=False)}),
        True,
    )


def stopped(world: World, path: Path, starts: dict[str, int]) -> str:
    """Where the learner stopped, from the journal: "stopped at 3:20", "told to its end", or ""."""
    kept = kept_of(world, path)
    if kept is None:
        return ""
    if kept.over:
        return "told to its end"
    return f"stopped at {clock(starts[kept.reached])}" if kept.reached in starts else "begun"


def kept_of(world: World, path: Path) -> Kept | None:
    """What the journal has of a lesson that was begun; None where it has nothing or cannot be read."""
    try:
        kept, _ = Journal(journal_path(world.folders.state, path)).look()
    except OSError:
        return None
    return kept if kept is not None and kept.moves else None


def place_kept(world: World, path: Path) -> str:
    """Where the learner stopped, as `stopped` says it; a script that was never begun is not even read."""
    return read_row(world, path).stopped if kept_of(world, path) is not None else ""


def first_unfinished(world: World, lessons: Sequence[Path]) -> Path | None:
    """The first of these that was not told to its end; None where all were."""
    return next((path for path in lessons if (kept := kept_of(world, path)) is None or not kept.over), None)


def waits_words(count: int) -> str:
    """How many questions wait for today, in a sentence."""
    return "A question waits for today." if count == 1 else f"{count} questions wait for today."


def meant(rows: list[Row], words: str) -> int | None:
    """The index of the lesson that these words mean: its number or some of its title; None for none."""
    low = words.casefold().strip(" .")
    if low.isdigit():
        return int(low) - 1 if 0 < int(low) <= len(rows) else None
    titles = [row.title.casefold() for row in rows]
    inside = [n for n, title in enumerate(titles) if low in title]
    if len(inside) == 1:
        return inside[0]
    from rapidfuzz import fuzz, process

    found = process.extractOne(low, titles, scorer=fuzz.WRatio, score_cutoff=75)
    return titles.index(found[0]) if found else None
