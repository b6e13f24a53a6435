"""Prose against the men it means: who goes, who is between, who stands in the way, who is traded or asked."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.standing import history
from player.check.prose.words import HYPOTHETICAL, KIND, KINDS, SQUARE, denied, sentence, supposed
from player.facts.place import Place

_BARE = re.compile(
    rf"(?<![\w-])(?P<kind>{KIND})s?\b(?!-)(?!(?:'s|s') (?:pawns?|side|wing|flank|file|road)\b)", re.IGNORECASE
)
_GOES = re.compile(
    rf"(?:^|[.;:,] |\b(?:and|then|now|so|but|suppose|tonight|here|once more|only)"
    rf" )(?:the|his|her|our|that|this) (?:white |black |other )?"
    rf"(?P<kind>{KIND})(?: \w+s(?: \w+){{0,3}}| \w+s the \w+)?[:,]? $",
    re.IGNORECASE,
)
_BETWEEN = re.compile(
    rf"\bbetween (?:the |a |his |her )?(?P<one>{KIND}) and (?:the |a |his |her"
    rf" )?(?P<two>{KIND})\b",
    re.IGNORECASE,
)
_IN_THE_WAY = re.compile(
    rf"\b(?:in (?:its|the|his|her) way is|stopped by|blocked by|bumps into) (?:our own |his own |the |a"
    rf" |our |his )?(?P<kind>{KIND})\b|"
    rf"\b(?:a|the|his|our) (?P<kind2>{KIND}) (?:is )?(?:standing|stands|sits|sitting) in (?:the|its)"
    rf" (?:light|way)\b",
    re.IGNORECASE,
)
_TRADE = re.compile(
    rf"\b(?:offers? to (?:trade|swap|exchange)|a trade of) (?:the )?(?P<kind>{KIND})s\b", re.IGNORECASE
)
_ASKED = re.compile(
    rf"\b(?:a question for|asks?|chases|bothers|annoys|a threat to) (?:the|his|her|our|that)"
    rf" (?P<kind>{KIND})\b(?: on (?P<square>{SQUARE}))?(?! from\b)",
    re.IGNORECASE,
)
_ROAD = re.compile(rf"\bthe (?P<kind>{KIND})'s (?:road|diagonal|line|view|way)\b", re.IGNORECASE)
_FILE_MEN = re.compile(r"\b(?P<whose>[Oo]ur|[Hh]is|Black's|White's) (?P<file>[a-h])-pawns (?:are|stand)\b")
_FREES = re.compile(
    rf"\b(?P<verb>opens? the (?:road|way|door|line) for|lets out|frees|shuts in|locks in|blocks) the"
    rf" (?P<kind>{KIND}) on (?P<square>{SQUARE})\b|"
    rf"\bthe (?P<kind2>{KIND}) on (?P<square2>{SQUARE}) can no longer (?:look|see|get)\b",
    re.IGNORECASE,
)
_CAN_GO = re.compile(
    rf"\b(?P<kind>{KIND})(?: on (?P<origin>{SQUARE}))? (?P<how>can|may|could|wants to|would like to|hopes"
    rf" to) "
    rf"(?:go|step|jump|run|escape|get|move|visit|reach|hop)(?: to| into)? (?P<square>{SQUARE})\b",
    re.IGNORECASE,
)
_MATE_ON = re.compile(
    rf"\b(?:threatens mate|would be mate|there is mate|it is mate|^Mate) on"
    rf" (?P<square>{SQUARE})\b|\b(?P<square2>{SQUARE}) is mate\b",
    re.IGNORECASE,
)
_AWAY = re.compile(rf"\bkeeps [^.;:,]*? (?:away from|out of|off) (?P<square>{SQUARE})\b", re.IGNORECASE)
_NEIGHBOUR = re.compile(rf"\bneighbour on (?P<square>{SQUARE})\b", re.IGNORECASE)


def meant_doubts(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Doubts about men named without their squares."""
    if passage.role == "part":
        yield from _absent_in_part(passage, boards)
    if passage.role in ("idea", "part"):
        return
    yield from _absent(passage, boards)
    yield from _movers(passage, boards)
    yield from _lines(passage, boards)
    yield from _touched(passage, boards, side)


def _doubt(found: re.Match[str], group: str | int, message: str, code: str = "prose-man") -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message)


def _absent(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """A kind of man that stands nowhere on any board near, named bare or as any."""
    text = passage.text
    near = [boards.of(place) for place in (*passage.places(), *history(passage)[:6])]
    near += [boards.of(turn.after) for turn in passage.ahead]
    kinds = {
        kind
        for kind in chess.PIECE_TYPES
        if any(b.pieces_mask(kind, True) | b.pieces_mask(kind, False) for b in near)
    }
    asked = passage.question.text.shown if passage.question else text
    if re.search(r"\b(?:give|suppose|imagine|add|as well)\b", asked, re.IGNORECASE):
        return
    for found in _BARE.finditer(text):
        kind = KINDS[found["kind"].lower()]
        first, last = sentence(text, *found.span())
        looks_on = HYPOTHETICAL.search(text[first:last]) if passage.role == "told" else None
        if kind in kinds or (looks_on and "queen" in found["kind"].lower()) or denied(text, found.start()):
            continue
        if chess.popcount(near[0].occupied) > 16 or (
            kind == chess.QUEEN and re.search(r"\b(?:becomes?|made|make|crown\w*|new|a queen in)\b", text)
        ):
            continue
        if passage.role == "told" and (
            passage.spot.line < 1 or looks_on or re.search(r"\b(?:often|was|had|before|when|trade)\b", text)
        ):
            continue
        yield _doubt(found, "kind", f"There is no {found['kind'].lower()} on the board here.")


def _absent_in_part(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """A kind of man in a part's title that stands nowhere in that part."""
    near = [boards.of(place) for place in set(passage.near) - {passage.before, *history(passage)}]
    for found in _BARE.finditer(passage.text):
        kind = KINDS[found["kind"].lower()]
        turns_into = kind == chess.QUEEN and any(one.pawns for one in near)
        if (
            near
            and not turns_into
            and not any(one.pieces_mask(kind, color) for one in near for color in chess.COLORS)
        ):
            yield _doubt(found, "kind", f"No {found['kind'].lower()} stands on the board in this part.")


def _movers(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The rook makes room, {Rfd8}": the man named right before a move is the one that goes."""
    text, end = passage.text, 0
    for at, turn in passage.turns:
        found = _GOES.search(text, end, at)
        end = at
        if found is None or found.end() != at:
            continue
        move, before = chess.Move.from_uci(turn.uci), boards.of(turn.before)
        kind = KINDS[found["kind"].lower()]
        if kind not in (
            before.piece_type_at(move.from_square),
            move.promotion,
            before.piece_type_at(move.to_square),
        ):
            if re.search(r"\b(?:wants?|hopes?|is|has|looks?|waits?|sees?|needs?)\b", found[0]):
                continue
            yield _doubt(found, "kind", f"{turn.san} is no move of a {found['kind'].lower()}.")


def _lines(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Men on one line with others, and men on a line that is shown."""
    text = passage.text
    here = [boards.of(place) for place in passage.places()]
    for found in _BETWEEN.finditer(text):
        one, two = KINDS[found["one"].lower()], KINDS[found["two"].lower()]
        begin, close = sentence(text, *found.span())
        along = [
            one_line
            for board in here
            for one_line in _pairs(board, one, two)
            if "rank" not in text[begin:close] or one_line[0] // 8 == one_line[1] // 8
        ]
        if not along:
            yield Doubt(
                found.start("one"), found.end("two"), "prose-man", "No two such men stand on a line here."
            )
    shown = [
        (mark.square, mark.to)
        for _, marks in passage.marks
        for mark in marks.marks
        if mark.square and mark.to
    ]
    for found in _IN_THE_WAY.finditer(text):
        group = "kind" if found["kind"] else "kind2"
        kind, board = KINDS[found[group].lower()], boards.of(passage.at(found.start()))
        for start, stop in shown[-1:]:
            a, b = chess.parse_square(start), chess.parse_square(stop or start)
            men = {board.piece_type_at(one) for one in chess.SquareSet(chess.ray(a, b)) if one != a}
            first = next((board.piece_type_at(one) for one in _walk(a, b) if board.piece_type_at(one)), None)
            if (found["kind"] and kind != first) or kind not in men:
                yield _doubt(found, group, "Another man stands on the line that is shown.")
    for found in _ROAD.finditer(text):
        last = passage.last(found.start())
        if passage.role != "told" or last is None or not shown or supposed(text, *found.span()):
            continue
        board = boards.of(last)
        ends = {board.piece_type_at(chess.parse_square(name)) for pair in shown for name in pair if name}
        if KINDS[found["kind"].lower()] not in ends:
            yield _doubt(found, "kind", "The line that is shown is not that man's.")


def _walk(start: int, stop: int) -> list[int]:
    """The squares from one to another along their line, without the first."""
    inner = sorted(
        chess.SquareSet(chess.between(start, stop)), key=lambda one: chess.square_distance(start, one)
    )
    return [*inner, stop]


def _pairs(board: chess.Board, one: int, two: int) -> list[tuple[int, int]]:
    men = [[man for color in chess.COLORS for man in board.pieces(kind, color)] for kind in (one, two)]
    return [(a, b) for a in men[0] for b in men[1] if a != b and chess.ray(a, b)]


def _touched(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Men that are traded, asked, freed, or doubled on a file."""
    text = passage.text
    for found in _TRADE.finditer(text):
        last = passage.last(found.start())
        kind = KINDS[found["kind"].lower()]
        if last is None or not last.moves or supposed(text, found.end(), found.end()):
            continue
        board, square = boards.of(last), chess.parse_square(last.moves[-1][2:4])
        if board.piece_type_at(square) != kind or not any(
            board.piece_type_at(one) == kind for one in board.attacks(square)
        ):
            yield _doubt(found, "kind", "The last move told offers no such trade.")
    for found in _ASKED.finditer(text):
        kind = KINDS[found["kind"].lower()]
        places = [
            place
            for place in (
                passage.last(found.start()),
                *passage.replied,
                *(turn.after for _, turn in passage.turns),
            )
            if place and place.moves
        ]
        if (
            passage.role not in ("told", "reply", "also")
            or supposed(text, *found.span())
            or denied(text, found.start())
            or not places
        ):
            continue
        if not any(_hits(boards, place, kind, found["square"]) for place in places):
            yield _doubt(found, "kind", "No move told here hits such a man.")
    for found in _FILE_MEN.finditer(text):
        word = found["whose"].lower()
        white = word.startswith("white") if word[0] in "wb" else (side != "black") == (word == "our")
        places = tight_places(passage, found.start())
        if not any(
            len(boards.of(place).pieces(chess.PAWN, white) & chess.BB_FILES["abcdefgh".index(found["file"])])
            > 1
            for place in places
        ):
            yield _doubt(found, "file", f"Two pawns of that side do not stand on the {found['file']}-file.")
    for found in _FREES.finditer(text):
        named = found["square"] or found["square2"]
        last, square = passage.last(found.start()), chess.parse_square(named)
        if last is None or not last.moves or supposed(text, *found.span()):
            continue
        moves = [
            Place(last.root, last.moves[:ply])
            for ply in range(len(last.moves), max(0, len(last.moves) - 4), -1)
        ]
        opens = not re.match("shut|lock|block", found["verb"] or "block", re.IGNORECASE)
        if not any(_changes(boards, place, square, opens) for place in moves):
            yield _doubt(
                found,
                "square" if found["square"] else "square2",
                f"No move told near here {'frees' if opens else 'shuts in'} a man on {named}.",
            )


def _hits(boards: Boards, place: Place, kind: int, where: str | None) -> bool:
    board, square = boards.of(place), chess.parse_square(place.moves[-1][2:4])
    seen = board.attacks(square)
    if where and chess.parse_square(where) not in seen:
        return False
    return any(board.piece_type_at(one) == kind for one in seen)


def _changes(boards: Boards, place: Place, square: int, opens: bool) -> bool:
    before, after = boards.of(Place(place.root, place.moves[:-1])), boards.of(place)
    if before.piece_at(square) != after.piece_at(square):
        return False
    more = len(after.attacks(square)) - len(before.attacks(square))
    return more > 0 if opens else more < 0


def reach_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about where a man can go, where it would be mate, and what a move keeps others from."""
    if passage.role in ("idea", "part"):
        return
    text = passage.text
    for found in _CAN_GO.finditer(text):
        kind, square = KINDS[found["kind"].lower()], chess.parse_square(found["square"])
        far = 1 if found["how"].lower() in ("can", "may") else 2
        origin = chess.parse_square(found["origin"]) if found["origin"] else None
        here = [boards.of(place) for place in tight_places(passage, found.start())]
        if not denied(text, found.start()) and not any(
            _comes(board, kind, square, far, origin) for board in here
        ):
            yield _doubt(found, "square", f"No {found['kind'].lower()} comes to {found['square']} so soon.")
    for found in _MATE_ON.finditer(text):
        group = "square" if found["square"] else "square2"
        square = chess.parse_square(found[group])
        if denied(text, found.start()):
            continue
        if not any(_mates_on(boards.of(place), square) for place in tight_places(passage, found.start())):
            yield _doubt(found, group, f"No mate on {found[group]} is in the air here.", "prose-mate")
    for found in _AWAY.finditer(text):
        places = [place for place in (passage.last(found.start()), *passage.replied) if place and place.moves]
        square = chess.parse_square(found["square"])
        looks = any(
            square in boards.of(place).attacks(chess.parse_square(place.moves[-1][2:4])) for place in places
        )
        told = passage.role in ("told", "reply", "also") and not supposed(text, *found.span())
        if places and told and not looks:
            yield _doubt(
                found, "square", f"The move spoken of does not look at {found['square']}.", "prose-hit"
            )
    for found in _NEIGHBOUR.finditer(text):
        named = re.findall(SQUARE, text[: found.start()])
        if named and abs("abcdefgh".index(named[-1][0]) - "abcdefgh".index(found["square"][0])) != 1:
            yield _doubt(found, "square", f"{found['square']} is not beside {named[-1]}.", "prose-square")


def _comes(board: chess.Board, kind: int, square: int, far: int, origin: int | None) -> bool:
    for color in chess.COLORS:
        for man in board.pieces(kind, color) if origin is None else [origin]:
            piece = board.piece_at(man)
            if piece is None or piece.piece_type != kind:
                continue
            reached = {man}
            for _ in range(far):
                reached |= {step for one in reached for step in _steps(piece, one, board)}
            if square in reached:
                return True
    return False


def _steps(piece: chess.Piece, square: int, board: chess.Board) -> set[int]:
    empty = chess.Board(None)
    empty.set_piece_at(square, piece)
    ahead = 8 if piece.color else -8
    pushes = {square + ahead, square + 2 * ahead} if piece.piece_type == chess.PAWN else set()
    return set(empty.attacks(square)) | {one for one in pushes if 0 <= one < 64}


def _mates_on(board: chess.Board, square: int) -> bool:
    """Whether either side, were it to move, has a mate in one on a square."""
    for turn in chess.COLORS:
        if board.turn != turn and board.is_check():
            continue
        one = board.copy(stack=False)
        one.turn = turn
        if not one.is_valid():
            continue
        for move in list(one.legal_moves):
            if move.to_square == square:
                one.push(move)
                mate = one.is_checkmate()
                one.pop()
                if mate:
                    return True
    return False
