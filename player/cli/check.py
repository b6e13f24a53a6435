"""`moveteller check`: hold what lessons say against the board."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

import click

from player.check.check import check_text
from player.check.ideas import ideas_before
from player.cli.codes import Code
from player.cli.lessons import find_lessons, read_script
from player.script.faults import Fault, caret
from player.world.clean import clean
from player.world.trouble import Trouble, in_words
from player.world.world import World


@click.command("check")
@click.argument("lessons", nargs=-1, required=True, metavar="LESSON...")
@click.option("--json", "as_json", is_flag=True, help="One JSON object a fault or query, one a line.")
@click.pass_obj
def command(world: World, lessons: tuple[str, ...], as_json: bool) -> int:
    """Check scripts, or folders of them. Ends with 0 where there are no faults, queries allowed; 1 where
    there are; 2 where one cannot be read.
    """
    code = Code.FINE
    for named in lessons:
        try:
            paths = find_lessons(world, named)
        except Trouble as trouble:
            print(f"moveteller: {trouble}", file=world.stderr)
            code = Code.UNUSABLE
            continue
        for path in paths:
            code = max(code, _check(world, path, as_json))
    return code


def _check(world: World, path: Path, as_json: bool) -> Code:
    try:
        source, faults = faults_of(path)
    except Trouble as trouble:
        print(f"moveteller: {trouble}", file=world.stderr)
        return Code.UNUSABLE
    except OSError as error:
        print(f"moveteller: {in_words(error)}", file=world.stderr)
        return Code.UNUSABLE
    bad = sum(fault.severity == "fault" for fault in faults)
    for fault in faults:
        if as_json:
            print(json.dumps({"lesson": str(path), **asdict(fault)}, ensure_ascii=False), file=world.stdout)
        else:
            print(clean(f"{path}: {caret(fault, source)}"), file=world.stdout)
    if not as_json:
        print(f"{path}: {_summary(bad, len(faults) - bad)}", file=world.stdout)
    return Code.FAULTS if bad else Code.FINE


def faults_of(path: Path) -> tuple[str, tuple[Fault, ...]]:
    """The script's text, and all its faults and queries in file order. Raises OSError or Trouble."""
    opened = read_script(path)
    return opened.source, check_text(opened.source, opened.told, opened.faults, ideas_before(path))


def _summary(faults: int, queries: int) -> str:
    if not faults and not queries:
        return "no faults."
    said = [_count(faults, "fault", "faults")] if faults else ["no faults"]
    if queries:
        said.append(_count(queries, "query", "queries"))
    return f"{', '.join(said)}."


def _count(number: int, one: str, several: str) -> str:
    return f"{number} {one if number == 1 else several}"
