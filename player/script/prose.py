"""Moves told outside braces: a legal move that reads as if it were played there is a query."""

from __future__ import annotations

import re
from collections.abc import Sequence

from player.script.found import Found
from player.script.hearing import Lost, move_of
from player.script.here import Here
from player.script.model import Spot, Words
from player.script.textmaker import Landing

_SQUARE = "[a-h][1-8]"
_MAN = "(?:pawn|knight|bishop|rook|queen|king)"
_NOTATION = re.compile(
    r"(?<![\w{-])(?P<number>\d{1,3}\.(?:\.\.)? ?)?(?P<move>"
    rf"[KQRBN][a-h]?[1-8]?x?{_SQUARE}|[a-h]x{_SQUARE}(?:=?[QRBN])?|[a-h][18]=?[QRBN]|[O0]-[O0](?:-[O0])?"
    rf"|(?<=\d\.){_SQUARE}|(?<=\d\. ){_SQUARE}|(?<=\.\.\.){_SQUARE})(?P<marks>[+#!?]*)(?![\w-])"
)
_PLAYED = re.compile(
    rf"\b(?:plays|played|replies|replied|answers|answered|responds|responded|continues|continued|chooses|chose)"
    rf"(?: (?:with|here|now|at once|simply))* (?P<move>{_SQUARE})(?![\w-])"
)
_WORDS = re.compile(
    rf"\b(?P<move>(?:[Tt]he )?{_MAN} "
    r"(?:takes on|captures on|takes|captures|goes to|moves to|jumps to|comes to|steps to|drops to|returns to)"
    rf" {_SQUARE}|castles(?: (?:kingside|queenside|short|long))?)(?![\w-])"
)
_SUPPOSED = re.compile(
    r"(?<!at )\bonce\b|n't\b|\?|"
    r"\b(?:if|would|could|should|might|may|can|cannot|must|instead|imagine|suppose|threat\w*|plan\w*|idea\w*|"
    r"want\w*|wish\w*|hope\w*|next|later|soon|not|never|no|without|against|after|before|or|to|when|unless|"
    r"until|stop\w*|prevent\w*|allow\w*|prepar\w*|like|about|think\w*|possibl\w*|ready|with|of|for|why|"
    r"what|whether|had|were|better|rather|than|often|usually|always|sometimes|tomorrow)\b",
    re.IGNORECASE,
)
_GOES_TO = re.compile(r"\b(?:goes|moves|jumps|comes|steps|drops|returns) to\b")
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
        for pattern in (_NOTATION, _PLAYED, _WORDS):
            for found in pattern.finditer(words.text):
                numbered = "number" in found.groupdict() and found["number"]
                if not numbered and _SUPPOSED.search(_around(words.text, found)):
                    continue
                said = _GOES_TO.sub("to", found["move"])
                move = move_of(here.board, said, self._language)
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


def _around(text: str, found: re.Match[str]) -> str:
    """The clause in which something stands, without it."""
    start = 0
    for end in _CLAUSE_END.finditer(text, 0, found.start()):
        start = end.end()
    close = _CLAUSE_END.search(text, found.end())
    after = text[found.end() : close.end() if close else len(text)]
    return f"{text[start : found.start()]} {after}"
