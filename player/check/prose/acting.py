"""Prose against men in fixed turns of speech: which man steps, guards or is asked for, what it looks at."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.words import KIND, KINDS, SQUARE, denied, supposed
from player.facts.place import Place
from player.wording.claim_words import number_of

_WHICH = re.compile(rf"\b[Ww]hich (?P<kind>{KIND}) (?:move|step|capture)\b")
_FROM = re.compile(
    rf"\bWhere (?:does|should|will|can) the (?P<kind>{KIND}) (?:from|on) (?P<square>{SQUARE})"
    r" (?:belong|go|want to go|jump|step)\b"
)
_PRICE = re.compile(rf"(?:^|[.:;] )An? (?P<one>{KIND}) for (?P<number>two|three|four|five) (?P<two>pawn)s\b")
_GUARDS_IT = re.compile(rf"^,? (?:and )?the (?P<kind>{KIND}) (?:guards|defends|protects|covers) it\b")
_GREETS = re.compile(
    rf"\b(?:hits|greets|attacks|forks|strikes at|asks) (?:a |the |both )?(?P<one>{KIND}) and (?:a |the"
    rf" )?(?P<two>{KIND})\b"
)


def acting_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about kinds of men that are said to move, guard, let out or hit others."""
    if passage.role in ("idea", "part"):
        return
    yield from _asked(passage, boards)
    yield from _told(passage, boards)
    yield from _given(passage, boards)
    yield from _looking(passage, boards)


def _doubt(found: re.Match[str], message: str, group: str = "kind") -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-man", message)


def _kind(found: re.Match[str], group: str = "kind") -> int:
    return KINDS[found[group].lower()]


def _asked(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """The man that the question asks for is the one that its answer moves."""
    text, answer, asked = passage.text, passage.answer, passage.question
    if asked is None or answer is None or asked.kind != "move":
        return
    move, before = chess.Move.from_uci(answer.uci), boards.of(answer.before)
    castles = before.is_castling(move)
    kinds = {before.piece_type_at(move.from_square), *((chess.ROOK,) if castles else ())}
    if passage.role == "question":
        for found in _WHICH.finditer(text):
            if _kind(found) not in kinds:
                yield _doubt(found, f"{answer.san} is no move of a {found['kind'].lower()}.")
        for found in _FROM.finditer(text):
            if chess.parse_square(found["square"]) != move.from_square:
                yield _doubt(found, f"{answer.san} starts from another square.", "square")


def _told(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """What is said right behind a move: which man stepped, which one guards it, which one is let out."""
    text = passage.text
    ends = [*(at for at, _ in passage.turns[1:]), len(text)][: len(passage.turns)]
    for (at, turn), end in zip(passage.turns, ends, strict=False):
        move, after = chess.Move.from_uci(turn.uci), boards.of(turn.after)
        if not text.startswith(turn.san, at):
            continue
        rest = text[at + len(turn.san) : end]
        first = at + len(turn.san)
        found = _GUARDS_IT.match(rest)
        if found:
            kind, mover = _kind(found), not after.turn
            watched = {move.to_square} | {
                one
                for one in after.attacks(move.to_square)
                if after.color_at(one) == mover and after.is_attacked_by(not mover, one)
            }
            if not any(
                after.piece_type_at(man) == kind for one in watched for man in after.attackers(mover, one)
            ):
                message = f"No {found['kind']} guards anything that {turn.san} has to do with."
                yield Doubt(first + found.start("kind"), first + found.end("kind"), "prose-man", message)


def _captures(boards: Boards, place: Place, last: int) -> list[tuple[bool, int, int]]:
    """The captures among the last moves of a place: who took, with which kind, which kind."""
    out = []
    for ply in range(max(1, len(place.moves) - last + 1), len(place.moves) + 1):
        before = boards.of(Place(place.root, place.moves[: ply - 1]))
        move = chess.Move.from_uci(place.moves[ply - 1])
        if before.is_capture(move):
            taken = before.piece_type_at(move.to_square) or chess.PAWN
            out.append((before.turn, before.piece_type_at(move.from_square) or 0, taken))
    return out


def _given(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "A bishop for two pawns": what was taken on either side."""
    text = passage.text
    last = passage.last(len(text))
    if passage.role != "told" or last is None or not passage.turns:
        return
    taken = _captures(boards, last, 8)
    for found in _PRICE.finditer(text):
        number, one = number_of(found["number"]), _kind(found, "one")
        for who in chess.COLORS:
            if any(by != who and kind == one for by, _, kind in taken):
                pawns = sum(by == who and kind == chess.PAWN for by, _, kind in taken)
                if pawns != number:
                    message = f"The moves told here take {pawns} pawns."
                    yield Doubt(found.start("number"), found.end("number"), "prose-count", message)
                break


def _looking(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """One man that looks at another, or at two."""
    text = passage.text
    here = [boards.of(place) for place in tight_places(passage, len(text))]
    for found in _GREETS.finditer(text):
        if (supposed(text, *found.span()) and passage.role != "question") or denied(text, found.start()):
            continue
        one, two = _kind(found, "one"), _kind(found, "two")
        good = any(
            {one, two} <= {board.piece_type_at(to) for to in board.attacks(man)}
            for board in here
            for man in chess.SquareSet(board.occupied)
        )
        if passage.role == "question" and passage.answer is not None:
            good &= _forks(passage, boards, one, two)
        if not good:
            yield Doubt(found.start("one"), found.end("two"), "prose-hit", "No man here looks at such men.")


def _forks(passage: Passage, boards: Boards, one: int, two: int) -> bool:
    """Whether the answer's man looks at both kinds."""
    if passage.answer is None:
        return False
    after = boards.of(passage.answer.after)
    man = chess.Move.from_uci(passage.answer.uci).to_square
    seen = {after.piece_type_at(to) for to in after.attacks(man) if after.color_at(to) == after.turn}
    return {one, two} <= seen
