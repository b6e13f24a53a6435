"""How words are taken as an answer that is no move: squares, a number, one of the choices, or words."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass

import chess

from player.cues.sheet import Ask
from player.script.answers import NUMBERS
from player.wording.languages import language as language_of
from player.wording.tokens import plain, slots


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
    r"^(?P<first>.+?)[,;.]?\s+(?:no,? wait|wait,?(?: no)?|i mean|i meant|or rather|rather|sorry|make that|"
    r"correction)\b[,:]?\s+(?P<last>.+)$"
)
_MENDED_NO = re.compile(r"^(?P<first>.+?)[,;.]\s*no[,;.]?\s+(?P<last>.+)$")
_NOT = re.compile(r"\b(?:not|never|isn'?t|aren'?t|doesn'?t|don'?t|can'?t|cannot|won'?t|nor)\b|n't\b")
_OR = re.compile(r"\bor\b")


def taken(ask: Ask, text: str, language: str = "en", known: Collection[str] = ()) -> Taken:
    """What was meant. `known` are the lesson's words: an answer in words that has none of them is no try."""
    low = " ".join(plain(text).casefold().split()).strip(" .!?")
    if ask.kind == "square":
        return _squares(ask, low, language)
    if ask.kind == "count":
        return _count(ask, low)
    if ask.kind == "choice":
        return _choice(ask, low)
    return _words(ask, low, known)


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


def _bare(low: str, *, mended_by_no: bool = True) -> str:
    """The answer itself: what was said last where it was mended, without the words around it."""
    for pattern in (_MENDED, _MENDED_NO) if mended_by_no else (_MENDED,):
        found = pattern.match(low)
        low = found["last"] if found else low
    low = _REASON.sub("", low)
    return _AFTER.sub("", _AROUND.sub("", low)).strip(" ,.!?")


# -- squares -------------------------------------------------------------------------------------------------


def _squares(ask: Ask, low: str, language: str) -> Taken:
    off = next((word for word in re.findall(r"\b[a-z]\d\b", low) if not re.match("[a-h][1-8]", word)), None)
    if off is not None:
        note = f"{off} is off the board: the files go from a to h, the ranks from 1 to 8."
        return Taken(note=note, proved=True)
    bare = _bare(low)
    tokens = [slot[0][0] for slot in slots(bare, language_of(language)) if slot and slot[0]]
    kinds = [token.kind for token in tokens]
    found: list[int] = []
    for at, token in enumerate(tokens):
        if token.kind == "S":
            found.append(token.value)
        elif token.kind == "R" and at and kinds[at - 1] == "F":
            found.append(chess.square(tokens[at - 1].value, token.value))
    named = tuple(dict.fromkeys(chess.SQUARE_NAMES[square] for square in found))
    if "!" in kinds or _NOT.search(bare):
        return Taken(note=DENIED)
    if named and not set(kinds) & {"T", "X", "c", "U"}:
        if len(named) > 1 and ("|" in kinds or _OR.search(bare)):
            return Taken(note=f"Which: {' or '.join(named)}?")
        return Taken(named)
    if not named:
        from player.wording.asked.computed import man_meant

        man = man_meant(ask.place.board(), bare)
        if man is not None:
            return Taken((chess.SQUARE_NAMES[man],))
    return Taken(note=what_is_wanted(ask))


# -- numbers -------------------------------------------------------------------------------------------------

_NO_NUMBER = re.compile(
    r"\b[a-h][1-8]\b|\b(?:the|this|that|which|another|last|first|next|white|black|no) one\b|"
    r"\b(?:question|part|lesson|move|aside|idea|rank)s? (?:number )?\w+|\bone (?:of|more|day|another)\b"
)
_ROUGHLY = re.compile(
    r"\b(?:more|less|fewer|greater) than\b|\bat (?:least|most)\b|\b(?:over|under|between|up to)\b"
)
_NONE = re.compile(
    r"^(?:none|no|nobody|nothing|no one|not one|not any|zero|nil|there (?:are|is) (?:none|no\b.*))"
    r"(?: at all| of them| (?:men|man|squares?|pieces?|pawns?|moves?|checks?|guards?))?$"
)
_PAIRS = {
    "both": "2",
    "a couple": "2",
    "a pair": "2",
    "twice": "2",
    "once": "1",
    "thrice": "3",
    "half a dozen": "6",
}


def _count(ask: Ask, low: str) -> Taken:
    bare = _bare(low)
    if _NONE.match(bare):
        return Taken(("0",))
    counted = _NO_NUMBER.sub(" ", bare)
    for words, number in _PAIRS.items():
        counted = re.sub(rf"\b{words}\b", number, counted)
    names = [word for word in re.findall(r"\d+|[a-z]+", counted) if word.isdigit() or word in NUMBERS]
    numbers = tuple(dict.fromkeys(str(int(NUMBERS.get(word, word))) for word in names if word != "no"))
    if not numbers:
        return Taken(note=what_is_wanted(ask))
    if _NOT.search(bare):
        return Taken(note=DENIED)
    if _ROUGHLY.search(bare):
        return Taken(note="Say the number itself.")
    if len(numbers) > 1:
        return Taken(note=f"Which: {' or '.join(numbers)}?")
    return Taken(numbers)


# -- choices -------------------------------------------------------------------------------------------------

_YES = re.compile(
    r"^(?:yes|yep|yeah|yup|aye|sure|certainly|indeed|of course|he (?:can|may|does|must)|"
    r"she (?:can|may)|it does)\b"
)
_NO = re.compile(
    r"^(?:no|nope|nah|never|no way|he (?:cannot|can't|may not|must not|does not|doesn't)|it does not)\b"
)
_NOBODY = frozenset(
    {"nobody", "neither", "none", "no one", "neither side", "no side", "neither of them", "nobody does"}
)
_IDLE_WORDS = """a an the it is its it's he she they that this of for to in on at and one ones side has have
had does do did be are who which number option choice answer them here"""
_IDLE = frozenset(_IDLE_WORDS.split())


def _choice(ask: Ask, low: str) -> Taken:
    choices = ask.choices
    for said in dict.fromkeys((low, _bare(low, mended_by_no=False))):
        for choice in choices:
            if said == choice.casefold().strip(" .!?"):
                return Taken((choice,))
        number = re.fullmatch(
            r"(?:(?:the )?(?:number|option|choice|answer) )?(?:the )?(\w+)(?: (?:one|choice|option))?", said
        )
        word = number[1] if number else ""
        for at, choice in enumerate(choices):
            ordinal = ORDINALS[at] if at < len(ORDINALS) else ""
            if word in (str(at + 1), ordinal) or (NUMBERS.get(word) == str(at + 1)):
                return Taken((choice,))
        if said in ("the last", "the last one", "last", "last one") and len(choices) > 1:
            return Taken((choices[-1],))
    bare = _bare(low, mended_by_no=False)
    plain_choices = [choice.casefold().strip(" .!?") for choice in choices]
    if bare in _NOBODY:
        nobody = [choice for choice, words in zip(choices, plain_choices, strict=True) if words in _NOBODY]
        if len(nobody) == 1:
            return Taken((nobody[0],))
    return _by_words(ask, bare, plain_choices)


def _by_words(ask: Ask, bare: str, plain_choices: Sequence[str]) -> Taken:
    """The one choice that begins with the yes or no that was said, or that alone has the words said."""
    own = [_content(words) for words in plain_choices]
    common = frozenset.intersection(*own) if own else frozenset()
    yes, no = _YES.match(bare), _NO.match(bare)
    rest = bare
    if yes or no:
        begin = [at for at, words in enumerate(plain_choices) if (_YES if yes else _NO).match(words)]
        found = yes or no
        assert found is not None
        rest = bare[found.end() :].strip(" ,.;:")
        if len(begin) == 1:
            said = _content(rest)
            others = frozenset().union(*(own[at] for at in range(len(own)) if at != begin[0])) - own[begin[0]]
            if said & others and not _NOT.search(bare):
                return Taken(note=what_is_wanted(ask))
            return Taken((ask.choices[begin[0]],))
    said = _content(bare)
    fits = [at for at, words in enumerate(own) if said and said <= words and said - common]
    if not fits and said:
        fits = [at for at, words in enumerate(own) if (words - common) and (words - common) <= said]
    if not fits:
        fits = _near(bare, plain_choices)
    denied = _NOT.search(bare) or bare.startswith(("no ", "neither "))
    if len(fits) == 1 and denied and not _NOT.search(plain_choices[fits[0]]):
        return Taken(note=DENIED)
    if len(fits) > 1 and _OR.search(bare):
        return Taken(note="One of them: which?")
    return Taken((ask.choices[fits[0]],)) if len(fits) == 1 else Taken(note=what_is_wanted(ask))


def _content(words: str) -> frozenset[str]:
    """The words that carry what is said, each without its plural."""
    found = re.findall(r"[\w'-]+", words)
    return frozenset(_stem(word) for word in found if word not in _IDLE) - {"yes", "no"}


def _stem(word: str) -> str:
    word = word.removesuffix("'s")
    return word[:-1] if len(word) > 3 and word.endswith("s") else word


def _near(bare: str, plain_choices: Sequence[str]) -> list[int]:
    from rapidfuzz import fuzz

    scores = sorted(
        ((fuzz.token_sort_ratio(bare, words), at) for at, words in enumerate(plain_choices)), reverse=True
    )
    if scores and scores[0][0] >= 80 and (len(scores) == 1 or scores[0][0] - scores[1][0] >= 10):
        return [scores[0][1]]
    return []


# -- words ---------------------------------------------------------------------------------------------------


def _words(ask: Ask, low: str, known: Collection[str]) -> Taken:
    """The words as they are; those that can only be a slip of the hand are no try."""
    if not low:
        return Taken(note=what_is_wanted(ask))
    listed = [one.casefold().strip(" .!?") for one in ask.answers]
    listed += [one.casefold().strip(" .!?") for reply in (*ask.replies, *ask.also) for one in reply.answers]
    if re.fullmatch(r"[kqrbn]?[a-h]?[1-8]?x[a-h][1-8][+#]?", low) and any("take" in one for one in listed):
        return Taken(("take",))
    said = re.findall(r"[\w'-]+", low)
    words = {word for one in listed for word in re.findall(r"[\w'-]+", one)} | _IDLE
    usual = any(word in words or word in known or word.isdigit() or len(word) < 3 for word in said)
    if known and not usual and not (_YES.match(low) or _NO.match(low)) and not _near(low, listed):
        return Taken(note=f'I do not know what "{low[:40]}" means here.')
    return Taken((low,))


def fits_words(said: str, answers: Sequence[str], others: Sequence[str] = ()) -> bool:
    """Whether words say what one of the answers says; a "not" in only one of the two makes it another thing.

    To deny one of the `others`, the wrong answers, is to say no.
    """
    from rapidfuzz import fuzz

    bare = _bare(said, mended_by_no=False)
    denied = bool(_NOT.search(bare))
    plain_answers = [one.casefold().strip(" .!?") for one in answers]
    for one in plain_answers:
        near = max(fuzz.token_set_ratio(bare, one), fuzz.token_set_ratio(said, one))
        if bool(_NOT.search(one)) == denied and near >= 85:
            return True
    says_no = any(_NO.match(one) for one in plain_answers)
    if denied and says_no:
        without = " ".join(_NOT.sub(" ", bare).split())
        return bool(_NO.match(bare)) or bool(without and fits_words(without, others))
    if _NO.match(bare):
        return says_no
    return _YES.match(bare) is not None and any(_YES.match(one) for one in plain_answers)
