"""`moveteller cues`: the told lesson on a clock."""

from __future__ import annotations

import json
from dataclasses import replace

import click

from player.cli.lessons import find_lesson, read_script
from player.stage.happenings import Asleep, Board, Happening, Hush, Marked, Need, Say, Scoped, Wake
from player.stage.state import Telling
from player.world.world import World

_INSIDE = (Hush, Wake, Asleep, Need)


@click.command("cues")
@click.argument("lesson")
@click.option("--json", "as_json", is_flag=True, help="One JSON object a happening, one a line.")
@click.option("--ear", is_flag=True, help="With everything that ear mode announces.")
@click.option("--speed", type=click.FloatRange(0.5, 3.0), default=1.0, help="The pace of the voice.")
@click.pass_obj
def command(world: World, lesson: str, as_json: bool, ear: bool, speed: float) -> int:
    """Tell LESSON by itself, nobody answering, and print what happens when."""
    from player.session.as_json import as_json as json_of
    from player.session.told import tell

    opened = read_script(find_lesson(world, lesson))
    sheet = opened.sheet
    scopes: list[int] = []
    line = 0
    for ms, happening in tell(sheet, replace(Telling(), ear=ear, speed=speed)):
        if isinstance(happening, _INSIDE):
            continue
        if isinstance(happening, Scoped):
            scopes.append(happening.scope) if happening.opened else scopes.remove(happening.scope)
        if isinstance(happening, Say):
            line = happening.line
        known = {"ms": ms} | json_of(happening, sheet) | {"ms": ms}
        known = {"scope": scopes[-1] if scopes else None, **known, "line": line}
        if as_json:
            print(json.dumps(known, ensure_ascii=False), file=world.stdout)
        else:
            print(_plainly(ms, happening, known), file=world.stdout)
    return 0


def _plainly(ms: int, happening: Happening, known: dict[str, object]) -> str:
    minutes, rest = divmod(ms, 60_000)
    said = ""
    if isinstance(happening, Say):
        said = happening.what.shown
    elif isinstance(happening, Board):
        said = str(known["san"] or happening.why)
    elif isinstance(happening, Marked):
        said = " ".join(f"{mark.square}{'-' if mark.to else ''}{mark.to}" for mark in happening.shown.marks)
    elif isinstance(happening, Scoped):
        said = f"{'into' if happening.opened else 'out of'} {known['title']}"
    elif "shown" in known:
        said = str(known["shown"])
    return f"{minutes}:{rest / 1000:06.3f} {known['kind']} {said}".rstrip()
