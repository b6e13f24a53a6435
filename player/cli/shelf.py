"""`moveteller` alone: the shelf of lessons."""

from __future__ import annotations

from pathlib import Path

from player.cli.lessons import demo_scripts, header_of, scripts_in
from player.world.clean import clean_line
from player.world.world import World


def shelf(world: World) -> int:
    """Let the learner choose a lesson; without a real terminal, list them."""
    lessons = lessons_at_hand(world)
    if world.stdin_is_terminal and world.stdout_is_terminal and not world.terminal_is_plain:
        from player.cli.perform import Wishes
        from player.cli.play import play
        from player.screen.app import shelf as choose

        path = choose(world, lessons, waiting_today(world))
        if path == "revisit":
            from player.cli.revisit import revisit

            return revisit(world, Wishes(effort=True))
        return 0 if path is None else play(world, path, Wishes())
    if not lessons:
        print("There is no lesson here. 'moveteller new NAME' writes one.", file=world.stdout)
        return 0
    from player.session.shelf import place_kept, waits_words

    series = ""
    for path in lessons:
        number, title, name = header_of(path)
        if name and name != series:
            print(f"{clean_line(name)}:", file=world.stdout)
            series = name
        place = f"{number}. " if name else ""
        stopped = place_kept(world, path)
        kept = f", {stopped}" if stopped else ""
        print(f"{place}{clean_line(title)}{kept}, in {clean_line(str(path))}", file=world.stdout)
    waiting = waiting_today(world)
    if waiting:
        print(f"{waits_words(waiting)} Ask them with: moveteller revisit", file=world.stdout)
    print("Play one with: moveteller play LESSON", file=world.stdout)
    return 0


def waiting_today(world: World) -> int:
    """How many questions wait for today; 0 where the record cannot be read."""
    from player.learner.record import open_record, record_path
    from player.learner.schedule import waits_count
    from player.world.trouble import Trouble

    path = record_path(world.folders.data)
    if not path.exists():
        return 0
    try:
        with open_record(path) as record:
            return waits_count(record, world.now())
    except Trouble:
        return 0


def lessons_at_hand(world: World) -> list[Path]:
    """The lessons in the folder where we are, then the demo lessons."""
    try:
        here = scripts_in(world.here)
    except OSError:
        here = []
    known = {path.resolve() for path in here}
    return here + [path for path in demo_scripts() if path.resolve() not in known]
