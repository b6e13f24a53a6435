"""`moveteller time`: measure a lesson with the voice and write its time stamps."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import click

from player.cli.lessons import find_lesson, read_script
from player.cues.sheet import Sheet
from player.cues.starts import think_ms
from player.script.faults import Fault
from player.script.heads import head_of
from player.script.physical import physical_lines
from player.script.read import read
from player.voice.measure import Measured, measure
from player.voice.voice import Voice
from player.wording.utterance import Utterance
from player.world.files import write_atomically
from player.world.trouble import Trouble
from player.world.world import World


@click.command("time")
@click.argument("lesson")
@click.option("--voice", metavar="NAME", help="Which voice to measure with.")
@click.option("--speed", type=click.FloatRange(0.5, 3.0), default=1.0, help="The pace of the voice.")
@click.option("--estimate", is_flag=True, help="Take the estimated pace, without a voice.")
@click.pass_obj
def command(world: World, lesson: str, voice: str | None, speed: float, estimate: bool) -> int:
    """Write into LESSON the moment at which every beat begins; all else in the file stays as it is."""
    from player.script.write import stamped
    from player.voice.choose import open_voice
    from player.voice.estimate import EstimatedVoice

    path = find_lesson(world, lesson)
    opened = read_script(path)
    header = opened.lesson.header
    if any(fault.severity == "fault" for fault in opened.faults):
        raise Trouble(f"{path} has faults, and a time would be wrong. 'moveteller check' names them.")
    if header.recording:
        raise Trouble(
            "This lesson has a recording, and its stamps belong to that; they are not measured anew."
        )
    sheet = opened.sheet
    if estimate:
        speaker: Voice = EstimatedVoice()
        sentence = "The estimated pace is taken."
    else:
        speaker, sentence = open_voice(
            world.clock,
            world.folders.cache / "sounds",
            voice=voice or header.voice or None,
            platform=world.platform,
        )
    print(sentence, file=world.stderr)
    try:
        measured = list(_with_progress(world, sheet, measure(_said(sheet), speaker, speed=speed)))
    finally:
        speaker.close()
    stamps = stamps_for(sheet, opened.source, [one.ms for one in measured])
    text = stamped(path.read_bytes().decode("utf-8-sig"), stamps) if _is_utf8(path) else None
    if text is None:
        raise Trouble(f"{path} is not saved as UTF-8. Save it so, and have it timed again.")
    if any(fault.severity == "fault" for fault in faults_in(text)):
        raise Trouble(f"The stamps would not fit {path}, so nothing was written. Take out those it has.")
    write_atomically(path, text)
    sounded = sum(one.sounded for one in measured)
    how = "measured" if sounded == len(measured) else f"{sounded} of {len(measured)} sentences measured"
    why = next((f" {one.why}" for one in measured if one.why), "")
    length = _clock(max(stamps.values(), default=0))
    print(f"{path}: {len(stamps)} stamps written, the last at {length}; {how}.{why}", file=world.stdout)
    return 0


def stamps_for(sheet: Sheet, source: str, lengths: list[int]) -> dict[int, int]:
    """The stamps of the lines on which something begins, in milliseconds by line number.

    `lengths` are those of the audible steps, in order. Beats get stamps, and whatever has one already; told
    lines are in file order, so what a retelling says again gets none.
    """
    lines, _ = physical_lines(source)
    stamps: dict[int, int] = {}
    taken = iter(lengths)
    begun, last = 0, 0
    for step in sheet.steps:
        if step.extra:
            continue
        if step.line > last and step.say is not None and not step.ear_only:
            had = bool(head_of(lines[step.line - 1].text).stamp_end)
            if had or step.kind in ("tell", "idea"):
                stamps[step.line] = begun
        elif step.line > last and step.stamp_ms is not None:
            stamps[step.line] = begun
        last = max(last, step.line)
        if step.ear_only:
            continue
        begun += next(taken) if step.say is not None else 0
        if step.ask is not None:
            begun += think_ms(step.ask)  # the silence after a question is the one for thinking
        elif step.say is not None or step.kind == "rest":
            begun += step.rest_ms
    return stamps


def faults_in(source: str) -> tuple[Fault, ...]:
    """The faults of reading a script."""
    return read(source)[1]


def _said(sheet: Sheet) -> Iterator[Utterance]:
    for step in sheet.steps:
        if step.say is not None and not (step.ear_only or step.extra):
            yield step.say


def _with_progress(world: World, sheet: Sheet, measured: Iterator[Measured]) -> Iterator[Measured]:
    """Counts along on a terminal."""
    total = sum(1 for _ in _said(sheet))
    shown = world.stdout_is_terminal and not world.terminal_is_plain
    for number, one in enumerate(measured, 1):
        if shown:
            print(f"\r{number} of {total} sentences", end="", file=world.stderr, flush=True)
        yield one
    if shown:
        print(file=world.stderr)


def _clock(ms: int) -> str:
    return f"{ms // 60_000}:{ms // 1000 % 60:02d}"


def _is_utf8(path: Path) -> bool:
    try:
        path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        return False
    return True
