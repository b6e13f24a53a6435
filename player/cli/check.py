"""`moveteller check`: hold what lessons say against the board."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path

import click

from player.check.handful import handful, kept_back
from player.check.judged import in_words, judgements
from player.check.kept import Kept
from player.check.looked import Looked
from player.check.series import Checked, check_all
from player.cli.bar import Bar
from player.cli.codes import Code
from player.cli.lessons import find_lessons
from player.facts.budgets import BUDGET, DEEP
from player.script.faults import Fault, caret
from player.world.clean import clean
from player.world.trouble import Trouble
from player.world.world import World


@click.command("check")
@click.argument("lessons", nargs=-1, required=True, metavar="LESSON...")
@click.option("--json", "as_json", is_flag=True, help="One JSON object a fault or query, one a line.")
@click.option("--deep", is_flag=True, help="Look longer before a claim is called not proved.")
@click.option(
    "--engine",
    metavar="PATH",
    help="Ask an engine for its opinion of answers and replies; 'built-in' for a short search of our own.",
)
@click.option("--against", metavar="GAMES", help="Count in a PGN file the replies that are not told.")
@click.option("--anew", is_flag=True, help="Check everything, whatever is kept from last time.")
@click.pass_obj
def command(
    world: World,
    lessons: tuple[str, ...],
    as_json: bool,
    deep: bool,
    engine: str | None,
    against: str | None,
    anew: bool,
) -> int:
    """Check scripts, or folders of them, each by itself and against each other. Ends with 0 where there are
    no faults, queries allowed; 1 where there are; 2 where one cannot be read.
    """
    code = Code.FINE
    paths = []
    for named in lessons:
        try:
            paths += find_lessons(world, named)
        except Trouble as trouble:
            print(f"moveteller: {trouble}", file=world.stderr)
            code = Code.UNUSABLE
    paths = list(dict.fromkeys(paths))
    kept = None if anew else Kept(world.folders.cache)
    bar = Bar(world, "Checking")

    def opinion(looked: Sequence[tuple[Path, Looked]]) -> Iterable[tuple[int, Fault]]:
        from player.cli.checking import second_opinion
        from player.engine.choose import choose_engine

        bar.close()
        chosen = choose_engine(engine or "none", "", world.env)
        return second_opinion(world, chosen, deep, kept, looked) if chosen is not None else ()

    try:
        budget = DEEP if deep else BUDGET
        checked = check_all(
            paths, kept=kept, budget=budget, progress=bar, more=opinion if engine is not None else None
        )
    finally:
        bar.close()
        if kept is not None:
            kept.close()
    for one in checked:
        code = max(code, _told(world, one, as_json))
    if len(checked) > 1 and not as_json:
        _told_in_all(world, checked)
    if against is not None:
        from player.cli.checking import hold_against

        try:
            hold_against(world, against, checked, as_json)
        except Trouble as trouble:
            print(f"moveteller: {trouble}", file=world.stderr)
            code = Code.UNUSABLE
    return code


def _told(world: World, one: Checked, as_json: bool) -> Code:
    if one.trouble:
        print(f"moveteller: {one.trouble}", file=world.stderr)
        return Code.UNUSABLE
    bad = sum(fault.severity == "fault" for fault in one.faults)
    shown, more = (one.faults, 0) if as_json else handful(one.faults)
    for fault in shown:
        if as_json:
            line = json.dumps({"lesson": str(one.path), **asdict(fault)}, ensure_ascii=False)
            print(line, file=world.stdout)
        else:
            print(clean(f"{one.path}: {caret(fault, one.source)}"), file=world.stdout)
    if more:
        print(f"{one.path}: {kept_back(more)}", file=world.stdout)
    if not as_json:
        judged = in_words(judgements(one.source))
        summary = _summary(bad, len(one.faults) - bad)
        print(f"{one.path}: {summary}{f' {judged}' if judged else ''}", file=world.stdout)
    return Code.FAULTS if bad else Code.FINE


def _told_in_all(world: World, checked: list[Checked]) -> None:
    """One line over all lessons."""
    every = [fault for one in checked for fault in one.faults]
    bad = sum(fault.severity == "fault" for fault in every)
    unread = sum(bool(one.trouble) for one in checked)
    said = _summary(bad, len(every) - bad)
    if unread:
        said += f" {_count(unread, 'lesson', 'lessons')} could not be read."
    print(f"In {len(checked)} lessons: {said}", file=world.stdout)


def _summary(faults: int, queries: int) -> str:
    if not faults and not queries:
        return "no faults."
    said = [_count(faults, "fault", "faults")] if faults else ["no faults"]
    if queries:
        said.append(_count(queries, "query", "queries"))
    return f"{', '.join(said)}."


def _count(number: int, one: str, several: str) -> str:
    return f"{number} {one if number == 1 else several}"
