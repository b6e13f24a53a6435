"""Finding the lesson that is meant, and reading it into a sheet."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from player.script.faults import Fault
from player.script.model import Lesson
from player.world.clean import clean_line
from player.world.demo import demo_lessons
from player.world.files import read_text_forgiving
from player.world.trouble import Trouble
from player.world.world import World

if TYPE_CHECKING:  # finding lessons needs no board, and loading one takes its time
    from player.cues.sheet import Sheet
    from player.script.told import ToldLesson

SUFFIX = ".lesson"


@dataclass(frozen=True)
class Opened:
    """A script with all that was made of it: faults of reading and of moves are in `faults`."""

    path: Path
    source: str
    lesson: Lesson
    told: ToldLesson
    faults: tuple[Fault, ...]

    @property
    def sheet(self) -> Sheet:
        from player.cues.compile import compile_lesson

        return compile_lesson(self.told)


def read_script(path: Path) -> Opened:
    """Read and follow a script. Raises OSError, or Trouble where it is no text."""
    from player.script.follow import follow
    from player.script.read import read

    source = read_text_forgiving(path)
    lesson, faults = read(source)
    told, more = follow(lesson)
    return Opened(
        path, source, lesson, told, tuple(sorted((*faults, *more), key=lambda f: (f.line, f.column)))
    )


def scripts_in(folder: Path) -> list[Path]:
    """The scripts of a folder, in the order of its series, then by name."""
    scripts = sorted(
        (path for path in folder.iterdir() if path.suffix == SUFFIX and path.is_file()),
        key=lambda path: [int(p) if p.isdigit() else p.casefold() for p in re.split(r"(\d+)", path.name)],
    )
    return sorted(scripts, key=lambda path: header_of(path)[0])


def header_of(path: Path) -> tuple[int, str, str]:
    """Number in the series (large where there is none), title, and series; from the top of the file alone."""
    try:
        text = read_text_forgiving(path)
    except (OSError, Trouble):
        return 10_000, path.stem, ""
    title = re.search(r"^title:[ \t]*(.+)$", text, re.M)
    series = re.search(r"^series:[ \t]*(.+?),[ \t]*(\d+)[ \t]+of[ \t]+\d+[ \t]*$", text, re.M)
    number = int(series.group(2)) if series else 10_000
    name = clean_line(title.group(1)) if title else path.stem
    return number, name, clean_line(series.group(1)) if series else ""


def find_lesson(world: World, named: str) -> Path:
    """The script that is meant: a path, a folder (its first), or the name or number of a demo lesson.

    Raises Trouble where there is none.
    """
    found = find_lessons(world, named)
    return found[0]


def find_lessons(world: World, named: str) -> list[Path]:
    """The script that is meant, or all scripts of a folder. Raises Trouble where there is none."""
    path = world.here / Path(named).expanduser()
    if path.is_dir():
        scripts = scripts_in(path)
        if not scripts:
            raise Trouble(f"There is no lesson in {named}: a lesson's file ends in {SUFFIX}.")
        return scripts
    if path.exists():
        return [path]
    beside = path.with_name(path.name + SUFFIX)
    if beside.is_file():
        return [beside]
    demo = find_demo(named)
    if demo is not None:
        return [demo]
    demos = demo_scripts()
    hint = f" The demo lessons go by number: 1 to {len(demos)}." if demos else ""
    raise Trouble(f"There is no lesson at {named}.{hint}")


def following(path: Path) -> tuple[Path, str] | None:
    """The next lesson of the series in the script's folder, and its title; None at its end or off it."""
    _, _, series = header_of(path)
    if not series:
        return None
    try:
        scripts = scripts_in(path.parent)
    except OSError:
        return None
    of_it = [(one, header_of(one)) for one in scripts]
    later = [(one, title) for one, (_, title, name) in of_it if name == series]
    here = next((n for n, (one, _) in enumerate(later) if one.resolve() == path.resolve()), len(later))
    return later[here + 1] if here + 1 < len(later) else None


def demo_scripts() -> list[Path]:
    """The lessons that come with the program, in order."""
    folder = demo_lessons()
    return scripts_in(folder) if folder is not None else []


def find_demo(named: str) -> Path | None:
    """A demo lesson by its number, its file's name or its title."""
    if "/" in named or "\\" in named:
        return None
    wanted = _bare(named)
    for number, path in enumerate(demo_scripts(), 1):
        names = {_bare(path.stem), _bare(re.sub(r"^\d+[-_ ]*", "", path.stem)), _bare(header_of(path)[1])}
        if named == str(number) or wanted in names:
            return path
    return None


def _bare(name: str) -> str:
    return re.sub(r"[\W_]+", " ", name.removesuffix(SUFFIX).casefold()).strip()
