"""Prose against paces: how far a man has gone or goes, who looks on, and what can be counted from a king."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.book import Book
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.sums import count_of
from player.check.prose.words import HYPOTHETICAL, KIND, KINDS, SQUARE, sentence
from player.facts.place import Place

_N = r"(?P<number>one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_GOES = re.compile(
    rf"\b(?:[Ii]t|[Tt]he (?:[a-h]-)?(?P<kind>{KIND}|wedge))(?: on {SQUARE})?(?: now| simply| just)?"
    r" (?P<verb>moves|goes|steps|climbs|walks|advances|slides|drops|moved|went|stepped|walked)"
    rf"(?: up| down| back| forward| on| along| over)? (?:just |only |exactly )?{_N}"
    r" (?:\w+ )?(?:squares?|ranks?)\b(?! (?:from|between|of|in|that|which|at a time)\b)"
)
_TAKEN = re.compile(
    r"\b(?:has|have) (?:only |just )?(?:taken|made|gone) (?:just |only )?"
    r"(?P<number>a single|one|two|three|four) (?:steps?|squares?|moves?) (?:so far|yet|until now|up to now)\b"
)
_STRIDES = re.compile(rf"\bin (?!one){_N} (?:strides|leaps|jumps|hops|bounds|goes)\b")
_STAND_ON = re.compile(
    rf"\b(?:diagonal|line|file|rank) on which {_N} (?:(?P<color>white|black) )?(?:men|pieces|pawns) stand\b",
    re.IGNORECASE,
)
_BEHIND = re.compile(
    rf"(?P<one>{SQUARE}(?:(?:, and|,| and) {SQUARE})+),? and (?:behind|before|in front of|above|below)"
    rf" (?:them|these) (?P<two>{SQUARE}(?:(?:, and|,| and) {SQUARE})+)"
)
_ROOM = re.compile(
    r"\bhow many (?:squares|places)\b.*\b(?:step|go|move|jump|run|flee|escape)\b", re.IGNORECASE
)
_ANSWERED = re.compile(rf"^{_N}: (?P<list>{SQUARE}(?:(?:, and|,| and) {SQUARE})+)(?=[.;]|$)", re.IGNORECASE)
_NOW = re.compile(
    r"\b(?P<number>a single|one|two|three|four|five) (?:(?P<color>white|black) )?"
    r"(?:guards?|attackers?|defenders?) (?:so far|yet|at the moment|for now|at present)\b"
)
_GUARDS = re.compile(rf"\b{_N} (?:guards|attackers|defenders)\b", re.IGNORECASE)
_FILES = re.compile(
    rf"\b(?P<file>[a-h])-file, {_N} files? (?:to|on) (?:his|her|its|the king's) (?:left|right)\b",
    re.IGNORECASE,
)
_ON = re.compile(
    rf"\bpawn on (?P<square>{SQUARE}), {_N} squares? (?:on|ahead|further|up|down)\b", re.IGNORECASE
)


def pace_doubts(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Doubts about numbers of steps, of men that look on, and of what a king can reach."""
    if passage.role in ("idea", "part"):
        return
    yield from (*_gone(passage, boards), *_guards(passage, boards, book), *_reached(passage, boards))


def _doubt(found: re.Match[str], message: str, group: str = "number") -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-count", message)


def _gone(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """How far a man goes, or has gone: "moves up one rank", "a single step so far"."""
    text = passage.text
    for found in _GOES.finditer(text) if passage.role == "told" else ():
        first, _ = sentence(text, *found.span())
        if passage.last(found.start()) is None or HYPOTHETICAL.search(text[first : found.start()]):
            continue
        next_turns = [turn for at, turn in passage.turns if at > found.start()] or [*passage.ahead]
        near = (passage.last(found.start()), *(turn.after for turn in next_turns[:1]))
        past = bool(re.search(r"(?:ed|went)$|^went", found["verb"])) or "has" in text[first : found.start()]
        kind = KINDS.get((found["kind"] or "").lower().replace("wedge", "pawn"))
        moved = [place for place in near[: None if kind else 1] if place and place.moves]
        moved = [place for place in moved if kind in (None, _kind(boards, place))]
        ways = {way for place in moved for way in _ways(boards, place, past)}
        if ways and count_of(found["number"]) not in ways:
            yield _doubt(found, "No man moved here goes so far.")
    for found in _STRIDES.finditer(text) if passage.role == "told" else ():
        begun = [(at, turn) for at, turn in passage.turns if at <= found.start()][-1:]
        if any(
            not (text.startswith(turn.san, at) or re.search("[.;*]", text[at : found.start()]))
            for at, turn in begun
        ):
            yield _doubt(found, "One move is told in these words.")
    move = chess.Move.from_uci(passage.answer.uci) if passage.answer else None
    for found in _TAKEN.finditer(text) if move and passage.role == "nudge" else ():
        board = boards.of(passage.before)
        if move and board.piece_type_at(move.from_square) == chess.PAWN:
            row = chess.square_rank(move.from_square)
            gone = row - 1 if board.turn else 6 - row
            if count_of(found["number"]) not in (gone, max(1, gone - 1)):
                yield _doubt(found, f"That pawn has gone {gone}.")
    for found in _ON.finditer(text) if move and passage.role == "nudge" else ():
        square = chess.parse_square(found["square"].lower())
        if move and (
            chess.square_file(square) != chess.square_file(move.to_square)
            or chess.square_distance(square, move.to_square) != count_of(found["number"])
        ):
            yield _doubt(found, f"{chess.SQUARE_NAMES[move.to_square]} lies elsewhere.")


def _kind(boards: Boards, place: Place) -> int | None:
    return boards.of(place).piece_type_at(chess.parse_square(place.moves[-1][2:4]))


def _ways(boards: Boards, place: Place, past: bool) -> set[int]:
    """How far the last man moved has gone: with this move, and, in the past, with the ones before it."""
    ends: set[int] = set()
    at = place.moves[-1][2:4]
    move = chess.Move.from_uci(place.moves[-1])
    for uci in place.moves[::-1]:
        if uci[2:4] == at:
            at = uci[:2]
            if past or not ends:
                ends.add(chess.square_distance(chess.parse_square(at), move.to_square))
    kind = boards.of(place).piece_type_at(move.to_square)
    row = abs(chess.square_rank(move.from_square) - chess.square_rank(move.to_square))
    return ends | {row} if kind != chess.KNIGHT else {*ends, row, 1, 2}


def _guards(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Guards so far, and guards that a claim of the same block has."""
    text, board = passage.text, boards.of(passage.before)
    for found in _NOW.finditer(text) if passage.role != "reply" else ():
        first, last = sentence(text, *found.span())
        names = list({one.lower() for one in re.findall(rf"\b{SQUARE}\b", text[first:last], re.IGNORECASE)})
        colors = [found["color"].lower() == "white"] if found["color"] else list(chess.COLORS)
        now = boards.of(passage.at(found.start())) if passage.role == "told" else board
        counts = {len(now.attackers(one, chess.parse_square(name))) for name in names for one in colors}
        if len(names) == 1 and count_of(found["number"]) not in counts:
            yield _doubt(found, f"{names[0]} has another number of them.")
    if passage.role == "back":
        claimed: set[int] = set()
        for line in book.lines[passage.spot.line : passage.spot.line + 20]:
            if line.lstrip().startswith("back:"):
                break
            claimed |= {int(one[1]) for one in re.finditer(r"claim:.*\b(\d) times?", line)}
        for found in _GUARDS.finditer(text):
            if claimed and count_of(found["number"]) not in claimed:
                yield _doubt(found, f"The claim above says {', '.join(map(str, sorted(claimed)))}.")


def _reached(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Files and steps counted from a king, men on a line, and the squares that a man can go to."""
    text, asked, answer = passage.text, passage.question, passage.answer
    for found in _STAND_ON.finditer(text) if answer else ():
        if answer is None:
            break
        after, to = boards.of(answer.after), chess.parse_square(answer.uci[2:4])
        colors = [found["color"].lower() == "white"] if found["color"] else list(chess.COLORS)
        there = [chess.popcount(line & after.occupied_co[one]) for line in _through(to) for one in colors]
        if count_of(found["number"]) not in there:
            yield _doubt(found, f"On no line of {answer.san} do so many stand.")
    for found in _BEHIND.finditer(text):
        rows = [
            [chess.parse_square(one) for one in re.findall(SQUARE, found[name])] for name in ("one", "two")
        ]
        files = [sorted(chess.square_file(one) for one in row) for row in rows]
        ranks = [{chess.square_rank(one) for one in row} for row in rows]
        if files[0] != files[1] or any(len(one) > 1 for one in ranks) or ranks[0] == ranks[1]:
            yield _doubt(found, "These rows do not stand behind each other.", "two")
    listed = _ANSWERED.match(text)
    if listed and asked and asked.kind == "count" and _ROOM.search(asked.text.shown):
        squares = {chess.parse_square(one) for one in re.findall(SQUARE, listed["list"])}
        board = boards.of(passage.before)
        kinds = {KINDS[one.lower()] for one in re.findall(rf"\b({KIND})\b", asked.text.shown, re.IGNORECASE)}
        each = [
            {move.to_square for move in board.legal_moves if move.from_square == man}
            for man in chess.SquareSet(board.occupied)
            if board.piece_type_at(man) in kinds
        ]
        reach = [one for one in each if len(one) == len(re.findall(SQUARE, listed["list"]))]
        if reach and squares not in reach:
            yield _doubt(listed, "Other squares can be reached.", "list")
    for found in _FILES.finditer(text):
        board = boards.of(passage.at(found.start()))
        kings = {chess.square_file(man) for white in chess.COLORS for man in board.pieces(chess.KING, white)}
        far = {abs(one - chess.FILE_NAMES.index(found["file"].lower())) for one in kings}
        if far and count_of(found["number"]) not in far:
            yield _doubt(found, f"The {found['file']}-file is not so far from a king.")


def _through(square: int) -> list[int]:
    """The whole lines through a square."""
    return [line for one in chess.SQUARES if one != square and (line := chess.ray(square, one))]
