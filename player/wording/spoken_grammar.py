"""A speech grammar made of phrases, and which of its phrases a string is.

The grammar is written in JSGF (JSpeech Grammar Format, W3C Note of 5 June 2000): one rule, a tree
of weighted ways. Quoted tokens and left recursion are not used, since pocketsphinx does not honour them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from player.wording.heard_words import Phrase, Slot

_MENDED = {"ay": "a"}
_SPARE = 0.7
"""Of the ways to say one piece of a phrase, how much less likely each is than the one before it."""


def jsgf(phrases: Sequence[Phrase], *, without: Collection[str] = ()) -> str | None:
    """The grammar of these phrases but for some meanings; None where nothing is left to listen for.

    A phrase that also stands under a meaning left out is left out with it. Phrases that begin alike share
    their beginning, which keeps the grammar small enough to be swapped in milliseconds.
    """
    barred = {phrase.slots for phrase in phrases if phrase.meaning in without}
    tree = _Node()
    for phrase in phrases:
        if phrase.meaning in without or phrase.slots in barred:
            continue
        node = tree
        node.weight += phrase.weight
        for slot in phrase.slots:
            node = node.after.setdefault(slot, _Node())
            node.weight += phrase.weight
        node.ends += phrase.weight
    if not tree.after:
        return None
    return f"#JSGF V1.0;\ngrammar heard;\npublic <heard> = {_ways(tree)};\n"


@dataclass(slots=True)
class _Node:
    """A place in the tree of phrases: their weight, that of those that end here, and what follows."""

    weight: float = 0.0
    ends: float = 0.0
    after: dict[Slot, _Node] = field(default_factory=dict)


def _ways(node: _Node) -> str:
    """What may follow at a node, as alternatives."""
    ways = [
        (child.weight, " ".join(filter(None, (_slot(slot), _after(child)))))
        for slot, child in node.after.items()
    ]
    if node.ends:
        ways.append((node.ends, "<NULL>"))
    if len(ways) == 1:
        return ways[0][1]
    return " | ".join(f"/{_number(weight / node.weight)}/ {way}" for weight, way in ways)


def _after(node: _Node) -> str:
    if not node.after:
        return ""
    ways = _ways(node)
    return f"({ways})" if len(node.after) > 1 or node.ends else ways


def _slot(slot: Slot) -> str:
    if len(slot) == 1:
        return slot[0]
    ways = (f"/{_number(_SPARE**at)}/ {way or '<NULL>'}" for at, way in enumerate(slot))
    return f"({' | '.join(ways)})"


def _number(value: float) -> str:
    return f"{max(value, 1e-4):.4f}"


def meanings_of(phrases: Iterable[Phrase], words: str) -> tuple[str, ...]:
    """The meanings of which these words are a whole phrase, each once; none where they are only a part."""
    said = words.split()
    found = (phrase.meaning for phrase in phrases if is_whole(phrase.slots, said))
    return tuple(dict.fromkeys(found))


def is_whole(slots: Sequence[Slot], said: Sequence[str]) -> bool:
    """Whether the words run through all the slots, from the first to the last."""
    reached = {0}
    for slot in slots:
        ways = [way.split() for way in slot]
        reached = {at + len(way) for at in reached for way in ways if list(said[at : at + len(way)]) == way}
        if not reached:
            return False
    return len(said) in reached


def words_of(phrases: Iterable[Phrase]) -> frozenset[str]:
    """Every word of the grammar."""
    return frozenset(word for one in phrases for slot in one.slots for way in slot for word in way.split())


def shown(words: str) -> str:
    """A heard phrase as it is shown: the file a as "a", whatever the recogniser calls it."""
    return " ".join(_MENDED.get(word, word) for word in words.split())
