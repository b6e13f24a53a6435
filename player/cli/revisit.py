"""`moveteller revisit`: the questions that wait for today."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import click

from player.cli.bar import Bar
from player.cli.keeper import keeper_for
from player.cli.lessons import read_script
from player.cli.perform import Piece, Wishes, perform
from player.cues.gather import gathered
from player.cues.sheet import Sheet
from player.learner.record import Record, open_record, record_path
from player.learner.revisit import Item, fits_in, found_in_lessons, mixed, waiting_questions
from player.learner.tries import Mode
from player.lines.typing import Typing
from player.session.session import Told
from player.stage.happenings import Quit
from player.world.trouble import Trouble
from player.world.world import World

MANY = 12
"""From so many questions on, after some weeks away, a short choice is offered first."""
AWAY = timedelta(days=14)
FAREWELL = "That is all that waits for today."


@click.command("revisit")
@click.option(
    "--minutes",
    type=click.FloatRange(min=0, min_open=True),
    metavar="N",
    help="End after the question during which N minutes run out.",
)
@click.option("--idea", default="", metavar="NAME", help="Only what belongs to this idea.")
@click.option(
    "--new", is_flag=True, help="In positions that no lesson shows, the idea's fact proved in each."
)
@click.option(
    "--game",
    "games",
    type=click.Path(path_type=Path, dir_okay=False),
    help="With --new: look for the positions in the games of this PGN file.",
)
@click.option("--lines", is_flag=True, help="Line by line, for screen readers, pipes and plain terminals.")
@click.option("--hands-free", is_flag=True, help="Everything in words, and questions pass by themselves.")
@click.option("--mute", is_flag=True, help="No voice.")
@click.option("--ear", is_flag=True, help="Announce everything in words.")
@click.option("--width", type=click.IntRange(10, 1000), metavar="N", help="Lines of at most N cells.")
@click.option("--voice", metavar="NAME", help="Which voice speaks; 'on' for the usual one.")
@click.option("--at-once", is_flag=True, help="Tell without waiting, for pipes and tests.")
@click.pass_obj
def command(
    world: World, /, minutes: float | None, idea: str, new: bool, games: Path | None, **wishes: object
) -> int:
    """Ask again what waits for today, from all lessons you have met."""
    wished = Wishes(minutes=minutes, effort=True, **wishes)  # type: ignore[arg-type]
    if new or games is not None:
        return new_positions(world, wished, idea, games)
    return revisit(world, wished, idea)


def revisit(world: World, wishes: Wishes, idea: str = "") -> int:
    """Ask what waits for today in the skin of this terminal; 0, also where nothing waits."""
    with open_record(record_path(world.folders.data)) as record:
        for note in record.notes:
            print(note, file=world.stderr)
        plan_anew(world, record)
        now = world.now()
        questions = waiting_questions(record, now, idea)
        found = found_in_lessons(questions, opened_sheet)
        for note in found.notes:
            print(note, file=world.stderr)
        if not found.items:
            print(nothing_waits(record, now, idea), file=world.stdout)
            return 0
        away = last_answer(record)
    items, typing = found.items, Typing(world.stdin)
    if wishes.minutes is None and len(items) >= MANY and (away is None or now - away >= AWAY):
        minutes = short_choice(world, typing, len(items))
        wishes = replace(wishes, minutes=minutes)
    if wishes.minutes is not None:
        items = items[: max(MANY, 3 * fits_in(wishes.minutes))]
    return ask(world, mixed(items, random.Random(now.toordinal())), wishes, typing)


def new_positions(world: World, wishes: Wishes, idea: str = "", games: Path | None = None) -> int:
    """Ask the ideas met in positions that no lesson shows; 0, also where there are none left.

    `games` is a PGN file to look for them in. Raises OSError, or Trouble where it is no text.
    """
    from player.cli.unseen import unseen_items

    with open_record(record_path(world.folders.data)) as record:
        for note in record.notes:
            print(note, file=world.stderr)
        file = world.here / games.expanduser() if games is not None else None
        items = unseen_items(world, record, idea, file)
    if not items:
        what = f"There is no new position about '{idea}'." if idea else "There is no new position to show."
        print(f"{what} They come from the ideas asked in lessons you have played.", file=world.stdout)
        return 0
    ordered = mixed(items, random.Random(world.now().toordinal()))
    farewell = "That is all that is new today."
    return ask(world, ordered, wishes, Typing(world.stdin), "new position", farewell)


def ask(
    world: World,
    items: Sequence[Item],
    wishes: Wishes,
    typing: Typing,
    mode: Mode = "revisit",
    farewell: str = FAREWELL,
) -> int:
    """Ask these items; where the learner goes to a lesson, come back to the same question after it."""
    from player.learner.keeper import Source
    from player.session.journal import FOLDER

    sheet = gathered("Revisit", [item.picked for item in items], farewell=farewell)
    source = "\n".join(item.question.key for item in items)
    journal = world.folders.state / FOLDER / "revisit.log"
    known = {item.question.key: item.question for item in items}
    left: list[Quit] = []

    def listener(told: Told) -> None:
        if isinstance(told, Quit):
            left.append(told)

    fresh = True
    while True:
        piece = Piece(sheet, source, journal, keeper=keeper_for(world, sheet, Source("", "", mode), known))
        left.clear()
        code = perform(world, piece, replace(wishes, fresh=fresh), listener, typing)
        if code or not left or not left[-1].to:
            return code
        _go_to(world, left[-1], wishes, typing)
        fresh = False


def _go_to(world: World, left: Quit, wishes: Wishes, typing: Typing) -> None:
    """Play the lesson from the question's place on, keeping neither place nor answers."""
    from player.session.journal import FOLDER

    opened = read_script(Path(left.to))
    journal = world.folders.state / FOLDER / "taken-there.log"
    piece = Piece(opened.sheet, opened.source, journal, opened.lesson.header.voice)
    perform(world, piece, replace(wishes, at=f"step {left.step}", fresh=True, minutes=None), typing=typing)


def opened_sheet(path: Path) -> Sheet | None:
    """The sheet of a lesson; None where it is not there or tells nothing."""
    try:
        sheet = read_script(path).sheet
    except (OSError, Trouble):
        return None
    return sheet if sheet.steps else None


def plan_anew(world: World, record: Record) -> None:
    """Fit the schedule to the learner, where there are enough new answers."""
    from player.learner.fit import fit

    bar = Bar(world, "Planning the days from your answers")
    found = fit(record, world.now(), bar)
    bar.close()
    if found is not None and found.keep:
        print("The days between questions are now planned from your own answers.", file=world.stderr)


def last_answer(record: Record) -> datetime | None:
    """When the learner last answered anything."""
    rows = record.read("SELECT at FROM tries ORDER BY id DESC LIMIT 1")
    return datetime.fromisoformat(rows[0][0]) if rows else None


def nothing_waits(record: Record, now: datetime, idea: str) -> str:
    """That nothing waits, and what comes next, in a sentence or two."""
    if not record.read("SELECT 1 FROM tries LIMIT 1"):
        return "Nothing waits yet: what you answer in a lesson comes back here on later days."
    if idea:
        return f"Nothing about '{idea}' waits for today."
    rows = record.read("SELECT min(due) FROM waiting WHERE due < '9999'")
    if not rows or rows[0][0] is None:
        return "Nothing waits for today."
    days = (datetime.fromisoformat(rows[0][0]).astimezone(now.tzinfo).date() - now.date()).days
    when = "tomorrow" if days <= 1 else f"in {days} days"
    return f"Nothing waits for today. The next question comes back {when}."


def short_choice(world: World, typing: Typing, count: int) -> float | None:
    """How many minutes, after some weeks away; ten where nobody can be asked, None for all of it."""
    if not (world.stdin_is_terminal and world.stdout_is_terminal):
        print(f"{count} questions wait; these are ten minutes of them.", file=world.stderr)
        return 10.0
    print(
        f"Welcome back. {count} questions wait, and there is no hurry: what is not asked today waits on.\n"
        f"1: five minutes, about {fits_in(5)} questions.\n"
        f"2: ten minutes, about {fits_in(10)}.\n"
        "3: as long as I like; 'enough' ends it.",
        file=world.stdout,
    )
    print("> ", end="", flush=True, file=world.stdout)
    try:
        chosen = (typing.line() or "").strip().casefold()
    except EOFError:
        chosen = ""
    if chosen in ("3", "three", "all"):
        return None
    return 10.0 if chosen in ("2", "two", "ten") else 5.0
