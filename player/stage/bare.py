"""What all answers that are no moves have in common: what is said around them, denials, yes and no."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from player.cues.sheet import Ask


@dataclass(frozen=True, slots=True)
class Taken:
    """`meant` as a question's answers are written; empty where nothing can be taken, and `note` says why.

    `proved` tells that the note is the board's own word.
    """

    meant: tuple[str, ...] = ()
    note: str = ""
    proved: bool = False


ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
DENIED = "That says what it is not; say what it is."
_AROUND = re.compile(
    r"^(?:(?:well|hm+|um+|uh|oh|ok|okay|so|then|and|maybe|perhaps|probably|possibly|surely|clearly|definitely|"
    r"easy|i (?:think|guess|believe|say|suppose|see|count)|"
    r"i'?d say|i would say|my (?:answer|guess) (?:is|would be)|"
    r"the answer (?:is|must be)|the answer|answer|it(?: i|')s|it is|it must be|it has to be|it should be|"
    r"must be|that(?: i|')s|that is|that|there (?:are|is)|there'?s|is it|are there|is there|"
    r"would it be|could it be)"
    r"\b[,:]?\s*)+"
)
_AFTER = re.compile(
    r"(?:[,;]?\s*(?:please|thanks|thank you|i (?:think|guess|believe|suppose)|right|of course|sir|madam"
    r"|i'?d say|isn'?t it|correct|no doubt|for sure|obviously))+$"
)
_REASON = re.compile(r",?\s+(?:because|since|as it|as he|as she|so that|for the reason)\b.*$")
_MENDED = re.compile(
    r"^(?P<first>.+?)[,;.]?\s+(?:(?:ah )?no,? (?:wait|hang on)|hang on|wait,?(?: no)?|i mean|i meant|"
    r"or rather|rather|sorry|make that|correction)\b[,:]?\s+(?P<last>.+)$"
)
_MENDED_NO = re.compile(r"^(?P<first>.+?)[,;.]\s*no[,;.]?\s+(?P<last>.+)$")
NOT = re.compile(r"(?<!why )\b(?:not|never|isn'?t|aren'?t|doesn'?t|don'?t|can'?t|cannot|won'?t|nor)\b|n't\b")
OR = re.compile(r"\bor\b")
YES = re.compile(
    r"^(?:yes|yep|yeah|yup|aye|sure|certainly|indeed|of course|he (?:can|may|does|must)|"
    r"she (?:can|may)|it does)\b"
)
NO = re.compile(
    r"^(?:no|nope|nah|never|no way|he (?:cannot|can't|may not|must not|does not|doesn't)|it does not)\b"
)
_IDLE_WORDS = """a an the it is its it's he she they that this of for to in on at and one ones side has have
had does do did be are who which number option choice answer them here"""
IDLE = frozenset(_IDLE_WORDS.split())


def what_is_wanted(ask: Ask) -> str:
    """What kind of answer a question asks for."""
    if ask.kind == "square":
        return "A square is asked for, such as e4; or several."
    if ask.kind == "count":
        return "A number is asked for."
    if ask.kind == "choice":
        return "One of these, by number or in its words: " + "; ".join(
            f"{i}: {choice}" for i, choice in enumerate(ask.choices, 1)
        )
    return "An answer in words is asked for."


def stripped(low: str, *, mended_by_no: bool = True) -> str:
    """The answer itself: what was said last where it was mended, without the words around it."""
    for pattern in (_MENDED, _MENDED_NO) if mended_by_no else (_MENDED,):
        found = pattern.match(low)
        low = found["last"] if found else low
    low = _REASON.sub("", low)
    return _AFTER.sub("", _AROUND.sub("", low)).strip(" ,.!?")


def nearest(bare: str, plain_choices: Sequence[str]) -> list[int]:
    """The place of the one choice that is spelled nearly so; [] where none or several are."""
    from rapidfuzz import fuzz

    scores = sorted(
        ((fuzz.token_sort_ratio(bare, words), at) for at, words in enumerate(plain_choices)), reverse=True
    )
    if scores and scores[0][0] >= 80 and (len(scores) == 1 or scores[0][0] - scores[1][0] >= 10):
        return [scores[0][1]]
    return []
