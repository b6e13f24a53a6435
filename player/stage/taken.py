"""How words are taken as an answer that is no move: squares, a number, one of the choices, or words."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

import chess

from player.cues.sheet import Ask
from player.script.answers import NUMBERS
from player.stage.bare import DENIED, IDLE, NO, NOT, OR, YES, Taken, nearest, stripped, what_is_wanted
from player.stage.choosing import chosen
from player.wording.languages import language as language_of
from player.wording.tokens import plain, slots


def taken(ask: Ask, text: str, language: str = "en", known: Collection[str] = ()) -> Taken:
    """What was meant. `known` are the lesson's words: an answer in words that has none of them is no try."""
    low = " ".join(plain(text).casefold().split()).strip(" .!?")
    if ask.kind == "square":
        return _squares(ask, low, language)
    if ask.kind == "count":
        return _count(ask, low)
    if ask.kind == "choice":
        return chosen(ask, low)
    return _words(ask, low, known)


# -- squares -------------------------------------------------------------------------------------------------


def _squares(ask: Ask, low: str, language: str) -> Taken:
    off = next((word for word in re.findall(r"\b[a-z]\d\b", low) if not _SQUARE.fullmatch(word)), None)
    if off is not None:
        return _off_board(off)
    bare = stripped(low)
    with_square = [part for part in re.split(r"[,;:]\s+", bare) if _ANY_SQUARE.search(part)]
    bare = with_square[0] if len(with_square) == 1 else bare
    ahead = _in_front(ask, bare)
    if ahead is not None:
        return Taken((chess.SQUARE_NAMES[ahead],))
    tokens = [slot[0][0] for slot in slots(bare, language_of(language)) if slot and slot[0]]
    kinds = [token.kind for token in tokens]
    found: list[int] = []
    for at, token in enumerate(tokens):
        if token.kind == "S":
            found.append(token.value)
        elif token.kind == "R" and at and kinds[at - 1] == "F":
            if not 0 <= token.value <= 7:
                return _off_board(f"{tokens[at - 1].text} {token.text}")
            found.append(chess.square(tokens[at - 1].value, token.value))
    named = tuple(dict.fromkeys(chess.SQUARE_NAMES[square] for square in found))
    if "!" in kinds or NOT.search(bare):
        return Taken(note=DENIED)
    if named and not set(kinds) & {"T", "X", "c", "U"}:
        if len(named) > 1 and ("|" in kinds or OR.search(bare) or len(ask.answers) == 1):
            return Taken(note=f"Which: {' or '.join(named)}?")
        return Taken(named)
    if not named:
        from player.wording.asked.computed import man_meant

        man = man_meant(ask.place.board(), bare)
        if man is not None:
            return Taken((chess.SQUARE_NAMES[man],))
    return Taken(note=what_is_wanted(ask))


def _off_board(named: str) -> Taken:
    note = f"{named} is off the board: the files go from a to h, the ranks from 1 to 8."
    return Taken(note=note, proved=True)


_SQUARE = re.compile(r"[a-h][1-8]")
_ANY_SQUARE = re.compile(r"\b[a-h] ?(?:[1-8]|one|two|three|four|five|six|seven|eight)\b")
_IN_FRONT = re.compile(
    r"(?:the )?(?:square )?(?:right |just |directly )?(?:in front of|ahead of|before) (?P<man>.+)"
)


def _in_front(ask: Ask, bare: str) -> chess.Square | None:
    """The square before a man, as its own side sees it; None where no such thing was said."""
    found = _IN_FRONT.fullmatch(bare)
    if found is None:
        return None
    from player.wording.asked.computed import man_meant

    board = ask.place.board()
    words = re.sub(r"^(?:his|her|our|my|their|its) ", "the ", found["man"])
    man = man_meant(board, words)
    if man is None and (file := re.fullmatch(r"the ([a-h])[- ]pawn", words)):
        whose = not board.turn if found["man"].startswith(("his", "her", "their")) else board.turn
        pawns = [one for one in board.pieces(chess.PAWN, whose) if chess.FILE_NAMES[one & 7] == file[1]]
        man = pawns[0] if len(pawns) == 1 else None
    if man is None:
        return None
    square = man + (8 if board.color_at(man) else -8)
    return square if 0 <= square < 64 else None


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
_NUMBER = rf"(?P<number>\d+|{'|'.join(word for word in NUMBERS if word != 'no')})$"
_TOTAL = re.compile(rf"\b(?:so|makes?|that's|in all|altogether|equals?) {_NUMBER}")
_LAST = re.compile(rf"(?:[;?!]|\.\.+) *{_NUMBER}")
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
    bare = stripped(low)
    total = _TOTAL.search(bare) or _LAST.search(bare)
    bare = total["number"] if total else bare
    if _NONE.match(bare):
        return Taken(("0",))
    counted = _NO_NUMBER.sub(" ", bare)
    for words, number in _PAIRS.items():
        counted = re.sub(rf"\b{words}\b", number, counted)
    names = [word for word in re.findall(r"\d+|[a-z]+", counted) if word.isdigit() or word in NUMBERS]
    numbers = tuple(dict.fromkeys(str(int(NUMBERS.get(word, word))) for word in names if word != "no"))
    if not numbers:
        return Taken(note=what_is_wanted(ask))
    if NOT.search(bare):
        return Taken(note=DENIED)
    if _ROUGHLY.search(bare):
        return Taken(note="Say the number itself.")
    if len(numbers) > 1:
        return Taken(note=f"Which: {' or '.join(numbers)}?")
    return Taken(numbers)


# -- words ---------------------------------------------------------------------------------------------------


def _words(ask: Ask, low: str, known: Collection[str]) -> Taken:
    """The words as they are; those that can only be a slip of the hand are no try."""
    if not low:
        return Taken(note=what_is_wanted(ask))
    listed = [one.casefold().strip(" .!?") for one in ask.answers]
    listed += [one.casefold().strip(" .!?") for reply in (*ask.replies, *ask.also) for one in reply.answers]
    if re.fullmatch(r"[kqrbn]?[a-h]?[1-8]?x[a-h][1-8][+#]?", low) and any("take" in one for one in listed):
        return Taken(("take",))
    if OR.search(low) and not any(OR.search(one) for one in listed):
        return Taken(note="One of them: which?")
    said = re.findall(r"[\w'-]+", low)
    words = {word for one in listed for word in re.findall(r"[\w'-]+", one)} | IDLE
    usual = any(word in words or word in known or word.isdigit() or len(word) < 3 for word in said)
    if known and not usual and not (YES.match(low) or NO.match(low)) and not nearest(low, listed):
        return Taken(note=f'I do not know what "{low[:40]}" means here.')
    return Taken((low,))


def fits_words(said: str, answers: Sequence[str], others: Sequence[str] = ()) -> bool:
    """Whether words say what one of the answers says; a "not" in only one of the two makes it another thing.

    To deny one of the `others`, the wrong answers, is to say no.
    """
    from rapidfuzz import fuzz

    bare = stripped(said, mended_by_no=False)
    denied = bool(NOT.search(bare))
    plain_answers = [one.casefold().strip(" .!?") for one in answers]
    own, theirs = (
        set(re.findall(rf"\b{_SQUARE.pattern}\b", words)) for words in (bare, " ".join(plain_answers))
    )
    if theirs and not own <= theirs:
        return False
    for one in plain_answers:
        near = max(fuzz.token_set_ratio(bare, one), fuzz.token_set_ratio(said, one))
        if bool(NOT.search(one)) == denied and near >= 85:
            return True
    says_no = any(NO.match(one) for one in plain_answers)
    if denied and says_no:
        without = " ".join(NOT.sub(" ", bare).split())
        return bool(NO.match(bare)) or bool(without and fits_words(without, others))
    if NO.match(bare):
        return says_no
    return YES.match(bare) is not None and any(YES.match(one) for one in plain_answers)
