"""Every form a question to the board is asked in."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources

from player.wording.asked.words import Man, Plain, Thing, plain_question


@dataclass(frozen=True, slots=True)
class Query:
    """A question as data: its kind, a word that parts kinds further, what it names, and the words as said."""

    kind: str
    word: str
    things: tuple[tuple[str, Thing], ...]
    said: str

    def all(self, letter: str) -> list[Thing]:
        return [thing for tag, thing in self.things if tag == letter]

    @property
    def men(self) -> list[Man]:
        return [thing for _, thing in self.things if isinstance(thing, Man)]

    @property
    def side(self) -> str:
        """The first side named by itself, or ""."""
        return next((str(thing) for tag, thing in self.things if tag == "C"), "")

    @property
    def squares(self) -> list[int]:
        """Squares named, by themselves or as a man's, in order."""
        out: list[int] = []
        for tag, thing in self.things:
            if tag == "S" and isinstance(thing, int):
                out.append(thing)
            elif isinstance(thing, Man) and thing.square is not None:
                out.append(thing.square)
        return out

    @property
    def number(self) -> int | None:
        return next((thing for tag, thing in self.things if tag == "N" and isinstance(thing, int)), None)

    @property
    def same_as(self) -> tuple[str, str, tuple[tuple[str, Thing], ...]]:
        """What makes two questions one."""
        return self.kind, self.word, self.things


_WHO = "W (?:is )?(?:(?:of )?C )?(?:man )?(?:is |can |has )?"
_PAWNS = ("passed", "isolated", "doubled", "backward")
_LEAD = re.compile(
    r"^(?:(?:and|but|so|now|also|tell|list|hey|i wonder|question|tell me|C wonder|list C)(?: |$))+"
    r"(?=(?:W|is|do|can|has|how|where|why|who|will|would|could)\b)"
)


@cache
def _table() -> list[tuple[str, str, re.Pattern[str]]]:
    """The forms of forms.toml, in order: kind, word, pattern; made when the first question is asked."""
    text = resources.files("player.wording.asked").joinpath("forms.toml").read_text(encoding="utf-8")
    out = []
    for form in tomllib.loads(text)["form"]:
        ways = "|".join(form["ways"])
        for state in _PAWNS if "{pawns}" in ways else ("",):
            filled = ways.replace("{who}", _WHO).replace("{pawns}", state)
            word = form.get("word", "").replace("{pawns}", state)
            out.append((form["kind"], word, re.compile(f"(?:{filled})")))
    return out


def kinds() -> tuple[str, ...]:
    """Every kind of question there is an answer for."""
    return tuple(dict.fromkeys(kind for kind, _, _ in _table()))


_ASKS = re.compile(
    r"(?:what|which|who|whose|whos|whats|wheres|where|how|why|is|are|was|were|am|can|could|may|might|do|does|did|"
    r"has|have|had|will|would|should|any|isn't|aren't|can't|doesn't|list|count|name|number|wat|wht)\b",
    re.IGNORECASE,
)
_WHY_NOT = re.compile(
    r"(?:and |but |so )?why\s+(?:not|can'?t\s+(?:i|we|he|she|white|black)(?:\s+play)?"
    r"|didn'?t\s+(?:he|she|we|you|white|black)\s+play"
    r"|(?:did|do|does|can|could|would|should)\s+(?:he|she|we|you|i|white|black)\s+not\s+play|isn'?t\s+it|not\s+play)\s+(.+)",
    re.IGNORECASE,
)
_WHAT_ABOUT = re.compile(
    r"(?:and )?(?:what(?:'?s| is) wrong with|what about|how about|what speaks against)\s+(.+)", re.I
)


def looks_asked(said: str) -> bool:
    """Whether these words are a question by their first word or their mark."""
    text = said.strip()
    return text.endswith("?") or bool(_ASKS.match(text))


def query_of(said: str) -> Query | None:
    """The question these words ask of the board, or None where they have none of the known forms."""
    why = _WHY_NOT.fullmatch(said.strip()) or _WHAT_ABOUT.fullmatch(said.strip())
    plain = plain_question(said)
    text = _LEAD.sub("", plain.text)
    for kind, word, pattern in _table():
        if pattern.fullmatch(text):
            return Query(kind, word, plain.things, said)
    if why is not None:
        return Query("why not", why[1].strip(" ?.!"), plain.things, said)
    return None


__all__ = ["Plain", "Query", "kinds", "looks_asked", "query_of"]
