"""`moveteller progress`: how you stand with each idea, in sentences."""

from __future__ import annotations

import click

from player.learner.record import open_record, record_path
from player.world.clean import clean_line
from player.world.world import World


@click.command("progress")
@click.option("--plot", "plotted", is_flag=True, help="First tries by week, drawn in plain characters.")
@click.pass_obj
def command(world: World, plotted: bool) -> int:
    """Say which ideas hold, which are slipping, and which were not met yet."""
    from player.learner.progress import plot, progress, sentences

    with open_record(record_path(world.folders.data)) as record:
        for note in record.notes:
            print(note, file=world.stderr)
        found = progress(record, world.now(), ideas_at_hand(world))
    for line in plot(found) if plotted else sentences(found, world.now()):
        print(clean_line(line), file=world.stdout)
    if plotted and not found.days:
        print("Nothing is kept yet.", file=world.stdout)
    return 0


def ideas_at_hand(world: World) -> list[str]:
    """The ideas told in the lessons of this folder and the demo lessons, in order."""
    from player.check.series_ideas import ideas_in
    from player.cli.shelf import lessons_at_hand
    from player.world.files import read_text_forgiving
    from player.world.trouble import Trouble

    names: dict[str, None] = {}
    for path in lessons_at_hand(world):
        try:
            names |= dict.fromkeys(ideas_in(read_text_forgiving(path)))
        except (OSError, Trouble):
            continue
    return list(names)
