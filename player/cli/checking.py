"""The slower parts of `moveteller check`: an engine's second opinion, and real games."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path

from player.check.kept import Kept
from player.check.looked import Looked
from player.check.series import Checked
from player.cli.bar import Bar
from player.script.faults import Fault
from player.world.clean import clean
from player.world.trouble import Trouble, in_words
from player.world.world import World


def second_opinion(
    world: World, engine: str, deep: bool, kept: Kept | None, lessons: Sequence[tuple[Path, Looked]]
) -> Iterable[tuple[int, Fault]]:
    """What an engine doubts; where it fails, that is told in one sentence, and what it said before stays."""
    from player.check.review import Reviewer, review
    from player.engine.choose import BUILT_IN
    from player.engine.small import NODES, SmallSearch
    from player.engine.uci import EngineTrouble, Limits, UciEngine

    judge: SmallSearch | UciEngine
    own = engine == BUILT_IN
    if own:
        judge = SmallSearch(10 * NODES if deep else NODES)
    else:
        judge = UciEngine(engine, Limits(nodes=500_000, think_s=20.0) if deep else Limits(think_s=5.0))
    bar = Bar(world, "Searching" if own else "Asking the engine")
    found = []
    try:
        for one in review([looked for _, looked in lessons], Reviewer(judge, kept, counts_men=own), bar):
            found.append(one)
    except EngineTrouble as trouble:
        bar.close()
        sentence = str(trouble).replace("the lesson goes on", "the check goes on")
        print(f"moveteller: {clean(sentence)}", file=world.stderr)
    finally:
        bar.close()
        judge.close()
    return found


def hold_against(world: World, games: str, checked: Sequence[Checked], as_json: bool) -> None:
    """Print which replies real games met that the series does not tell. Raises Trouble or OSError."""
    from player.check.against import Met, against

    path = world.here / Path(games).expanduser()
    bar = Bar(world, "Reading games")
    try:
        found = against(path, [one.looked.steps for one in checked], bar)
    except OSError as error:
        raise Trouble(in_words(error)) from error
    finally:
        bar.close()

    def place(met: Met) -> str:
        return str(checked[met.lesson].path)

    if as_json:
        for met in found.met:
            about = {"lesson": place(met), "line": met.line, "position": met.at, "times": met.times}
            untold = [asdict(one) for one in met.untold]
            line = {"against": games, **about, "told": met.told, "untold": untold}
            print(json.dumps(line, ensure_ascii=False), file=world.stdout)
        skipped = [{"game": number, "why": why} for number, why in found.skipped]
        print(json.dumps({"against": games, "games": found.games, "skipped": skipped}), file=world.stdout)
        return
    for met in found.met:
        if met.untold:
            listed = ", ".join(f"{one.san} {_times(one.times)}" for one in met.untold)
            told = f"told are {', '.join(met.told)}" if met.told else "the line ends here"
            print(
                f"{place(met)}: line {met.line}: games went on from here {_times(met.times)}; {told}; "
                f"not told: {listed}.",
                file=world.stdout,
            )
    read = "1 game" if found.games == 1 else f"{found.games} games"
    met_there = sum(bool(met.untold) for met in found.met)
    places = "1 position" if met_there == 1 else f"{met_there} positions"
    said = f"{games}: {read} read; replies that are not told were met at {places}"
    if found.skipped:
        said += f"; {len(found.skipped)} broken and left out"
    print(clean(f"{said}."), file=world.stdout)
    for number, why in found.skipped[:5]:
        print(clean(f"{games}: game {number} is left out: {why}"), file=world.stderr)
    if len(found.skipped) > 5:
        print(f"{games}: and {len(found.skipped) - 5} more.", file=world.stderr)


def _times(number: int) -> str:
    return {1: "once", 2: "twice"}.get(number, f"{number} times")
