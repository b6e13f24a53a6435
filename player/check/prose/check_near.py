"""Prose against the checks that are near: of a man of a kind, of a king that must move, and "the check"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.standing import history
from player.check.prose.words import KINDS, SQUARE, denied, sentence
from player.facts.place import Place

_OF_KIND = re.compile(
    r"(?:^|\b(?:the|a|his|her|our|my|your|black's|white's|white|black) )"
    r"(?P<kind>pawn|knight|bishop|rook|queen)\b"
    rf"(?P<mid>(?!'|-| is\b| was\b)[^.,;:!?—–]{{0,50}}?)"
    r",? (?P<it>(?P<how>with|without)(?: a| any)? check|"
    r"(?P<gives>gives check|checks)\b(?! (?:that|whether|if|out|are|end|will|have|can|must|stop)\b))"
    rf"(?: (?:on|from) (?P<there>{SQUARE}))?",
    re.I,
)
_OPENS = re.compile(
    r"(?:^|[.,;:!?] |"
    r"\b(?:and|but|so|then|that|when|if|while|because|since|as|for|now|here|where|once|after) )$",
    re.I,
)
_ACTS = re.compile(
    r" (?:then |again |now |simply )*(?:takes|captures|goes|comes|jumps|moves|steps|lands|arrives|slides)\b"
)
_GOES = re.compile(rf"\b(?:to|on|takes|captures|into|from) (?P<square>{SQUARE})\b")
_KING = re.compile(
    r"\b[Tt]he (?:white |black )?king (?:(?P<not>need not|does not have to|doesn't have to|does not need to)"
    r"|must|has to|is forced to) (?:now |then )?"
    r"(?P<it>move|step (?:aside|off|out)|leave|run|give way)\b"
)
_AT_ONCE = re.compile(r"[.,;!]| and\b| at once| again\b| now\b")
_THE_CHECK = re.compile(r"\b(?:[Tt]he|[Tt]his|[Tt]hat) (?P<it>check)\b(?! mate|mate|-|list)")
_IF = re.compile(
    r"\b(?:if|when|once|later|unless|next|soon|until|suppose|imagine|would|could|might|should|wants?|sooner)\b|\?",
    re.I,
)
_FEW_MEN, _PAST = 6, 8


def near_check_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about checks that a kind of man is said to give, or not, and about kings that must move."""
    if passage.role in ("idea", "part", "title"):
        return
    yield from _of_kind(passage, boards)
    yield from _king_must(passage, boards)
    yield from _the_check(passage, boards)


def _doubt(found: re.Match[str], message: str) -> Doubt:
    return Doubt(found.start("it"), found.end("it"), "prose-check", message)


def _of_kind(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The queen then takes with check", "the knight goes to f7 without check": some move of the kind, told,
    possible, or possible after any other, does so; or one that does not.
    """
    text = passage.text
    for found in _OF_KIND.finditer(text):
        kind = KINDS[found["kind"].lower()]
        subject = _OPENS.search(text, 0, found.start()) or _ACTS.match(found["mid"])
        if not (found["mid"] or found["gives"]) or not subject:
            continue
        goes = list(_GOES.finditer(found["mid"]))
        name = found["there"] or (goes[-1]["square"] if goes else None)
        square = None if name is None else chess.parse_square(name.lower())
        places = tight_places(passage, found.start())
        if found["how"] != "without":
            near = [boards.of(place) for place in dict.fromkeys((*places, *passage.places()))]
            if denied(text, found.start("it")):
                continue
            last = _shortest(passage, found.start())[0]
            just = (
                _told_check(boards, last, kind, square, False) if square is not None and last.moves else None
            )
            if just is False and not _IF.search(text[slice(*sentence(text, *found.span()))]):
                yield _doubt(found, "That move does not give check.")
            elif not _can_check(near, kind, square):
                yield _doubt(found, f"No {found['kind'].lower()} can give check so near here.")
            continue
        told = [place for place in (*places, *(turn.after for turn in passage.ahead)) if place.moves]
        checks = [_told_check(boards, place, kind, square, "tak" in found["mid"]) for place in told]
        checks = [one for one in checks if one is not None]
        if not checks and square is not None:
            here = [boards.of(place) for place in _shortest(passage, found.start())]
            checks = [one for board in here for one in _checks(board, kind, square)]
        if checks and all(checks):
            yield _doubt(found, "That move does give check.")


def _shortest(passage: Passage, offset: int) -> list[Place]:
    if passage.answer is not None and passage.role in ("nudge", "because"):
        return [passage.answer.after]
    return [passage.at(offset)]


def _told_check(boards: Boards, place: Place, kind: int, square: int | None, takes: bool) -> bool | None:
    """Whether the last move of a place gives check; None where it is not one that is meant."""
    before = boards.of(Place(place.root, place.moves[:-1]))
    move = chess.Move.from_uci(place.moves[-1])
    if before.piece_type_at(move.from_square) != kind or square not in (None, move.to_square):
        return None
    if takes and not before.is_capture(move):
        return None
    return before.gives_check(move)


def _checks(board: chess.Board, kind: int, square: int | None) -> Iterator[bool]:
    """Whether each move of the kind (to the square) gives check, whosever turn it is."""
    for one in filter(None, (board, turned(board))):
        for move in one.legal_moves:
            meant = kind in (one.piece_type_at(move.from_square), move.promotion)
            if meant and square in (None, move.to_square, move.from_square):
                yield one.gives_check(move)


def _can_check(near: Iterable[chess.Board], kind: int, square: int | None) -> bool:
    near = list(near)
    if any(any(_checks(board, kind, square)) or board.is_check() for board in near):
        return True
    return any(
        any(_checks(after(one, move), kind, square))
        for board in near
        for one in filter(None, (board, turned(board)))
        for move in one.legal_moves
    )


def _king_must(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The king must move": in check, or nobody else can; "the king need not": not where he has to."""
    text = passage.text
    for found in _KING.finditer(text):
        if _IF.search(text[slice(*sentence(text, *found.span()))]):
            continue
        if found["not"]:
            here = [boards.of(place) for place in _shortest(passage, found.start())]
            if here[0].is_check() and _only_king(here[0]):
                yield _doubt(found, "The king is in check, and no other move is legal.")
            continue
        if not _AT_ONCE.match(text, found.end()):
            continue
        near = [boards.of(place) for place in dict.fromkeys((*tight_places(passage, 0), *passage.places()))]
        few = any(chess.popcount(board.occupied) <= _FEW_MEN for board in near)
        if not few and not any(board.is_check() or _only_king(board) for board in near):
            yield _doubt(found, "No king is in check here, and other men can move.")


def _only_king(board: chess.Board) -> bool:
    return all(board.piece_type_at(move.from_square) == chess.KING for move in board.legal_moves)


def _the_check(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The check": one told lately or soon, or one that is possible."""
    for found in _THE_CHECK.finditer(passage.text):
        places = [*passage.places(), *history(passage)[:_PAST], *(turn.after for turn in passage.ahead)]
        near = [boards.of(place) for place in dict.fromkeys(places)]
        if any(board.is_check() for board in near):
            continue
        if not any(any(_checks(board, kind, None)) for board in near for kind in chess.PIECE_TYPES):
            yield _doubt(found, "No check is told or possible near here.")


def turned(board: chess.Board) -> chess.Board | None:
    """The board with the other side to move; None in check."""
    if board.is_check():
        return None
    turned = board.copy(stack=False)
    turned.push(chess.Move.null())
    return turned


def after(board: chess.Board, move: chess.Move) -> chess.Board:
    """The board after a move."""
    made = board.copy(stack=False)
    made.push(move)
    return made
