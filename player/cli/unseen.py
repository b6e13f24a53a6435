"""New positions for the ideas that a learner has met."""

from __future__ import annotations

from pathlib import Path

from player.cli.bar import Bar
from player.cli.lessons import read_script, scripts_in
from player.cues.sheet import Sheet
from player.learner.from_games import moments, sought
from player.learner.games import games_in
from player.learner.record import Record
from player.learner.revisit import Item
from player.learner.unseen import Taught, positions, taught, unseen
from player.world.trouble import Trouble
from player.world.world import World


def unseen_items(world: World, record: Record, idea: str = "", games: Path | None = None) -> list[Item]:
    """One new position for every idea met (or for this one, all there are), none that was asked before.

    They are looked for in the games of a PGN file, where one is named. Raises OSError, or Trouble where it is
    no text.
    """
    asked = {key for (key,) in record.read("SELECT DISTINCT question FROM tries WHERE mode = 'new position'")}
    met = {
        Path(lesson) for (lesson,) in record.read("SELECT DISTINCT lesson FROM questions WHERE lesson != ''")
    }
    items: list[Item] = []
    bar = Bar(world, "Looking for new positions")
    for folder in sorted({lesson.parent for lesson in met if lesson.is_file()}):
        items += _of_series(folder, met, asked, idea, games, bar)
    bar.close()
    return items


def _of_series(
    folder: Path, met: set[Path], asked: set[str], idea: str, games: Path | None, bar: Bar
) -> list[Item]:
    sheets: dict[Path, Sheet] = {}
    lessons: list[tuple[Path, Taught]] = []
    for path in scripts_in(folder):
        try:
            opened = read_script(path)
        except (OSError, Trouble):
            continue
        sheet = opened.sheet
        sheets[path] = sheet
        if path in met:
            keys = {step.line: step.ask.key for step in sheet.steps if step.ask is not None}
            lessons += [(path, one) for one in taught(opened.told, keys)]
    of = {one.key: path for path, one in lessons}
    items: list[Item] = []
    ideas: set[str] = set()
    known = [one for _, one in lessons]
    seen = positions(sheets.values())
    if games is not None:
        found = moments(games_in(games), sought(known, idea), seen, progress=bar)
    else:
        found = unseen(known, seen, idea, enough=6)
    for new in found:
        if not idea and new.idea in ideas:
            continue
        path = of[new.of]
        item = new.item(sheets[path], str(path))
        if item.question.key not in asked:
            items.append(item)
            ideas.add(new.idea)
    return items
