"""A man named right after a move that has nothing to do with it."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.doubt import Doubt
from player.check.passages import Boards, Passage
from player.check.prose_words import KIND, KINDS, SENTENCE_END
from player.facts.place import Place

_THE = re.compile(
    r"(?:^|(?<=[.!?] ))(?P<the>The|That|This|A) (?:(?:white|black|other|same|little)"
    rf" )*(?:[a-h]-)?(?P<kind>{KIND})\b"
    r"(?! on | from |-|')(?= \w+s\b)"
)


_THIS = re.compile(
    rf"(?:^|(?<=[.!?] ))(?:That|This) (?P<kind>{KIND}) "
    r"(?:has|had|wants?|wanted|needs?|needed|comes?|came|goes|went)\b"
)


def _this_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "That pawn has needed two moves", right after a move: it moved, or something near was said of one."""
    text = passage.text
    for found in _THIS.finditer(text) if passage.role == "told" else ():
        before = [(at, turn.after) for at, turn in passage.turns if at < found.start()]
        if not before or len(list(SENTENCE_END.finditer(text, before[-1][0], found.start()))) > 2:
            continue
        kinds: set[int | None] = set()
        for _, place in before[-2:]:
            move = chess.Move.from_uci(place.moves[-1])
            now, then = boards.of(place), boards.of(Place(place.root, place.moves[:-1]))
            kinds |= {now.piece_type_at(move.to_square), then.piece_type_at(move.to_square)}
            kinds |= {then.piece_type_at(move.from_square)}
        named = re.search(rf"\b{found['kind']}s?\b", text[: found.start()], re.IGNORECASE)
        if KINDS[found["kind"].lower()] not in kinds and not named:
            message = f"No {found['kind'].lower()} has to do with the move spoken of here."
            yield Doubt(found.start("kind"), found.end("kind"), "prose-kin", message)


def kin_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about a man that begins the sentence after a move, and neither moves, nor is hit, held or freed.

    Only where one move is spoken of: the learner's in a reply, or the last one told in the passage.
    """
    yield from _this_doubts(passage, boards)
    text = passage.text
    for found in _THE.finditer(text):
        if passage.role == "told":
            before = [(at, turn.after) for at, turn in passage.turns if at < found.start()]
            ends = list(SENTENCE_END.finditer(text, before[-1][0], found.start())) if before else []
            place = before[-1][1] if before and len(ends) == 1 else None
            others = [turn.after for turn in passage.ahead[:1]] + [one for _, one in before]
        elif passage.role == "reply" and len(passage.replied) == 1:
            place = passage.replied[0] if not found.start() else None
            others = [turn.after for _, turn in passage.turns]
        else:
            continue
        if place is None or not place.moves:
            continue
        others += [passage.answer.after] if passage.answer else []
        kinds = set().union(*(_kin(boards, one) for one in (place, *others) if one.moves))
        if KINDS[found["kind"].lower()] not in kinds:
            message = f"No {found['kind'].lower()} has to do with the move spoken of here."
            yield Doubt(found.start("kind"), found.end("kind"), "prose-kin", message)


def _kin(boards: Boards, place: Place) -> set[int]:
    """The kinds of men that the last move of a place is about."""
    move = chess.Move.from_uci(place.moves[-1])
    before, after = boards.of(Place(place.root, place.moves[:-1])), boards.of(place)
    squares = set(after.attacks(move.to_square)) | set(before.attacks(move.from_square))
    for board, square in (
        (after, move.to_square),
        (before, move.to_square),
        (after, move.from_square),
        (before, move.from_square),
    ):
        for color in chess.COLORS:
            squares |= set(board.attackers(color, square))
    kinds = {
        board.piece_type_at(square)
        for board in (before, after)
        for square in (*squares, move.to_square, move.from_square)
    }
    if before.is_castling(move):
        kinds |= {chess.ROOK, chess.KING}
    return {kind for kind in kinds if kind} | ({move.promotion} if move.promotion else set())
