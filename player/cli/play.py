"""`moveteller play`: tell a lesson, line by line or on the screen."""

from __future__ import annotations

import json
import secrets
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TextIO

import click

from player.cli.lessons import Opened, find_lesson, read_script
from player.cues.sheet import Sheet
from player.cues.starts import THINK_MS
from player.session.session import Keeper, Listener, Session, Told
from player.stage.state import Telling
from player.voice.speaker import Notice, Speaker
from player.world.settings import Settings, load_settings, settings_path
from player.world.trouble import Trouble
from player.world.world import World


@dataclass(frozen=True)
class Wishes:
    """What was asked for on the command line; None where nothing was said about it."""

    lines: bool = False
    hands_free: bool = False
    mute: bool = False
    at: str = ""
    speed: float | None = None
    voice: str | None = None
    questions_only: bool = False
    at_once: bool = False
    ear: bool = False
    width: int | None = None
    fresh: bool = False
    journal: Path | None = None
    record: Path | None = None


@click.command("play")
@click.argument("lesson")
@click.option("--lines", is_flag=True, help="Line by line, for screen readers, pipes and plain terminals.")
@click.option("--hands-free", is_flag=True, help="Everything in words, and questions pass by themselves.")
@click.option("--mute", is_flag=True, help="No voice.")
@click.option("--at", default="", metavar="PLACE", help="Begin at 3:20, at 'part 2' or at 'question 4'.")
@click.option("--speed", type=click.FloatRange(0.5, 3.0), help="The pace of the voice, 1 being its own.")
@click.option("--voice", metavar="NAME", help="Which voice speaks; 'on' for the usual one.")
@click.option("--questions-only", is_flag=True, help="Only the questions, without the telling.")
@click.option("--at-once", is_flag=True, help="Tell without waiting, for pipes and tests.")
@click.option("--ear", is_flag=True, help="Announce everything in words.")
@click.option("--width", type=click.IntRange(10, 1000), metavar="N", help="Lines of at most N cells.")
@click.option("--fresh", is_flag=True, help="From the start, even where a place was kept.")
@click.option(
    "--journal", type=click.Path(path_type=Path, dir_okay=False), help="Keep the place in this file."
)
@click.option(
    "--record-happenings",
    "record",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write every happening to this file, one JSON object a line.",
)
@click.pass_obj
def command(world: World, /, lesson: str, **wishes: object) -> int:
    """Play LESSON: a script, a folder of them, or the name or number of a demo lesson."""
    return play(world, find_lesson(world, lesson), Wishes(**wishes))  # type: ignore[arg-type]


def play(world: World, path: Path, wishes: Wishes) -> int:
    """Play a script in the skin that this terminal and the wishes call for."""
    opened = read_script(path)
    sheet = opened.sheet
    if not sheet.steps or len(sheet.steps) < 2:
        raise Trouble(f"There is nothing to tell in {path}. 'moveteller check' says what is wrong with it.")
    settings = load_settings(settings_path(world.folders.config))
    for note in settings.notes:
        print(note, file=world.stderr)
    _warn(world, opened)
    lines = wants_lines(world, wishes)
    telling = chosen(settings.settings, wishes, lines=lines)
    with ExitStack() as files:
        opening = _opening(world, opened, sheet, telling, settings.settings, wishes, lines, files)
        if lines:
            from player.lines.play import play_lines

            width = wishes.width if wishes.width is not None else settings.settings.line_width
            return play_lines(sheet, world, opening, width=width)
        from player.screen.app import play_lesson

        return play_lesson(sheet, telling, world, opening)


def wants_lines(world: World, wishes: Wishes) -> bool:
    """Whether the line skin plays: asked for, or all that this terminal can do."""
    terminal = world.stdin_is_terminal and world.stdout_is_terminal and not world.terminal_is_plain
    return wishes.lines or wishes.at_once or not terminal or not world.can_show("█▚╭░")


def chosen(settings: Settings, wishes: Wishes, *, lines: bool, before: Telling | None = None) -> Telling:
    """How it is told: what was asked for now, over what was chosen once and for all.

    `before` is how the lesson was told when it stopped: its pace and its way of naming squares go on.
    """
    telling = Telling(
        speed=settings.speed,
        silence=settings.silence_scale,
        wait=settings.think == "wait",
        think=1.0 if settings.think == "wait" else settings.think * 1000 / THINK_MS["move"],
        ear=settings.ear or wishes.ear or wishes.hands_free,
        voice=not lines and not settings.mute,
        questions_only=wishes.questions_only,
    )
    if before is not None:
        telling = replace(telling, speed=before.speed, silence=before.silence, naming=before.naming)
    if wishes.speed is not None:
        telling = replace(telling, speed=wishes.speed)
    if wishes.voice is not None or wishes.hands_free:
        telling = replace(telling, voice=True)
    if wishes.mute:
        telling = replace(telling, voice=False)
    if wishes.hands_free:
        telling = replace(telling, wait=False)
    elif lines:
        telling = replace(telling, wait=True)
    paced = lines and not wishes.at_once and not wishes.hands_free
    return replace(telling, by_beat=paced, at_once=wishes.at_once or paced)


def _opening(
    world: World,
    opened: Opened,
    sheet: Sheet,
    telling: Telling,
    settings: Settings,
    wishes: Wishes,
    lines: bool,
    files: ExitStack,
) -> Callable[[Listener], Session]:
    from player.session.journal import journal_path
    from player.session.learn import Replying
    from player.session.opening import open_session
    from player.session.record import as_json
    from player.stage.seeking import target

    if wishes.at and target(sheet, wishes.at) is None:
        raise Trouble(
            f"There is no '{wishes.at}' in this lesson. Say a time such as 3:20, 'part 2' or 'question 4'."
        )
    record = files.enter_context(_written(wishes.record)) if wishes.record else None
    file = wishes.journal or journal_path(world.folders.state, opened.path)

    def speaker() -> tuple[Speaker, str]:
        from player.voice.choose import open_speaker

        name = (
            wishes.voice if wishes.voice not in (None, "on") else opened.lesson.header.voice or settings.voice
        )
        return open_speaker(
            world.clock,
            world.folders.cache / "sounds",
            voice=name or None,
            volume=settings.volume,
            platform=world.platform,
        )

    def open_it(listener: Listener) -> Session:
        def note(told: Told) -> None:
            if record is not None and not isinstance(told, Notice):
                record.write(json.dumps(as_json(told, sheet), ensure_ascii=False) + "\n")
                record.flush()
            listener(told)

        session = open_session(
            sheet,
            opened.source,
            telling,
            world.clock,
            journal_file=file,
            fresh=wishes.fresh,
            at=wishes.at,
            open_voice=speaker,
            learn=Replying(sheet),
            listener=note,
            chosen=lambda before: chosen(settings, wishes, lines=lines, before=before),
            run=f"{world.now().isoformat()} {secrets.token_hex(4)}",
            keeper=_keeper(world, opened, sheet),
        )
        files.callback(session.close)
        return session

    return open_it


def _keeper(world: World, opened: Opened, sheet: Sheet) -> Keeper | None:
    """What keeps the learner's answers; None, told in a sentence, where they cannot be kept."""
    from player.learner.keeper import LessonKeeper, Source
    from player.learner.record import open_record, record_path
    from player.session.journal import script_hash

    try:
        record = open_record(record_path(world.folders.data))
    except Trouble as trouble:
        print(trouble, file=world.stderr)
        return None
    for note in record.notes:
        print(note, file=world.stderr)
    source = Source(str(opened.path.resolve()), script_hash(opened.source))
    return LessonKeeper(record, sheet, source, world.now, world.clock.now_ms)


def _written(path: Path) -> TextIO:
    return open(path, "w", encoding="utf-8", newline="\n")


def _warn(world: World, opened: Opened) -> None:
    """One sentence where the script has faults: the player tells what it can."""
    faults = [fault for fault in opened.faults if fault.severity == "fault"]
    if faults:
        count = "a fault" if len(faults) == 1 else f"{len(faults)} faults"
        print(
            f"This script has {count}, the first in line {faults[0].line}; what can be told of it is told. "
            "'moveteller check' names them.",
            file=world.stderr,
        )
