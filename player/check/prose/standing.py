"""Prose against the men on the board: who is said to stand where, and who is said to go where."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.geometry import view
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import HYPOTHETICAL, KINDS, MAN_ON, MAN_TO, clause, sentence, supposed
from player.facts.place import Place

_PAST = re.compile(
    r"\b(?:from|left|was|were|had|stood|sat|began|started|used|once|gone|yet|went|came|fell|died|traded)\b",
    re.IGNORECASE,
)
_PLACED = re.compile(
    r"\b(?:plants?|puts?|places?|brings?|parks?|gets?|wants?|likes?|loves?|sees?|dreams? of"
    r"|wish(?:es)?)\b[^.,;:]*$"
)
_SEEING = re.compile(
    r"\b(?:backs?|guards?|defends?|supports?|protects?|attacks?|hits?|watch(?:es)?|eyes|sees?|covers?|holds?|pushes)"
    r" (?:\w+ )?$"
)
_FELL = re.compile(r"\b(?:went|came off|fell|died|traded)\b[^.;:]*$")
_ANY = frozenset({"a", "an", "only", "other", "another", "no", "any"})


def standing_doubts(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Doubts about men named with their squares."""
    text = passage.text
    seen: list[tuple[int, int]] = []
    for found in MAN_TO.finditer(text):
        seen.append(found.span())
        doubt = _going(passage, boards, found)
        if doubt:
            yield doubt
    for found in MAN_ON.finditer(text):
        if any(start < found.end() and found.start() < end for start, end in seen):
            continue
        doubt = _standing(passage, boards, found, side)
        if doubt:
            yield doubt


def _standing(passage: Passage, boards: Boards, found: re.Match[str], side: str) -> Doubt | None:
    text = passage.text
    owner = (found["owner"] or "").lower()
    kind = KINDS[found["kind"].lower()]
    color = colour_said(owner, found["color"], side)
    square = chess.parse_square(found["square"].lower())
    if owner in _ANY and passage.role != "idea" and supposed(text, *found.span(), wide=True):
        return None
    if found["link"].endswith("at") and owner in _ANY:
        return None
    link = found["link"].lower()
    past = link.endswith("from") or link == "left on" or link.startswith(("was", "were", "stood", "sat"))
    start, end = clause(text, *found.span())
    past = past or bool(_PAST.search(text[start : found.start()]) or _PAST.search(text[found.end() : end]))
    lead = text[sentence(text, *found.span())[0] : found.start()]
    if link.endswith("from") and (
        _SEEING.search(text[start : found.start()]) or chess.Board().piece_type_at(square) == kind
    ):
        return None  # "It backs the pawn from b1"; "the bishop from c1", wherever it is by now.
    if _PLACED.search(lead) and supposed(text, *found.span(), wide=True):
        return None
    granted = re.fullmatch(r"\W*(?:With|Without|Put) ", lead) and supposed(text, *found.span(), wide=True)
    loose = bool(granted or HYPOTHETICAL.search(lead)) or passage.role in (
        "idea",
        "nudge",
        "otherwise",
        "back",
        "title",
    )
    asked = passage.question
    if passage.role == "question" and asked is not None and asked.kind != "move":
        loose = False
    around = [boards.of(place) for place in passage.places()]
    if passage.role == "part":
        told = set(passage.near) - {passage.before, *history(passage)}
        around = [boards.of(place) for place in told] or around
    if any(_is(board, square, kind, color) for board in around):
        return None
    if _FELL.search(lead):
        return None  # Where men fell is told of a whole game, of what is to come in it as well.
    if past and any(_is(boards.of(place), square, kind, color) for place in history(passage)):
        return None
    if passage.role in ("told", "reply", "back", "also") and any(
        _is(boards.of(place), square, kind, color) for place in history(passage)[:6]
    ):
        return None
    future = [boards.of(turn.after) for turn in passage.ahead]
    if (loose or (asked is not None and asked.kind == "move" and passage.role != "question")) and (
        any(_is(board, square, kind, color) for board in future)
        or any(can_reach(board, square, kind, color) for board in around)
    ):
        return None
    here = boards.of(passage.at(found.start())).piece_at(square)
    name = (
        f"{chess.COLOR_NAMES[color]} {found['kind'].lower()}" if color is not None else found["kind"].lower()
    )
    there = (
        f"a {chess.COLOR_NAMES[here.color]} {chess.piece_name(here.piece_type)} stands there"
        if here
        else "the square is empty"
    )
    return Doubt(
        found.start("kind"),
        found.end("square"),
        "prose-man",
        f"No {name} stands on {found['square']} here: {there}.",
    )


def _going(passage: Passage, boards: Boards, found: re.Match[str]) -> Doubt | None:
    kind = KINDS[found["kind"].lower()]
    square = chess.parse_square(found["square"].lower())
    color = colour_said("", found["color"], "")
    origin = chess.parse_square(found["origin"].lower()) if found["origin"] else None
    takes = found["verb"].lower().startswith(("takes", "captures"))
    places = [*passage.places(), *(turn.after for turn in passage.ahead), *history(passage)[:4]]
    for place in places:
        board = boards.of(place)
        if can_reach(board, square, kind, color, takes, origin):
            return None
        if place.moves and _made(boards, place, square, kind, takes):
            return None
    if takes and any(_looks(boards.of(place), square, kind) for place in places):
        return None  # "The pawn takes d8 away from him": what it takes is a square.
    if supposed(passage.text, *found.span(), wide=True) and any(
        square in view(kind, man, 3)
        for color_ in chess.COLORS
        for man in boards.of(passage.before).pieces(kind, color_)
    ):
        return None
    start = boards.of(passage.before)
    if kind == chess.ROOK and start.castling_rights and supposed(passage.text, *found.span(), wide=True):
        return None  # Castling may bring it there first.
    name = found["kind"].lower()
    deed = "can take on" if takes else "can go to"
    return Doubt(found.start(), found.end(), "prose-man", f"No {name} {deed} {found['square']} here.")


def _looks(board: chess.Board, square: int, kind: int) -> bool:
    """Whether the square is empty and a man of the kind looks at it."""
    men = board.pieces_mask(kind, chess.WHITE) | board.pieces_mask(kind, chess.BLACK)
    return board.piece_at(square) is None and any(
        square in board.attacks(man) for man in chess.SquareSet(men)
    )


def _made(boards: Boards, place: Place, square: int, kind: int, takes: bool) -> bool:
    """Whether the last move of a place is by such a man to this square."""
    move = chess.Move.from_uci(place.moves[-1])
    before = boards.of(Place(place.root, place.moves[:-1]))
    return (
        move.to_square == square
        and before.piece_type_at(move.from_square) == kind
        and (not takes or before.is_capture(move))
    )


def colour_said(owner: str, color: str | None, side: str) -> chess.Color | None:
    """The colour that a word before a man gives it: "White's", "our"."""
    word = (color or owner or "").lower().removesuffix("'s")
    if word in ("white", "black"):
        return word == "white"
    if word in ("our", "my") and side in ("white", "black"):
        return side == "white"
    return None


def history(passage: Passage) -> list[Place]:
    """The places before a passage in its line, the latest first."""
    place = passage.before
    return [Place(place.root, place.moves[:number]) for number in range(len(place.moves) - 1, -1, -1)]


def _is(board: chess.Board, square: int, kind: int, color: chess.Color | None) -> bool:
    piece = board.piece_at(square)
    return piece is not None and piece.piece_type == kind and color in (None, piece.color)


def can_reach(
    board: chess.Board,
    square: int,
    kind: int,
    color: chess.Color | None = None,
    takes: bool = False,
    origin: int | None = None,
) -> bool:
    """Whether a man of this kind could go to a square in one move, whosever turn it is."""
    for side in chess.COLORS if color is None else (color,):
        target = board.piece_at(square)
        passing = kind == chess.PAWN and board.ep_square == square
        if takes and not passing and (target is None or target.color == side):
            continue
        men: Iterable[int] = board.pieces(kind, side)
        for man in men:
            if origin is not None and man != origin:
                continue
            free = target is None or target.color != side
            if free and square in board.attacks(man) and (kind != chess.PAWN or takes or target):
                return True
            if kind == chess.PAWN and not takes and _pushes(board, man, square, side):
                return True
    return False


def _pushes(board: chess.Board, pawn: int, square: int, side: chess.Color) -> bool:
    step = 8 if side else -8
    if board.piece_at(square) or chess.square_file(pawn) != chess.square_file(square):
        return False
    if pawn + step == square:
        return True
    first = chess.square_rank(pawn) == (1 if side else 6)
    return first and pawn + 2 * step == square and not board.piece_at(pawn + step)
