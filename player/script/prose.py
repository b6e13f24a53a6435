"""Moves told outside braces: a legal move in notation that reads as if it were played is a query."""

from __future__ import annotations

import re
from collections.abc import Sequence

from player.script.found import Found
from player.script.hearing import Lost, move_of
from player.script.here import Here
from player.script.model import Spot, Words
from player.script.textmaker import Landing

_MOVE = re.compile(
    r"(?<![\w{-])(?P<number>\d{1,3}\.(?:\.\.)? ?)?(?P<move>"
    r"[KQRBN][a-h]?[1-8]?x?[a-h][1-8](?:=?[QRBN])?[+#]?"
    r"|[a-h]x[a-h][1-8](?:=?[QRBN])?[+#]?|[a-h][18]=[QRBN][+#]?"
    r"|[O0]-[O0](?:-[O0])?[+#]?|(?<=\. )[a-h][1-8]|(?<=\.)[a-h][1-8])(?![\w-])"
)
_SUPPOSED = re.compile(
    r"\b(?:if|would|could|should|might|may|can|cannot|must|instead|imagine|suppose|threat\w*|plan\w*|idea\w*|"
    r"want\w*|wish\w*|hope\w*|next|later|soon|not|never|no|without|against|after|before|or|and then|to|when|"
    r"once|unless|until|stop\w*|prevent\w*|allow\w*|prepar\w*|like|about|think\w*|possible|ready|with|of|for|"
    r"why|what|whether|had|were|better|rather|than|possibl\w*|n't)\b|n't\b|\?",
    re.IGNORECASE,
)
_CLAUSE_END = re.compile(r"[.,;:!?()—–](?=\s|$)")


class OutsideMoves:
    """Looks for told moves in the words between braces."""

    def __init__(self, found: Found, language: str) -> None:
        self._found = found
        self._language = language
        self._seen: list[tuple[str, str, Spot]] = []

    def look(self, words: Words, here: Here) -> None:
        """Notes the moves in these words that are legal as the board stands and read as if told."""
        if self._language != "en" or here.lost or not here.playable:
            return
        for found in _MOVE.finditer(words.text):
            if not found["number"] and _SUPPOSED.search(_clause(words.text, found)):
                continue
            move = move_of(here.board, found["move"], self._language)
            if not isinstance(move, Lost):
                self._seen.append((found["move"], move.uci(), words.spot))

    def settle(self, landings: Sequence[Landing]) -> None:
        """Tells what was noted, but for moves that the same text does make in a brace."""
        made = {landing.turn.uci for landing in landings}
        for said, uci, spot in self._seen:
            if uci not in made:
                self._found.query(
                    self._found.where(said, spot),
                    "move-outside",
                    f"{said} is legal here and reads as if it were played, but only a brace moves the board.",
                    f"{{{said}}}",
                )
        self._seen = []


def _clause(text: str, found: re.Match[str]) -> str:
    start = max((end.end() for end in _CLAUSE_END.finditer(text, 0, found.start())), default=0)
    end = _CLAUSE_END.search(text, found.end())
    return text[start : end.end() if end else len(text)]
