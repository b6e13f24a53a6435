"""A series checked as a whole, from what is kept wherever nothing has changed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from player.check.kept import Kept
from player.check.looked import NOTHING, Looked, Progress, looked
from player.check.orders import conflicting
from player.check.series_ideas import ideas_before
from player.check.waving import waved
from player.facts.budgets import BUDGET
from player.script.faults import Fault
from player.world.files import read_text_forgiving
from player.world.trouble import Trouble, in_words

More = Callable[[Sequence[tuple[Path, Looked]]], Iterable[tuple[int, Fault]]]
"""Further queries over all scripts, each with the number of the script it belongs to."""


@dataclass(frozen=True, slots=True)
class Checked:
    """A script with its faults and queries in file order; `trouble` says why there are none, or is ""."""

    path: Path
    source: str = ""
    faults: tuple[Fault, ...] = ()
    looked: Looked = NOTHING
    trouble: str = ""


def check_all(
    paths: Sequence[Path],
    *,
    kept: Kept | None = None,
    budget: int = BUDGET,
    progress: Progress | None = None,
    more: More | None = None,
) -> list[Checked]:
    """Check these scripts, in this order, each by itself and all against each other. Never raises for what is
    in a file, or for one that cannot be read.
    """
    texts: dict[Path, str] = {}

    def text_of(path: Path) -> str:
        if path not in texts:
            texts[path] = read_text_forgiving(path)
        return texts[path]

    done: list[Checked] = []
    for number, path in enumerate(paths):
        within = _within(progress, number, len(paths))
        within(0, 1)
        try:
            source = text_of(path)
            found = looked(source, ideas_before(path, text_of), budget, kept, within)
            done.append(Checked(path, source, looked=found))
        except Trouble as trouble:
            done.append(Checked(path, trouble=str(trouble)))
        except OSError as error:
            done.append(Checked(path, trouble=in_words(error)))
        if kept is not None:
            kept.save()
    extra: list[list[Fault]] = [[] for _ in done]
    for number, fault in conflicting([(one.path.name, one.looked.steps) for one in done]):
        extra[number].append(fault)
    for number, fault in more([(one.path, one.looked) for one in done]) if more is not None else ():
        extra[number].append(fault)
    return [
        Checked(
            one.path,
            one.source,
            waved(one.source, one.looked.waves, (*one.looked.faults, *added)),
            one.looked,
            one.trouble,
        )
        for one, added in zip(done, extra, strict=True)
    ]


def _within(progress: Progress | None, number: int, of: int) -> Progress:
    """The progress of one script as that of all of them."""

    def told(done: int, total: int) -> None:
        if progress is not None:
            progress(number * 1000 + 1000 * done // max(1, total), of * 1000)

    return told
