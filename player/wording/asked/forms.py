"""Every form a question to the board is asked in."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources

import chess

from player.wording.asked.lexis import FORM_LISTS
from player.wording.asked.move_forms import move_form, move_kinds
from player.wording.asked.restated import halves, restated
from player.wording.asked.spelled import spelled
from player.wording.asked.words import Man, Plain, Thing, plain_question


@dataclass(frozen=True, slots=True)
class Query:
    """A question as data: its kind, a word that parts kinds further, what it names, and the words as said.

    `move` has the words of the move it is about, where it names one, and `inner` the question that is asked
    of the board after that move.
    """

    kind: str
    word: str
    things: tuple[tuple[str, Thing], ...]
    said: str
    move: str = ""
    inner: str = ""

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
    def same_as(self) -> tuple[str, str, tuple[tuple[str, Thing], ...], str, str]:
        """What makes two questions one."""
        return self.kind, self.word, self.things, self.move, self.inner


_WHO = "W (?:is )?(?:(?:of )?C )?(?:man )?(?:is |can |has )?"
_PAWNS = ("passed", "isolated", "doubled", "backward")
_LEAD = re.compile(
    r"^(?:(?:and|but|so|now|also|tell|list|hey|i wonder|question|tell me|C wonder|list C)(?: |$))+"
    r"(?=(?:W|is|do|can|has|how|where|why|who|will|would|could)\b)"
)


@cache
def _table() -> list[tuple[str, str, re.Pattern[str], str, str]]:
    """The forms of the three lists, in order; made when the first question is asked.

    Each is kind, word, pattern, and of which kind the first and the last man named must be.
    """
    here = resources.files("player.wording.asked")
    texts = [here.joinpath(name).read_text(encoding="utf-8") for name in FORM_LISTS]
    out = []
    for form in [form for text in texts for form in tomllib.loads(text)["form"]]:
        ways = "|".join(form["ways"])
        for state in _PAWNS if "{pawns}" in ways else ("",):
            filled = ways.replace("{who}", _WHO).replace("{pawns}", state)
            word = form.get("word", "").replace("{pawns}", state)
            ends = form.get("first", ""), form.get("last", "")
            out.append((form["kind"], word, re.compile(f"(?:{filled})"), *ends))
    return out


def kinds() -> tuple[str, ...]:
    """Every kind of question there is an answer for."""
    return tuple(dict.fromkeys([*(kind for kind, *_ in _table()), *move_kinds(), "two", "why not"]))


_ASKS = re.compile(
    r"(?:what|which|who|whose|whos|whats|wheres|where|how|why|is|are|was|were|am|can|could|may|might|do|does|did|"
    r"has|have|had|will|would|should|any|isn't|aren't|can't|doesn't|list|count|name|number|wat|wht)\b",
    re.IGNORECASE,
)
_IF_ASKED = re.compile(
    r"(?:if|when|after|once)\b.+\b(?:is|will|would|does|am|are|can|what|who|which|how)\b", re.I
)
_WHY_NOT = re.compile(
    r"(?:and |but |so )?why\s+(?:not|can'?t\s+(?:i|we|he|she|white|black)(?:\s+play)?"
    r"|didn'?t\s+(?:he|she|we|you|white|black)\s+play"
    r"|(?:did|do|does|can|could|would|should)\s+(?:he|she|we|you|i|white|black)\s+not\s+play|isn'?t\s+it|not\s+play)\s+(.+)",
    re.IGNORECASE,
)
_WHAT_IF = re.compile(r"\s*(?:and )?what if\b", re.I)
_WHAT_ABOUT = re.compile(
    r"(?:and )?(?:what(?:'?s| is) wrong with|what about|how about|what speaks against)\s+(.+)", re.I
)


def looks_asked(said: str) -> bool:
    """Whether these words are a question by their first word or their mark."""
    text = said.strip()
    return (
        text.endswith("?")
        or bool(_ASKS.match(text))
        or (bool(_IF_ASKED.match(text)) and move_form(text) is not None)
    )


def query_of(said: str) -> Query | None:
    """The question these words ask of the board, or None where they have none of the known forms.

    Where the words as said have no form, the same question in other words may have one; and two questions
    in one are asked one after the other, or only the first of them.
    """
    query = _as_said(said)
    if query is not None and (query.kind != "why not" or not re.search("mate|,", query.word)):
        return query
    if _WHAT_IF.match(said):
        return query
    before = _as_said(said.partition(",")[0]) if query is not None and "," in said else None
    if before is not None and before.kind != "why not":
        return before
    for other in restated(said):
        again = _as_said(other)
        if again is not None:
            return again
    return query or _of_two(said)


def _of_two(said: str) -> Query | None:
    """Two questions in one: `word` is "both" or "first", `inner` the questions, a line each."""
    for first, ways in halves(said, _move_in):
        asked = _simply(first)
        if asked is None:
            continue
        for second in ways:
            if _simply(second) is not None:
                return Query("two", "both", asked.things, said, "", f"{first}\n{second}")
        if re.match(r"(?:what|which|who|where|how|why|is|are|can|does|do)\b", ways[0], re.IGNORECASE):
            return Query("two", "first", asked.things, said, "", first)
    return None


def _move_in(said: str) -> str:
    query = _simply(said)
    return query.move if query is not None else ""


def _simply(said: str) -> Query | None:
    """The question, where it is one only; its words as said, or in others."""
    return next((query for one in (said, *restated(said)) if (query := _as_said(one)) is not None), None)


def _as_said(said: str) -> Query | None:
    said = spelled(said)
    why = _WHY_NOT.fullmatch(said.strip()) or _WHAT_ABOUT.fullmatch(said.strip())
    moved = move_form(said)
    if moved is not None and not _may_be_a_place(moved):
        return _of_a_move(moved, said)
    plain = plain_question(said)
    text = _LEAD.sub("", plain.text)
    for kind, word, pattern, first, last in _table():
        if pattern.fullmatch(text):
            query = Query(kind, word, plain.things, said)
            if _is_of(query.men[:1], first) and _is_of(query.men[-1:], last):
                return query
    if moved is not None:
        return _of_a_move(moved, said)
    if why is not None:
        return Query("why not", why[1].strip(" ?.!"), plain.things, said)
    return None


def _is_of(men: list[Man], kind: str) -> bool:
    """Whether the man named is of this kind; any is, and none, where no kind is wanted."""
    return not kind or (bool(men) and men[0].kind is not None and chess.piece_name(men[0].kind) == kind)


def _may_be_a_place(moved: tuple[str, str, str, str, str]) -> bool:
    """Whether what looks like a move may be meant as a square, or castling as a right: "is e4 safe"."""
    kind, word, move, _, _ = moved
    if kind == "then" or move.casefold() in ("castling", "castles", "castle"):
        return True
    bare = re.fullmatch("[a-h][1-8]", move, re.IGNORECASE) is not None
    return bare and (kind in ("hits by move", "safe move", "wins") or word == "taken")


def _of_a_move(moved: tuple[str, str, str, str, str], said: str) -> Query:
    """The question of a move: the side said, and then what it is said to attack or win, are its things."""
    kind, word, move, side, target = moved
    sides = plain_question(side).things if side and kind != "then" else ()
    things = plain_question(target).things if target and kind != "then" else ()
    return Query(kind, word, (*sides, *things), said, move, target)


__all__ = ["Plain", "Query", "kinds", "looks_asked", "query_of"]
