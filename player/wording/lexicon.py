"""How names and foreign words are respelled for a voice, and which words a voice would have to guess."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib import resources
from types import MappingProxyType


@lru_cache(maxsize=8)
def built_in(language: str) -> Mapping[str, str]:
    """The built-in respellings for a language, by the word in lower case; empty where there are none."""
    entries = _data()["respelled"].get(language, {})
    return MappingProxyType({word.casefold(): said for word, said in entries.items()})


@lru_cache(maxsize=1)
def _data() -> Mapping[str, Mapping[str, Mapping[str, str]]]:
    text = (resources.files("player.wording") / "lexicon.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@lru_cache(maxsize=1)
def _known() -> frozenset[str]:
    text = (resources.files("player.wording") / "ordinary.toml").read_text(encoding="utf-8")
    return frozenset(tomllib.loads(text)["words"].split())


_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")
# Spellings that English letter-to-sound rules get wrong: foreign clusters and endings.
_FOREIGN = re.compile(
    r"(?:[^\x00-\x7f])|(?:szk|tsch|dsch|cz|sz|zh|kh|ij|uij|aa|ii|uu|eux|eau|oeu|gn$|ssky|vsky|zky)", re.I
)
_ENDINGS = ("'s", "’s", "s", "es", "ed", "d", "ing", "ly", "er", "est", "ers")


def unsure(text: str, lexicon: Mapping[str, str] | None = None, *, language: str = "en") -> tuple[str, ...]:
    """The words of a text that a voice would have to guess, each once, in order, as first written.

    A name that is neither in the lexicon nor an ordinary word, or a foreign spelling. Only English is judged:
    for any other language the answer is empty.
    """
    if language != "en":
        return ()
    own = {word.casefold() for word in lexicon or {}} | set(built_in(language))
    known = {part for entry in own for part in re.split("[ -]", entry)}
    out: dict[str, str] = {}
    for found in _WORD.finditer(text):
        for part in found.group().split("-"):
            bare = re.sub(r"(?:n['’]t|['’](?:s|d|m|ll|ve|re))$", "", part)
            key = bare.casefold()
            if len(key) < 3 or bare.isupper() or key in known or key in out or _ordinary(key):
                continue
            if bare[0].isupper() or _FOREIGN.search(key):
                out[key] = bare
    return tuple(out.values())


@lru_cache(maxsize=4096)
def _ordinary(word: str) -> bool:
    """Whether the word, or the word without its ending, is an ordinary one."""
    known = _known()
    if word in known:
        return True
    for ending in _ENDINGS:
        if not word.endswith(ending):
            continue
        stem = word[: -len(ending)]
        doubled = len(stem) > 3 and stem[-1] == stem[-2] and stem[:-1] in known
        if stem in known or f"{stem}e" in known or doubled or (stem[-1:] == "i" and f"{stem[:-1]}y" in known):
            return True
    return False
