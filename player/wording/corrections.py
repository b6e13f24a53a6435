"""Whole answers that are more than one phrase: "A or B", "A, no, B", questions, negations and colours."""

from __future__ import annotations

from dataclasses import dataclass, field

import chess

from player.wording.grammar import meanings, runs
from player.wording.tokens import Slot


@dataclass(frozen=True, slots=True)
class Said:
    """An answer taken apart.

    `phrases` are the readings to try, each a list of slots; `choice` says that the speaker named
    alternatives, of which `needed` must each be a move. `refused` is "?", "!" or ">" where the answer is a
    question, a negation or more than one move. `colour` is the side that was named as moving. `slots` is all
    that was heard.
    """

    slots: list[Slot]
    phrases: list[list[Slot]] = field(default_factory=list)
    choice: bool = False
    needed: list[list[Slot]] = field(default_factory=list)
    refused: str = ""
    colour: chess.Color | None = None


def part(heard: list[Slot]) -> Said:
    """Take an answer apart."""
    kinds = [{run[0].kind if run else "" for run in slot} for slot in heard]
    if refused := _refused(heard, kinds):
        return Said(heard, refused=refused)
    colour = _colour(heard, kinds)
    cut = max((at for at, kind in enumerate(kinds) if "N" in kind), default=-1)
    if cut >= 0:
        return _corrected(heard, kinds, cut, colour)
    if any("|" in kind for kind in kinds):
        return _alternatives(heard, kinds, colour)
    return Said(heard, [heard], colour=colour)


def _refused(heard: list[Slot], kinds: list[set[str]]) -> str:
    first = next((at for at, kind in enumerate(kinds) if not kind & {"-", "_"}), None)
    asks = next((at for at, kind in enumerate(kinds) if "?" in kind), None)
    if asks is not None:
        return "!" if asks != first and any("!" in kind for kind in kinds[asks:]) else "?"
    speaking = [at for at in range(len(heard)) if first is None or at <= first]
    if (
        first is not None
        and "/" in kinds[first]
        and not any(
            run[0].text in ("i", "we", "so i", "then i") for at in speaking for run in heard[at] if run
        )
    ):
        return "?"
    if any("!" in kind for kind in kinds):
        return "!"
    return ">" if len(kinds) > 1 and any(">" in kind for kind in kinds) else ""


def _colour(heard: list[Slot], kinds: list[set[str]]) -> chess.Color | None:
    """The side named before the man or the square: in "the white knight takes" White, in "takes the white
    knight" none.
    """
    for slot, kind in zip(heard, kinds, strict=True):
        if "W" in kind:
            return bool(slot[0][0].value)
        if kind & {"T", "S", "P"}:
            return None
    return None


def _corrected(heard: list[Slot], kinds: list[set[str]], cut: int, colour: chess.Color | None) -> Said:
    """ "A, no, B" is B; where B leaves out the man, it may be A's man as well, so both readings are tried."""
    before, after = heard[:cut], heard[cut + 1 :]
    first = next((at for at, kind in enumerate(kinds) if kind - {"-", "_"}), 0)
    if cut == first and not any(run[0].weak for run in heard[cut] if run):
        return Said(heard, refused="!")
    after_kinds = kinds[cut + 1 :]
    if any("|" in kind for kind in after_kinds):
        return _alternatives(after, after_kinds, colour)
    phrases = [after]
    if not any(kind & {"P", "C"} for kind in after_kinds):
        man = next((slot for slot, kind in zip(before, kinds, strict=False) if "P" in kind), None)
        castle = next((slot for slot, kind in zip(before, kinds, strict=False) if "C" in kind), None)
        if castle is not None and any("s" in kind for kind in after_kinds):
            phrases.append([castle, *after])
        elif man is not None:
            phrases.append([man, *after])
    return Said(heard, phrases, colour=colour)


def _alternatives(heard: list[Slot], kinds: list[set[str]], colour: chess.Color | None) -> Said:
    parts: list[list[Slot]] = [[]]
    for slot, kind in zip(heard, kinds, strict=True):
        if "|" in kind:
            parts.append([])
        else:
            parts[-1].append(slot)
    parts = [phrase for phrase in parts if phrase]
    said = [
        phrase for phrase in parts if any(run and run[0].kind not in "-_" for slot in phrase for run in slot)
    ]
    if len(said) == 1 < len(parts):  # "Kf1 or so" leaves no choice
        return Said(heard, said, colour=colour)
    if len(parts) < 2:
        return Said(heard, [])
    phrases: list[list[Slot]] = []
    for number, phrase in enumerate(parts):
        if _means(phrase):
            phrases.append(phrase)
            if number and not any("P" in {run[0].kind for run in slot if run} for slot in phrase):
                phrases += _lent(parts[number - 1], phrase)
            continue
        lent = _lent(parts[number - 1], phrase) if number else []
        if number + 1 < len(parts):
            lent += _borrowed(phrase, parts[-1])
        if not lent:
            return Said(heard, [])
        phrases += lent[:1]
    return Said(heard, phrases, choice=True, needed=[p for p in parts if _means(p)], colour=colour)


def _lent(before: list[Slot], phrase: list[Slot]) -> list[list[Slot]]:
    """The phrase with the beginning of the one before it: "knight f3 or c3"."""
    return [
        [*before[:count], *phrase] for count in range(1, len(before)) if _means([*before[:count], *phrase])
    ][:1]


def _borrowed(phrase: list[Slot], after: list[Slot]) -> list[list[Slot]]:
    """The phrase with the end of the last one: "knight or bishop takes e5"."""
    return [[*phrase, *after[count:]] for count in range(1, len(after)) if _means([*phrase, *after[count:]])][
        :1
    ]


def _means(phrase: list[Slot]) -> bool:
    return any(meanings(run) for run in runs(phrase))
