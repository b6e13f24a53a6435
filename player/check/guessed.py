"""Words that a voice would have to guess how to say."""

from __future__ import annotations

import re
from collections.abc import Iterator

from player.script.faults import Fault, lines_of
from player.script.model import Header
from player.wording.lexicon import unsure

_NOTATION = re.compile(r"\S*\d\S*")
_UNSPOKEN = re.compile(r"\s*(#|pronounce |title:|coach:|series:|voice:|recording:|game:|mark:|retell:|fine:)")


def guessed_words(source: str, header: Header) -> Iterator[Fault]:
    """One query for each such word, where it first stands; `pronounce WORD:` settles it."""
    lines = [_blank(line) for line in lines_of(source)]
    for word in unsure("\n".join(lines), header.pronounce, language=header.language):
        whole = re.compile(rf"(?<!\w){re.escape(word)}(?!\w)")
        for number, line in enumerate(lines, 1):
            found = whole.search(line)
            if found is not None:
                message = f"A voice has to guess how to say '{word}'."
                fix = f"pronounce {word}: SAY-it-so"
                yield Fault(number, found.start() + 1, len(word), "query", "word-guessed", message, fix)
                break


def _blank(line: str) -> str:
    """A line with notation blanked out in place; an empty one where nothing of it is said aloud."""
    return "" if _UNSPOKEN.match(line) else _NOTATION.sub(lambda found: " " * len(found.group()), line)
