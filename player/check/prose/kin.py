"""A man named right after a move that has nothing to do with it, and men there are not so many of."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.roles import movers
from player.check.prose.standing import history
from player.check.prose.words import COUNTS, KIND, KINDS, SENTENCE_END, denied, sentence
from player.facts.place import Place

_THE = re.compile(
    r"(?:^|(?<=[.!?] ))(?P<the>The|That|This|A) (?:(?:white|black|other|same|little)"
    rf" )*(?:[a-h]-)?(?P<kind>{KIND})\b"
    r"(?! on | from |-|')(?= \w+s\b)"
)
_SO_MANY = re.compile(
    r"\b(?:(?P<other>(?:the|his|her|our|your|my|that) other)|both(?: the| his| her| our| white| black)?"
    r"|(?:the |his |her |our )?(?P<number>two|three|four|five|six|seven|eight)) (?:white |black |passed )?"
    rf"(?P<kind>{KIND})(?P<many>s?)\b(?![-'])",
    re.IGNORECASE,
)
_OF_FILE = re.compile(r"\b(?P<file>[a-h])-(?P<kind>knight|rook)s?\b", re.IGNORECASE)
_TRADES = re.compile(
    rf"\b(?P<kind>{KIND})s (?:come|came|go|are|were|have come|have been)(?: all| now)?"
    r" (?:off|traded|swapped|exchanged)\b|"
    rf"\b(?:trad\w+|swap\w*|exchang\w+)(?: of| off)?(?: the| both)? (?P<kind2>{KIND})s\b",
    re.IGNORECASE,
)
_LOST_KING = re.compile(
    r"\b(?:lose|loses|lost|sacrifices?|gives? up|wins?|won|trades?|traded|swaps?|sells?|costs?)"
    r" (?:his|her|the|our|your|a) (?P<kind>king)(?=[.,;!]| for\b| back\b)"
    r"|\ba (?:whole )?(?P<kind2>king) (?:ahead|up|down|behind|short|for nothing|is gone|is lost)\b",
    re.IGNORECASE,
)
_REPLY = re.compile(
    r"^(?:An? (?:good |fair |small |little |fine |strong |natural )?|(?:The )?(?:wrong|right) )"
    rf"(?P<kind>{KIND})(?=[.,;]| later| first| move| walk| jump| trip| for(?! (?:an?|the|two|three) {KIND}))|"
    rf"^(?:The|Your|Our) (?P<kind2>{KIND}) (?:had|did|deserved|wanted|liked|belonged|aims|joins|goes)\b",
    re.IGNORECASE,
)
_UNREAL = re.compile(r"\b(?:if|would|could|suppose|imagine|with|give|add|put)\b", re.IGNORECASE)

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
    if passage.role not in ("idea", "part"):
        yield from _number_doubts(passage, boards)
    if passage.role in ("reply", "also"):
        yield from _reply_doubts(passage, boards)
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


def _number_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The other rook", "both bishops", "the g-knight", "queens come off": there are, or were, such men."""
    text, asked = passage.text, passage.question
    places = [*passage.places(), *(turn.after for turn in passage.ahead), *history(passage)]
    places += [one for reply in (*asked.replies, *asked.also) for one in reply.places] if asked else []
    here = [boards.of(place) for place in dict.fromkeys(places)]
    for found in _SO_MANY.finditer(text):
        first, last = sentence(text, *found.span())
        if not (found["other"] or found["many"]) or _UNREAL.search(text[first:last]):
            continue
        if found["other"] and asked and found["kind"].lower() in asked.text.shown.lower():
            continue
        number, kind = COUNTS[(found["number"] or "two").lower()], KINDS[found["kind"].lower()]
        if not any(sum(len(board.pieces(kind, side)) for side in chess.COLORS) >= number for board in here):
            yield _doubt(found, "So many {}s do not stand on the board here.")
    for found in _OF_FILE.finditer(text):
        kind, file = KINDS[found["kind"].lower()], chess.BB_FILES["abcdefgh".index(found["file"].lower())]
        boards_ = [*here, chess.Board()]
        if not any(board.pieces_mask(kind, side) & file for board in boards_ for side in chess.COLORS):
            yield _doubt(found, f"No {{}} stands on the {found['file']}-file.", "prose-formed")
    for found in _TRADES.finditer(text):
        kind = KINDS[(found["kind"] or found["kind2"]).lower()]
        if kind == chess.KING or not any(
            board.pieces(kind, True) and board.pieces(kind, False) for board in here
        ):
            yield _doubt(found, "There are no {}s to trade here.")
    for found in _LOST_KING.finditer(text):
        if not denied(text, found.start()):
            yield _doubt(found, "A {} is never won, lost or traded.")


def _doubt(found: re.Match[str], message: str, code: str = "prose-man") -> Doubt:
    group = "kind" if found["kind"] else "kind2"
    return Doubt(found.start(group), found.end(group), code, message.format(found[group].lower()))


def _reply_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """A reply that begins with a man speaks of the one that moved, or of one that it took or looks at."""
    found, asked = _REPLY.match(passage.text), passage.question
    if found is None or asked is None or asked.kind != "move":
        return
    kinds: set[int | None] = set()
    for place in (*passage.replied, *(turn.after for _, turn in passage.turns)):
        move, after = chess.Move.from_uci(place.moves[-1]), boards.of(place)
        seen = [one for one in after.attacks(move.to_square) if after.color_at(one) == after.turn]
        kinds |= {*movers(boards, place), *(after.piece_type_at(one) for one in seen)}
        kinds.add(boards.of(Place(place.root, place.moves[:-1])).piece_type_at(move.to_square))
    if kinds and KINDS[(found["kind"] or found["kind2"]).lower()] not in kinds:
        yield _doubt(found, "The move answered here is not of a {}.", "prose-kin")
