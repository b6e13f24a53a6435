"""Which of its choices an answer to a question means."""

from __future__ import annotations

import re
from collections.abc import Sequence

from player.cues.sheet import Ask
from player.script.answers import NUMBERS
from player.stage.bare import (
    DENIED,
    IDLE,
    NO,
    NOT,
    OR,
    ORDINALS,
    YES,
    Taken,
    nearest,
    stripped,
    what_is_wanted,
)

_NOBODY = frozenset(
    {"nobody", "neither", "none", "no one", "neither side", "no side", "neither of them", "nobody does"}
)


def chosen(ask: Ask, low: str) -> Taken:
    """The choice that was named by its number, its place or its words; `low` is in small letters."""
    choices = ask.choices
    low = _alike(low)
    for said in dict.fromkeys((low, stripped(low, mended_by_no=False), _last_clause(low, choices))):
        for choice in choices:
            if said == _plain(choice):
                return Taken((choice,))
        number = re.fullmatch(
            r"(?:(?:the )?(?:number|option|choice|answer) )?(?:the )?(\w+)(?: (?:one|choice|option))?", said
        )
        word = number[1] if number else ""
        for at, choice in enumerate(choices):
            ordinal = ORDINALS[at] if at < len(ORDINALS) else ""
            if word in (str(at + 1), ordinal) or (NUMBERS.get(word) == str(at + 1)):
                return Taken((choice,))
        if said in ("the last", "the last one", "last", "last one") and len(choices) > 1:
            return Taken((choices[-1],))
    bare = stripped(low, mended_by_no=False)
    plain_choices = [_plain(choice) for choice in choices]
    if bare in _NOBODY:
        nobody = [choice for choice, words in zip(choices, plain_choices, strict=True) if words in _NOBODY]
        if len(nobody) == 1:
            return Taken((nobody[0],))
    return _by_words(ask, bare, plain_choices)


def _last_clause(low: str, choices: Sequence[str]) -> str:
    """What was said last, where no choice was named before it, or only to be denied."""
    *before, last = re.split(r"[,;.?!]+\s+", low)
    told = " ".join(before)
    named = any(re.search(rf"\b{re.escape(_plain(one))}\b", told) for one in choices)
    return low if named and not NOT.search(told) else last


def _plain(choice: str) -> str:
    return _alike(choice.casefold().strip(" .!?"))


_ALIKE = (
    (re.compile(r"\b(king|queen)(?:'?s)?[ -](?:side|wing|flank)\b"), r"\1side"),
    (re.compile(r"\b(?:two|both|the two|a pair of|the pair of|pair of) bishops\b"), "bishop pair"),
    (re.compile(r"\bwhite squares?\b"), "light squares"),
    (re.compile(r"\bcent(?:re|er)\b"), "middle"),
    (re.compile(r"\b(?:black|dark) squares?\b"), "dark squares"),
)


def _alike(words: str) -> str:
    """Words of the trade that mean the same, made the same."""
    for pattern, one in _ALIKE:
        words = pattern.sub(one, words)
    return words


def _by_words(ask: Ask, bare: str, plain_choices: Sequence[str]) -> Taken:
    """The one choice that begins with the yes or no that was said, or that alone has the words said."""
    own = [_content(words) for words in plain_choices]
    common = frozenset.intersection(*own) if own else frozenset()
    yes, no = YES.match(bare), NO.match(bare)
    rest = bare
    if yes or no:
        begin = [at for at, words in enumerate(plain_choices) if (YES if yes else NO).match(words)]
        found = yes or no
        assert found is not None
        rest = bare[found.end() :].strip(" ,.;:")
        if len(begin) == 1:
            said = _content(rest)
            others = frozenset().union(*(own[at] for at in range(len(own)) if at != begin[0])) - own[begin[0]]
            if said & others and not NOT.search(bare):
                return Taken(note=what_is_wanted(ask))
            return Taken((ask.choices[begin[0]],))
    said = _content(bare)
    fits = [at for at, words in enumerate(own) if said and said <= words and said - common]
    if not fits and said:
        fits = [at for at, words in enumerate(own) if (words - common) and (words - common) <= said]
    if not fits:
        shared = [len((words - common) & said) for words in own]
        fits = [at for at, many in enumerate(shared) if many > 1 and many == sum(shared)]
    if not fits:
        fits = nearest(bare, plain_choices)
    denied = NOT.search(bare) or bare.startswith(("no ", "neither "))
    if len(fits) == 1 and denied and not NOT.search(plain_choices[fits[0]]):
        return Taken(note=DENIED)
    if len(fits) > 1 and OR.search(bare):
        return Taken(note="One of them: which?")
    return Taken((ask.choices[fits[0]],)) if len(fits) == 1 else Taken(note=what_is_wanted(ask))


def _content(words: str) -> frozenset[str]:
    """The words that carry what is said, each without its plural."""
    found = re.findall(r"[\w'-]+", words)
    return frozenset(_stem(word) for word in found if word not in IDLE) - {"yes", "no"}


def _stem(word: str) -> str:
    word = word.removesuffix("'s")
    for ending in ("ing", "ers", "er", "s"):
        if len(word) > len(ending) + 3 and word.endswith(ending):
            return word.removesuffix(ending)
    return word
