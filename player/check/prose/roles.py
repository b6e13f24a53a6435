"""Prose against the men that can play the part it gives them: who goes, takes, hits, is pinned or asked."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.verbs import (
    ASKED,
    GOING,
    HAS_GONE,
    HITTER,
    HITTING,
    IF_ONE,
    PINNED,
    PREY,
    TAKER,
    TAKES_WITH,
    THERE_GOES,
)
from player.check.prose.words import KINDS, SQUARE, clause, denied, sentence
from player.facts.place import Place

_NOT_YET = re.compile(
    r"\b(?:if|when\w*|suppose|imagine|picture|later|next|once|soon|would|could|might|should|until|unless"
    r"|before|instead|without|after|wants?|hopes?|dreams?|likes?|plans?|always|often|never|sometimes|usually"
    r"|every|any|let|had|were|one day|ever|while|not|nobody|none|no|cannot|nothing"
    r"|will|threat\w*|may|about to)\b"
    r"|n't\b|'d\b|'ll\b|\?",
    re.IGNORECASE,
)
_GENERAL = re.compile(
    r"\b(?:always|often|never|sometimes|usually|every|any|ever|most|like|nobody|not|no)\b|n't\b", re.I
)
_IF = re.compile(r"\b(?:if|when|once|should|would|could)\b", re.IGNORECASE)
_LOOSE = re.compile(
    r"\b(?:if|suppose|imagine|would|could|might|always|often|never|sometimes|usually|every|any|later|then)\b",
    re.IGNORECASE,
)
_NOT_HE = re.compile(
    r"\b(?:of|behind|beside|near|next to|to|for|with|against|from|at|on|by|before|after|past|than|see|let"
    r"|watch|without|between|under|through|and|like|as|when|while|if|whom|which|that|where|what) $",
    re.IGNORECASE,
)


def role_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about men that cannot be the ones that go, take, are taken, hit, pinned or asked for."""
    if passage.role in ("idea", "part"):
        return
    yield from _going(passage, boards)
    yield from _taking(passage, boards)
    yield from _hitting(passage, boards)
    yield from _asked(passage, boards)


def told_moves(passage: Passage, at: int) -> list[Place]:
    """The places whose last move words at a character may be about: told, to come, answered, or just made."""
    back = [turn.after for where, turn in passage.turns if where <= at]
    on = [turn.after for where, turn in passage.turns if where > at]
    here = [*back[-3:], *on[:3]]
    if len(back) < 3 or passage.role != "told":
        here += _behind(passage.before, 3)
    if len(on) < 2:
        here += [
            turn.after for turn in passage.ahead[: 2 if passage.role in ("told", "back", "title") else 1]
        ]
    here += [passage.answer.after] if passage.answer else []
    here += [*passage.replied, *(passage.near if passage.role in ("back", "title") else ())]
    return [one for one in dict.fromkeys(here) if one.moves]


def _behind(place: Place, plies: int) -> list[Place]:
    """A place and those before it, as long as a move leads to them."""
    last = len(place.moves)
    return [Place(place.root, place.moves[:ply]) for ply in range(last, max(0, last - plies), -1)]


def movers(boards: Boards, place: Place) -> dict[int, bool]:
    """The kinds of men that the last move of a place moves, each with its colour."""
    before, move = boards.of(Place(place.root, place.moves[:-1])), chess.Move.from_uci(place.moves[-1])
    kinds = {before.piece_type_at(move.from_square), move.promotion}
    kinds |= {chess.ROOK} if before.is_castling(move) else set()
    return {kind: before.turn for kind in kinds if kind}


def _taken(boards: Boards, place: Place) -> int | None:
    """The kind of man that the last move of a place takes."""
    before, move = boards.of(Place(place.root, place.moves[:-1])), chess.Move.from_uci(place.moves[-1])
    return chess.PAWN if before.is_en_passant(move) else before.piece_type_at(move.to_square)


def _around(passage: Passage, boards: Boards) -> list[chess.Board]:
    ahead = [turn.after for turn in passage.ahead]
    places = [*passage.places(), *ahead, *told_moves(passage, len(passage.text))]
    return [boards.of(place) for place in dict.fromkeys(places)]


def _kind(found: re.Match[str], group: str = "kind") -> int:
    return KINDS[found[group].lower()]


def _sides(owner: str) -> tuple[bool, ...]:
    word = owner.lower().removesuffix("'s")
    return (word == "white",) if word in ("white", "black") else (True, False)


def _doubt(found: re.Match[str], message: str, code: str = "prose-man", group: str = "kind") -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message.format(found[group].lower()))


def _said(text: str, found: re.Match[str]) -> str:
    first, last = sentence(text, *found.span())
    return text[first:last]


def _going(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The rook comes over", "there goes the pawn": such a man has just moved, moves next, or answers."""
    text = passage.text
    for pattern in (GOING, HAS_GONE, THERE_GOES, IF_ONE):
        for found in pattern.finditer(text):
            places = told_moves(passage, found.start())
            if found["owner"].lower() in ("a", "an") or found["many"]:
                continue
            if pattern is IF_ONE:
                places = [turn.after for turn in passage.ahead[:2] if passage.role == "title"]
            elif pattern is HAS_GONE:
                if _GENERAL.search(_said(text, found)) or (
                    not found["that"] and _NOT_HE.search(text[: found.start()])
                ):
                    continue
                places += [] if found["just"] else [one for place in places for one in _behind(place, 999)]
            elif _NOT_YET.search(_said(text, found)) or _NOT_HE.search(text[: found.start()]):
                continue
            elif pattern is THERE_GOES:
                back = [turn.after for at, turn in passage.turns if at <= found.start()]
                on = [turn.after for at, turn in passage.turns if at > found.start()]
                on += [] if back else [turn.after for turn in passage.ahead]
                last = back or _behind(passage.before, 1)
                places = [*last[-1:], *on[:1], *passage.replied]
            kind, sides = _kind(found), _sides(found["owner"])
            kinds = {_taken(boards, one) for one in places if one.moves}
            if (
                pattern in (GOING, THERE_GOES)
                and found["verb"].lower() in ("goes", "leaves")
                and kind in kinds
            ):
                continue
            if places and not any(movers(boards, one).get(kind) in sides for one in places if one.moves):
                yield _doubt(found, "No move told near here is of a {}.")


def _taking(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Who takes, who is taken, and what one takes back with: such captures are told, or can be played."""
    text, here = passage.text, _around(passage, boards)
    gone: set[int | None] | None = None
    for found in PREY.finditer(text):
        if denied(text, found.start()) or found["many"] or _LOOSE.search(_said(text, found)):
            continue
        kind, sides = _kind(found), _sides(found["owner"])
        if gone is None:
            gone = {_taken(boards, one) for place in passage.places() for one in _behind(place, 999)}
        prey = [(board, side, man) for board in here for side in sides for man in board.pieces(kind, side)]
        if kind not in gone and (
            kind == chess.KING or not any(board.is_attacked_by(not side, man) for board, side, man in prey)
        ):
            yield _doubt(found, "No {} can be taken here.", "prose-capture")
    for found in (*TAKER.finditer(text), *TAKES_WITH.finditer(text)):
        kind, start = _kind(found), found.start()
        if _IF.search(text[sentence(text, *found.span())[0] : start]):
            continue
        near = [*told_moves(passage, start), *told_moves(passage, 0), *_behind(passage.at(start), 8)]
        near += [turn.after for turn in passage.ahead]
        wide = bool(_NOT_YET.search(text)) or passage.role != "told"
        if found.re is TAKES_WITH:
            if denied(text, start) or _LOOSE.search(_said(text, found)) or not found["back"]:
                continue
            near, wide = told_moves(passage, start), False
            if passage.role == "title" and passage.ahead:
                near = [passage.ahead[0].after] if kind in movers(boards, passage.ahead[0].after) else []
        if not any(
            (_taken(boards, one) and kind in movers(boards, one)) or _can_take(boards, one, kind, wide)
            for one in near
        ):
            yield _doubt(found, "No {} takes anything near here.", "prose-capture")


def _can_take(boards: Boards, place: Place, kind: int, wide: bool) -> bool:
    """Whether a man of the kind can take what has just moved; if wide, whether it can take anything."""
    board, target = boards.of(place), chess.parse_square(place.moves[-1][2:4])
    if not wide:
        return any(board.piece_type_at(man) == kind for man in board.attackers(board.turn, target))
    men = [(side, man) for side in chess.COLORS for man in board.pieces(kind, side)]
    return any(board.occupied_co[not side] & board.attacks_mask(man) for side, man in men)


def _hitting(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Men that look at others, at once or through others, and men that are pinned to others."""
    text, here = passage.text, _around(passage, boards)
    words = passage.question is not None and passage.question.kind != "move"
    for found in HITTING.finditer(text):
        said = _said(text, found).rstrip("?")
        if denied(text, found.start()) or _NOT_YET.search(said) or found["many2"]:
            continue
        if words and passage.role in ("reply", "also"):
            continue
        subject = HITTER.search(text[clause(text, *found.span())[0] : found.start()])
        one = _kind(subject, "kind1") if subject else None
        on, far = subject["on1"] if subject else None, 0 if found["near"] else 9
        if not any(
            _looks(board, seer, target) in range(far + 1)
            for board in here
            for seer, target in _pairs(board, found, on)
            if one in (None, board.piece_type_at(seer))
        ):
            message = f"No such man looks at a {found['kind2'].lower()} here."
            yield Doubt(found.start("owner2"), found.end("kind2"), "prose-hit", message)
    for found in PINNED.finditer(text):
        held = _kind(found, "kind1")
        if not denied(text, found.start()) and not any(
            _looks(board, seer, target) == 1
            and board.piece_at(chess.msb(chess.between(seer, target) & board.occupied))
            == chess.Piece(held, board.color_at(target) or False)
            for board in here
            for seer, target in _pairs(board, found, None)
        ):
            yield _doubt(found, f"No {found['kind1']} is pinned to a {{}} here.", group="kind2")


def _pairs(board: chess.Board, found: re.Match[str], on: str | None) -> Iterator[tuple[int, int]]:
    """Every man, or the one on a square, with each of the other side's men that are meant as its object."""
    for side in _sides(found["owner2"]):
        for target in board.pieces(_kind(found, "kind2"), side):
            if found["on2"] in (None, chess.SQUARE_NAMES[target]):
                for seer in chess.scan_forward(board.occupied_co[not side]):
                    if on in (None, chess.SQUARE_NAMES[seer]):
                        yield seer, target


def _looks(board: chess.Board, seer: int, target: int) -> int:
    """How many men stand between one that looks at a square and that square; -1 if it does not look there."""
    empty = chess.Board(None)
    empty.set_piece_at(seer, board.piece_at(seer))
    between = chess.between(seer, target) & board.occupied
    return chess.popcount(between) if target in empty.attacks(seer) else -1


def _asked(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "What does the knight do now?": the answer moves such a man, or is a square that one looks at."""
    asked, answer = passage.question, passage.answer
    for found in ASKED.finditer(passage.text) if passage.role == "question" and asked else ():
        kind, board = _kind(found), boards.of(passage.before)
        squares = (
            [chess.parse_square(one) for one in asked.answers if re.fullmatch(SQUARE, one)] if asked else []
        )
        good = True
        if answer is not None and asked and asked.kind == "move":
            good = kind in movers(boards, answer.after)
        elif squares:
            men = [man for side in chess.COLORS for man in board.pieces(kind, side)]
            files = {man % 8 for man in men if kind == chess.PAWN}
            good = any(one % 8 in files or _looks(board, man, one) >= 0 for one in squares for man in men)
        if not good:
            yield _doubt(found, "The answer has no move of a {}.", "prose-answer")
