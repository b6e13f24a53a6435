"""The forms of questions that name a move in words: which words are the move, and what is asked of it."""

from __future__ import annotations

import itertools
import re
import tomllib
from functools import cache
from importlib import resources

_SQUARE = r"(?:[a-h][1-8])"
_SAN = (
    r"(?:[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](?:=?[QRBN])?|[KQRBN]x?[a-h]?[1-8]?x?[a-h][1-8]|[o0]-[o0](?:-[o0])?)"
    r"[+#!]*"
)
_WHOSE = r"(?:(?:the|my|his|her|their|a|white'?s?|black'?s?) )?"
_KIND = r"(?:king|queen|rook|bishop|knight|pawn)"
_MAN = rf"{_WHOSE}(?:[a-h][- ])?(?:{_SQUARE} )?{_KIND}(?: (?:on|from) {_SQUARE})?"
_WAY = (
    r"(?:takes?|taking|captures?|capturing|x|to|goes to|going to|moves to|moving to|takes? on|taking on|"
    r"captures? on|capturing on)"
)
_WORDS = (
    rf"{_MAN} {_WAY}(?: (?:the )?{_KIND}(?: on)?)? {_SQUARE}",
    rf"{_MAN} (?:takes?|captures?|x) (?:the )?{_KIND}",
    rf"(?:takes|taking|capturing|captures)(?: on| the {_KIND}(?: on)?)? {_SQUARE}",
    rf"{_SQUARE} ?(?:-|to|x|takes) ?{_SQUARE}",
    r"castl(?:es|ing)(?: (?:short|long|(?:king|queen)[ -]?side))?",
)
_SURE = f"(?P<move>{_SAN}|{'|'.join(_WORDS)})"
_ANY = f"(?P<move>{_SAN}|{'|'.join(_WORDS)}|{_WHOSE}{_KIND} {_SQUARE})"
_SIDE = (
    r"(?P<side>i|we|me|us|you|he|she|they|him|her|them|white|black|my opponent|the opponent|"
    r"the (?:white|black) side)"
)
_PLAYED = (
    rf"(?:(?:(?:{_SIDE}) )?(?:plays?|played|goes|go|does|do|chooses?|tr(?:y|ies)|makes?|playing|moves?) )?"
)
_BE = r"(?:be |give |gives |deliver |delivers |come with |with |cause |lead to |a |an |in |it |the )*"
_AFTER = r"(?:if|after|on|when|with|once|following|in case of|in reply to|in answer to|upon)"
_WOULD = r"(?:would|will|could|might|can)"
_HIT = (
    r"(?P<word>attack|hit|threaten|see|eye|look at|aim at|control|defend|guard|protect|cover|support|fork|"
    r"pin)(?:s|ing|ed)?"
)
_TAIL = r"(?: (?:here|now|then|already|still|right now|in this position))*"

_PARTS = {
    "san": _SAN,
    "words": "|".join(_WORDS),
    "square": _SQUARE,
    "kind": _KIND,
    "sure": _SURE,
    "any": _ANY,
    "side": _SIDE,
    "played": _PLAYED,
    "be": _BE,
    "after": _AFTER,
    "would": _WOULD,
    "hit": _HIT,
}
"""What the words in braces of move_forms.toml stand for."""


@cache
def _forms() -> tuple[tuple[str, str, str], ...]:
    """Kind, word and pattern of every form, in the order in which they are tried."""
    text = resources.files("player.wording.asked").joinpath("move_forms.toml").read_text(encoding="utf-8")
    forms = tomllib.loads(text)["form"]
    return tuple((form["kind"], form.get("word", ""), way) for form in forms for way in form["ways"])


@cache
def _table() -> tuple[tuple[str, str, re.Pattern[str]], ...]:
    return tuple((kind, word, _compiled(f"(?:{form}){_TAIL}")) for kind, word, form in _forms())


def _compiled(form: str) -> re.Pattern[str]:
    """The pattern of a form in which a side may be named at several places: side1, side2, ..."""
    for name, part in _PARTS.items():
        form = form.replace(f"{{{name}}}", part)
    number = itertools.count(1)
    return re.compile(re.sub(r"\(\?P<side>", lambda _: f"(?P<side{next(number)}>", form), re.IGNORECASE)


_LEAD = re.compile(
    r"^(?:(?:and|but|so|ok|okay|well|please|hey|now|also|then|tell me|can you tell me|could you tell me|"
    r"do you know|i wonder|say)(?: if| whether)?,? )+(?=\w)",
    re.IGNORECASE,
)
_SPACE = re.compile(r"\s+")


def move_form(said: str) -> tuple[str, str, str, str, str] | None:
    """Kind, word, move, side and target of a question that names a move; None where it has no such form."""
    text = _SPACE.sub(" ", said.replace("’", "'").replace("?", " ").strip(" .,;:\"'")).strip()
    text = re.sub(r"!+$", "", text)
    for candidate in dict.fromkeys((text, _LEAD.sub("", text))):
        for kind, word, pattern in _table():
            found = pattern.fullmatch(candidate)
            if found is None:
                continue
            groups = found.groupdict()
            if word == "{word}":
                word = (groups.get("word") or "").casefold()
            side = next(
                (one for name, one in groups.items() if name.startswith("side") and one), ""
            ).casefold()
            return kind, word, groups["move"], side, groups.get("target") or ""
    return None


def move_kinds() -> tuple[str, ...]:
    """Every kind of question that names a move."""
    return tuple(dict.fromkeys(kind for kind, _, _ in _forms()))
