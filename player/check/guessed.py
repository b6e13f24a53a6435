"""Words that a voice would have to guess how to say."""

from __future__ import annotations

import re
from collections.abc import Iterator

from player.script.faults import Fault, lines_of
from player.script.model import Header
from player.wording.lexicon import unsure

_NOTATION = re.compile(r"\S*\d\S*")
_UNSPOKEN = re.compile(r"\s*(#|pronounce |title:|coach:|series:|voice:|recording:|game:|mark:|retell:|fine:)")


_BEGINS = re.compile(r"(?:^\s*(?:\[[\d:.]+\]\s*)?(?:[a-z][\w ,+#=-]*:\s*)?|[.!?:;*—–]\s+)[\"'“‘(]*$")
_PERSON = re.compile(
    r"['’]s\b|,?"
    r" (?:is|was|has|had|plays?|played|wrote|writes|says?|said|takes|took|won|wins|lost|loses|resign\w*|"
    r"thinks|thought|asks|asked|smiled|smiles|knows|knew|sat|sits|found|finds)\b|,? and [A-Z]| [A-Z]\w+"
    r" (?:is|was|has)\b"
)


def guessed_words(source: str, header: Header) -> Iterator[Fault]:
    """One query for each such word, where it first stands; `pronounce WORD:` settles it.

    A capital at a sentence's beginning makes no name: a word that stands only there is asked about only where
    what follows it is said of a person.
    """
    lines = [_blank(line) for line in lines_of(source)]
    for word in unsure("\n".join(lines), header.pronounce, language=header.language):
        whole = re.compile(rf"(?<!\w){re.escape(word)}(?!\w)")
        if word[0].isupper() and not any(_names(lines, number, whole) for number in range(len(lines))):
            continue
        for number, line in enumerate(lines, 1):
            found = whole.search(line)
            if found is not None:
                message = f"A voice has to guess how to say '{word}'."
                fix = f"pronounce {word}: SAY-it-so"
                yield Fault(number, found.start() + 1, len(word), "query", "word-guessed", message, fix)
                break


def _names(lines: list[str], number: int, whole: re.Pattern[str]) -> bool:
    """Whether a line has the word as a name: inside a sentence, or with what is said of a person."""
    line = lines[number]
    goes_on = number > 0 and bool(re.search(r"[\w,]$", lines[number - 1].rstrip())) and "    " not in line[:4]
    for found in whole.finditer(line):
        lead = line[: found.start()]
        begins = _BEGINS.search(lead) and not (goes_on and not lead.strip())
        if not begins or _PERSON.match(line, found.end()):
            return True
    return False


def _blank(line: str) -> str:
    """A line with notation blanked out in place; an empty one where nothing of it is said aloud."""
    return "" if _UNSPOKEN.match(line) else _NOTATION.sub(lambda found: " " * len(found.group()), line)
