"""Prose against attacks and guards: "it guards e4", "the bishop looks at the knight"."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.standing import colour_said
from player.check.prose.words import KIND, KINDS, SQUARE, clause, denied, sentence, supposed

_VERB = (
    r"guards?|guarded|defends?|protects?|backs|watches|watch|covers|covered|attacks?|hits?|strikes?"
    r" at|bites?|"
    r"looks? (?:straight |right )?at|looking at|looks? (?:all the way |down |up |straight"
    r" )*to(?:wards)?|eyes|points? at|aims? at|aimed at|"
    r"greets|controls|supports|keeps an eye on|leans on|forks|kicks|goes on watching|takes aim at|defending|"
    r"guarding|attacking|hitting|watching|covering|holds"
)
_MAN = (
    r"(?:(?P<owner{0}>white's|black's|white|black|the|his|her|our|your|their|its|a|an|this|that|own|both)?\s?(?:own"
    rf" |white |black )*(?:[a-h]-)?(?P<kind{{0}}>{KIND})s?(?: (?:on|from) (?P<on{{0}}>{SQUARE}))?)"
)
_HIT = re.compile(
    rf"\b(?P<verb>{_VERB}) (?P<objects>(?:(?:both )?{_MAN.format('1')}|{SQUARE})"
    rf"(?:(?: (?:and|or) (?:at )?|, )(?:{_MAN.format('2')}|{SQUARE})|, and {SQUARE})*)(?![-\w])",
    re.IGNORECASE,
)
_OBJECT = re.compile(rf"\b(?:{_MAN.format('')}|(?P<square>{SQUARE}))\b", re.IGNORECASE)
_LEADS = re.compile(
    r"(?:^|[,;:] ?|\b(?:it|she|that|which|who|and|both|this|this"
    rf" one|{KIND}|knights|pawns|rooks|bishops|{SQUARE}))"
    r"(?: (?:also|now|still|already|then|only|even|both|alone|at once|at last|here|too|there|is|are|stands"
    r" and|sits and|,))*,? ?$",
    re.IGNORECASE,
)
_PERSON = re.compile(r"\b(?:White|Black|he|we|you|they|everybody|nobody|wedge|crowbar|side|eye|side|wall)\b")
_SOMEBODY = re.compile(
    r"\b(?:man|men|pieces?|one|guard|defender|attacker|somebody|someone|nobody|everybody)"
    r" (?:that|which|who) (?:\w+ly )?$",
    re.IGNORECASE,
)
_GOING = re.compile(rf"\b(?:on|to|onto|into|reaches|comes to) {SQUARE},? (?:and|where it|from where it) $")
_AS = r"(?:as|is|was|has|this|thus|us|plus|across|always|besides|towards|sideways|sometimes|times)"
_NEXT = re.compile(
    rf" (?:(?:is|are|was|were|has|have|had|will|can|cannot|must|may)\b|(?!{_AS}\b)[a-z]{{2,}}s\b)"
)
_SUBJECT = re.compile(
    r"\b(?:(?P<from>from"
    rf" (?P<origin>{SQUARE}))|(?P<bare>it|she|he|that|which|who|and|this|everybody|they|both"
    rf"|piece|man|men|one|somebody|side|pawns|this one|him|her)|{_MAN.format('')}|(?P<square>{SQUARE}))\b",
    re.IGNORECASE,
)


def hit_doubts(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Doubts about squares and men that are said to be hit or guarded by a man that does not see them."""
    text = passage.text
    if passage.role == "part":
        return
    for found in _HIT.finditer(text):
        start, _ = clause(text, *found.span())
        if supposed(text, found.start(), found.end()) or denied(text, found.start()):
            continue
        verb = found["verb"].lower()
        lead = text[start : found.start()]
        if re.search(rf"{SQUARE}, which $", text[: found.start()], re.IGNORECASE):
            continue
        if passage.role == "idea" or not _LEADS.search(lead) or _PERSON.search(lead):
            continue
        if _SOMEBODY.search(lead) or _GOING.search(lead):
            continue
        if verb.startswith("look ") and (found["verb"][0] == "L" or not _subject(lead)):
            continue
        seers = _seers(passage, boards, text, start, found.start(), side)
        if not seers:
            continue
        for number, thing in enumerate(_OBJECT.finditer(text, found.start("objects"), found.end("objects"))):
            if number and thing.end() == found.end("objects") and _NEXT.match(text, thing.end()):
                continue  # "... guards d5 and the pawn on c6 has its hands full": another clause.
            if (
                thing["kind"]
                and thing["kind"].lower() == "king"
                and not thing["on"]
                and not verb.startswith("hit")
            ):
                continue
            if any(at == thing.start() for at, _ in passage.turns):
                continue
            if not any(_sees(board, man, thing) for board, man in seers):
                names = sorted(
                    {
                        f"the {chess.piece_name(board.piece_type_at(man) or 1)} on {chess.SQUARE_NAMES[man]}"
                        for board, man in seers
                    }
                )
                who = names[0] if len(names) == 1 else "none of the men meant"
                yield Doubt(
                    thing.start(),
                    thing.end(),
                    "prose-hit",
                    f"Here {who} {'does not look' if len(names) == 1 else 'looks'} at {thing[0].strip()}.",
                )


def _subject(lead: str) -> bool:
    return bool(re.search(rf"(?:{KIND})s?(?: on {SQUARE})? $", lead, re.IGNORECASE))


def _seers(
    passage: Passage, boards: Boards, text: str, start: int, end: int, side: str
) -> list[tuple[chess.Board, int]]:
    """The men that may be the subject of a verb: named before it, or the last ones moved."""
    around = [boards.of(place) for place in passage.places()]
    around += [boards.of(turn.after) for turn in passage.ahead[:2]]
    subjects = list(_SUBJECT.finditer(text, start, end))
    last = subjects[-1] if subjects else None
    out: list[tuple[chess.Board, int]] = []
    if last is not None and last["kind"] and not last["on"]:
        color = colour_said((last["owner"] or "").lower(), None, side)
        return [(board, man) for board in around for man in _men(board, KINDS[last["kind"].lower()], color)]
    if last is not None and (last["on"] or last["square"]):
        square = chess.parse_square((last["on"] or last["square"]).lower())
        return [(board, square) for board in around if board.piece_at(square)]
    if passage.question is not None and passage.question.kind != "move" and passage.answer is None:
        return []
    led = passage.answer.after if passage.answer else None
    if passage.role in ("nudge", "because") and led is not None:
        moved = {led}
    else:
        moved = {place for place in (passage.last(end), led, *passage.replied) if place}
    moved |= {turn.after for _, turn in passage.turns}
    if not passage.turns and passage.ahead and passage.role != "told":
        moved.add(passage.ahead[0].after)
    for place in moved:
        if place.moves:
            out.append((boards.of(place), chess.Move.from_uci(place.moves[-1]).to_square))
            move = chess.Move.from_uci(place.moves[-1])
            if (
                boards.of(place).piece_type_at(move.to_square) == chess.KING
                and abs(move.from_square - move.to_square) == 2
            ):
                out.append((boards.of(place), (move.from_square + move.to_square) // 2))
    if out and (passage.role == "nudge" or passage.role == "because"):
        return out
    for earlier in _SUBJECT.finditer(text, sentence(text, end, end)[0], end):
        if earlier["kind"]:
            squares = [chess.parse_square(earlier["on"].lower())] if earlier["on"] else None
            for board in around:
                men = squares or list(_men(board, KINDS[earlier["kind"].lower()], None))
                out += [(board, man) for man in men if board.piece_at(man)]
        elif earlier["origin"]:
            out += [(board, chess.parse_square(earlier["origin"].lower())) for board in around]
    return out


def _men(board: chess.Board, kind: int, color: bool | None) -> list[int]:
    sides = chess.COLORS if color is None else (color,)
    return [man for side in sides for man in board.pieces(kind, side)]


def _sees(board: chess.Board, man: int, thing: re.Match[str]) -> bool:
    """Whether a man looks at a square, or at a man of the kind meant, with nothing else in its way minded."""
    piece = board.piece_at(man)
    if piece is None:
        return True
    reach = _reach(piece, man)
    square = thing["square"] or thing["on"]
    if square:
        return chess.parse_square(square.lower()) in reach
    kind = KINDS[thing["kind"].lower()]
    return any(board.piece_type_at(seen) == kind for seen in reach)


def _reach(piece: chess.Piece, square: int) -> chess.SquareSet:
    empty = chess.Board(None)
    empty.set_piece_at(square, piece)
    return empty.attacks(square)
