"""Prose against what has been taken: what has come off, was traded, won or lost, and what could be taken."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.counting import balance
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.standing import history
from player.check.prose.words import KIND, KINDS, SQUARE, denied, sentence
from player.facts.place import Place

_HAS = re.compile(r"\b(?P<who>White|Black) has (?P<no>no|a|one) (?P<what>capture|check)s?\b(?! to fear)")
_GONE = re.compile(
    rf"\b(?P<no>[Nn]obody|[Nn]othing|[Nn]o (?:man|men|piece|one|{KIND})s?|"
    rf"[Nn]ot a (?:single )?(?:man|piece|{KIND}))"
    r" (?:(?:has|have) (?:yet |ever )?)?(?:been (?:taken|captured|traded|exchanged)|(?:taken|took) anything|"
    r"come off|left the board)\b(?! else| more| since| on\b| in\b| for\b| lately| after)"
)
_FELL = re.compile(
    r"\b(?:[Tt]he first|[Aa]|[Oo]ne|[Tt]wo|[Aa] pair of|[Oo]ne pair of) "
    rf"(?P<kind>{KIND}|man|men|piece)s?(?: each)? "
    r"(?:has|have) (?:already |just )?(?:been (?:taken|captured|traded|exchanged)|come off|left the board)\b"
)
_TRADED = re.compile(
    r"\b[Tt]he (?P<kind>queen|rook|knight|bishop)s "
    r"(?:(?:have|were|are) (?:already |now )?(?:been )?(?:traded|exchanged|swapped)|"
    r"have (?:now |already )?come off|came off|are off(?: the board)?)\b(?! if| when)"
)
_SWAPS = re.compile(
    r"\b(?:He|She|White|Black|We|[A-Z]\w+) (?:trades|swaps|exchanges) (?:off )?(?:the )?"
    r"(?P<kind>queen|rook|knight|bishop|pawn)s\b"
)
_TOOK_ON = re.compile(
    rf"\b(?:[Hh]e|[Ss]he|White|Black|[Tt]he {KIND}) "
    rf"(?:took|captured|has taken|has captured) on (?P<square>{SQUARE})\b"
)
_HAS_TAKEN = re.compile(
    rf"\b[Tt]he (?P<a>{KIND}) (?:has (?:just |already )?taken|took) "
    rf"(?:the|a|our|his|her|White's|Black's) (?P<b>{KIND})\b"
    r"(?!-| pair)"
)
_WON = re.compile(
    r"\b(?P<who>White|Black) has (?:simply |just |now |only )?(?P<how>won|lost) (?:a|the|his|one|that) "
    r"(?:pawn|piece|exchange|knight|bishop|rook|queen)\b(?! (?:race|ending|chain|structure))"
)
_IF = re.compile(
    r"\b(?:[Ii]f|[Ww]hen|[Oo]nce|[Aa]fter|[Ll]ater|[Uu]nless|[Nn]ext|[Ss]oon|[Uu]ntil|[Ss]uppose|[Ii]magine|"
    r"would|one day|how|whether|where|what|why)\b|\?"
)
_BACK_FAR = 6


def gone_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about men said to be gone, traded or never taken, and about a side's captures and checks."""
    if passage.role in ("idea", "part", "title"):
        return
    yield from _having(passage, boards)
    yield from _gone(passage, boards)
    yield from _traded(passage, boards)
    yield from _won(passage, boards)
    yield from _taken(passage, boards)


def _doubt(found: re.Match[str], group: str | int, message: str) -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-capture", message)


def _is_open(text: str, found: re.Match[str]) -> bool:
    """Whether the sentence supposes or asks what it says."""
    first, last = sentence(text, *found.span())
    return bool(_IF.search(text[first : found.end()])) or "?" in text[found.end() : last]


def _having(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "White has a capture now", "Black has no check": the legal moves of that side."""
    for found in _HAS.finditer(passage.text):
        if _is_open(passage.text, found) or denied(passage.text, found.start()):
            continue
        white, no = found["who"] == "White", found["no"] == "no"
        here = [passage.at(found.start()), *passage.replied] if no else tight_places(passage, found.start())
        has = [_has(boards.of(place), white, found["what"] == "capture") for place in here]
        if all(has) if no else not any(has):
            a = "a" if no else "no"
            yield _doubt(found, "no", f"{found['who']} has {a} {found['what']} here.")


def _has(board: chess.Board, white: bool, takes: bool) -> bool:
    if board.turn != white:
        board = board.copy(stack=False)
        board.turn = white
    return any(board.is_capture(move) if takes else board.gives_check(move) for move in board.legal_moves)


def _gone(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """What has been taken up to here, of a game told from its first move."""
    text = passage.text
    for found in _GONE.finditer(text):
        named = re.search(KIND, found["no"])
        kind = KINDS[named[0]] if named else None
        if not _is_open(text, found) and _missing(boards, passage.at(found.start()), kind):
            yield _doubt(found, 0, "Something of the kind has been taken by now.")
    for found in _FELL.finditer(text):
        if denied(text, found.start()) or _is_open(text, found):
            continue
        kind = KINDS.get(found["kind"])
        if _is_whole(boards, passage) and not any(
            _missing(boards, place, kind) for place in passage.places()
        ):
            yield _doubt(found, 0, "Nothing of the kind has been taken by now.")


def _missing(boards: Boards, place: Place, kind: int | None) -> bool:
    """Whether men (of a kind, where one is named) have gone since the first position of a place."""
    board, first = boards.of(place), boards.of(Place(place.root, ()))
    return any(
        len(board.pieces(one, white)) < len(first.pieces(one, white))
        for one in ((kind,) if kind else chess.PIECE_TYPES)
        for white in chess.COLORS
    )


def _traded(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The queens have come off": not where all of them stand."""
    for found in _TRADED.finditer(passage.text):
        if denied(passage.text, found.start()) or _is_open(passage.text, found):
            continue
        kind, full = KINDS[found["kind"]], 1 if found["kind"] == "queen" else 2
        around = [*passage.places(), *(turn.after for turn in passage.ahead)]
        if all(len(boards.of(one).pieces(kind, white)) >= full for one in around for white in chess.COLORS):
            yield _doubt(found, 0, f"All {found['kind']}s are on the board here.")


def _won(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "White has won a pawn": the balance has changed that way within the last few moves."""
    for found in _WON.finditer(passage.text):
        if denied(passage.text, found.start()) or _is_open(passage.text, found):
            continue
        sign = 1 if (found["who"] == "White") == (found["how"] == "won") else -1
        here = passage.at(found.start())
        count = len(here.moves)
        past = [Place(here.root, here.moves[: count - back]) for back in range(1, min(_BACK_FAR, count) + 1)]
        now = sign * balance(boards.of(here))
        if past and not any(sign * balance(boards.of(one)) < now for one in past):
            yield _doubt(found, "how", f"{found['who']} has not {found['how']} anything here.")


def _taken(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "He took on f4", "the bishop has taken our knight", "she swaps queens": some capture told is that."""
    text = passage.text
    made: list[tuple[int, int, int]] | None = None
    for pattern in (_SWAPS, _TOOK_ON, _HAS_TAKEN):
        for found in pattern.finditer(text):
            if denied(text, found.start()) or _is_open(text, found) or not _is_whole(boards, passage):
                continue
            made = list(_captures(passage, boards)) if made is None else made
            if pattern is _SWAPS:
                right = any(KINDS[found["kind"]] == prey for _, prey, _ in made)
            elif pattern is _TOOK_ON:
                right = any(chess.parse_square(found["square"]) == square for _, _, square in made)
            else:
                right = any((KINDS[found["a"]], KINDS[found["b"]]) == (man, prey) for man, prey, _ in made)
            if not right:
                yield _doubt(found, 0, "No capture told up to here is that one.")


def _is_whole(boards: Boards, passage: Passage) -> bool:
    """Whether the line of a passage is told from the first move of a game."""
    return boards.of(Place(passage.before.root, ())).fen() == chess.STARTING_FEN


def _captures(passage: Passage, boards: Boards) -> Iterator[tuple[int, int, int]]:
    """The kind that takes, the kind taken and the square of each capture told up to the end of a passage, or
    soon after it.
    """
    places = [*passage.places(), *history(passage), *(turn.after for turn in passage.ahead)]
    for place in dict.fromkeys(one for one in places if one.moves):
        before = boards.of(Place(place.root, place.moves[:-1]))
        move = chess.Move.from_uci(place.moves[-1])
        if before.is_capture(move):
            prey = before.piece_type_at(move.to_square) or chess.PAWN
            yield before.piece_type_at(move.from_square) or chess.PAWN, prey, move.to_square
