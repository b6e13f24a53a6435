"""Answers that are not moves: squares, numbers, choices and words."""

from __future__ import annotations

import re
from collections.abc import Sequence

from player.script.told import AskKind

_SQUARE = re.compile(r"[a-h][1-8]", re.IGNORECASE)
_AND = re.compile(r",|(?<=\s)(?:and|or)(?=\s)", re.IGNORECASE)
_COUNTED = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen twenty"
)
NUMBERS = {word: str(number) for number, word in enumerate(_COUNTED.split())} | {"none": "0", "no": "0"}
"""Numbers in words, as a script or a learner may write them, and their digits."""

KINDS: tuple[AskKind, ...] = ("move", "square", "count", "choice", "words")


MANNERS = ("reason first", "reason after", "how sure")
"""What `ask:` may ask for beside the answer: the learner's reason, before or after it, and how sure it is."""


def kind_of(text: str) -> AskKind | None:
    """The kind of question that `ask:` names, before the first comma."""
    return next((kind for kind in KINDS if kind == text.lower().partition(",")[0].strip()), None)


_NEAR = {
    "square": "where place field",
    "count": "number how many amount sum",
    "choice": "multiple option list abc",
    "words": "word text open free own sentence",
}


def near_kind(text: str) -> str:
    """The kind of question that an unknown word for it most likely means."""
    low = text.lower()
    said = set(re.findall(r"[a-z]+", low))
    near: list[str] = [kind for kind in KINDS if kind.rstrip("s") in low]
    near += [kind for kind, words in _NEAR.items() if said & set(words.split())]
    return near[0] if near else "square"


def manner_of(text: str) -> tuple[str, ...] | None:
    """What `ask:` asks for beside the answer, after the first comma; None where it is none of that."""
    said = [" ".join(part.split()) for part in text.lower().split(",")[1:]]
    both = "reason first" in said and "reason after" in said
    fits = all(one in MANNERS for one in said) and len(set(said)) == len(said) and not both
    return tuple(said) if fits else None


def answers_of(kind: AskKind, value: str, choices: Sequence[str]) -> tuple[str, ...] | str:
    """The answers in a value, parted by blanks or commas; or the part that is none of that kind.

    A choice or an answer in words may itself have blanks: then commas part them.
    """
    if kind == "words":
        return tuple(part.strip() for part in value.split(",") if part.strip())
    if kind == "choice":
        return _choices(value, choices)
    made = []
    for part in _AND.sub(" ", value).split():
        low = part.lower().rstrip(".")
        if kind == "square" and _SQUARE.fullmatch(low):
            made.append(low)
        elif kind == "count" and ((low.isdigit() and len(low) < 5) or low in NUMBERS):
            made.append(NUMBERS.get(low) or str(int(low)))
        else:
            return part
    return tuple(made)


def _choices(value: str, choices: Sequence[str]) -> tuple[str, ...] | str:
    by_name = {" ".join(choice.lower().split()): choice for choice in choices}

    def named(text: str) -> str | None:
        return by_name.get(" ".join(text.lower().split()))

    whole = named(value)
    if whole is not None:
        return (whole,)
    parts = [part.strip() for part in value.split(",") if part.strip()]
    for listed in (parts, value.replace(",", " ").split()):
        found = [named(part) for part in listed]
        if listed and all(found):
            return tuple(choice for choice in found if choice is not None)
    return next((part for part in parts if named(part) is None), value)
