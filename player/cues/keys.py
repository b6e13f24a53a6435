"""Names for steps and questions that outlive edits elsewhere in a script."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from hashlib import sha1

from player.facts.place import Place

_LENGTH = 12


class Keys:
    """Gives each step its key; equal steps are told apart by an ordinal.

    `within` sets the steps of a side track apart from those of the lesson.
    """

    def __init__(self, within: str = "") -> None:
        self._within = within
        self._met: Counter[str] = Counter()

    def next(self, kind: str, shown: str, ucis: Iterable[str]) -> str:
        """The key of the next step with this kind, text and moves."""
        made = digest(self._within, kind, shown, " ".join(ucis))
        self._met[made] += 1
        return f"{made}-{self._met[made]}"


def ask_key(place: Place, kind: str, answers: Iterable[str]) -> str:
    """The key of a question: position (EPD), kind and answers, whatever words it is asked in."""
    return digest(" ".join(place.fen.split(" ")[:4]), kind, *sorted(answers))


def digest(*parts: str) -> str:
    """Twelve hexadecimal digits of the SHA-1 of these texts."""
    return sha1("\n".join(parts).encode("utf-8", "surrogatepass"), usedforsecurity=False).hexdigest()[
        :_LENGTH
    ]
