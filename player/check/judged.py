"""Sentences that judge ("better", "easier to play"): the coach's word, which no board can prove."""

from __future__ import annotations

import re

from player.script.faults import lines_of

_SILENT = re.compile(
    r"\s*(?:#|claim:|fine:|board:|game:|show:|mark:|retell:|about:|pronounce |title:|series:|coach:)"
)
_JUDGES = re.compile(
    r"\b(?:better|worse|best|worst|comfortable|pleasant|easier|harder to (?:play|meet)|"
    r"good (?:square|move|game)|"
    r"bad (?:square|move|bishop|piece)|strong(?:er|est)?|weak(?:er|est)?|solid|sound|healthy|active|passive|"
    r"promising|natural|winning|lost cause|healthier|livelier|beautiful|ugly)\b",
    re.IGNORECASE,
)


def judgements(source: str) -> int:
    """How many sentences of a script judge instead of claiming."""
    spoken = "\n".join(line for line in lines_of(source) if not _SILENT.match(line))
    sentences = re.split(r"(?<=[.!?])\s|\n\s*\n|\n\s*[a-z]+:", spoken)
    return sum(bool(_JUDGES.search(one)) for one in sentences)


def in_words(number: int) -> str:
    """The number of judgements in a sentence; "" for none."""
    if not number:
        return ""
    said = "sentence is a judgement" if number == 1 else "sentences are judgements"
    return f"{number} {said}: the coach's word."
