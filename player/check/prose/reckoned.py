"""Prose against what can be reckoned: ranks, how far men stand apart, how long they wait, what they see."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

import chess

from player.check.prose.book import ORDINALS
from player.check.prose.doubt import Doubt
from player.check.prose.geometry import view
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.standing import can_reach, history
from player.check.prose.sums import count_of
from player.check.prose.words import HYPOTHETICAL, KIND, KINDS, SQUARE, clause, denied, sentence
from player.facts.place import Place

_N = r"(?P<number>an?|one|two|three|four|five|six|seven|eight|a single)"
_RANK = re.compile(rf"\b(?P<nth>{'|'.join(ORDINALS[:8])}) ranks?\b(?!-)", re.IGNORECASE)
_RULE = re.compile(
    rf"\b(?:belongs?|loves?|always|usually|every|any|often|{KIND}s|an? (?!pawn on){KIND})\b", re.IGNORECASE
)
_PAWN_ON = re.compile(r"\bpawn (?:(?:is|stands|sits|now|already|still) )*on (?:the|his|its|her) $")
_APART = re.compile(
    rf"\b{_N} (?P<what>file|rank)s? (?:(?:further|farther|too far|wide|out|over|back|up|down|"
    r"ahead|away|apart|off|higher|lower)\b|(?:to|on) (?:his|her|its|the|our|your) (?:left|right)\b|"
    r"below|above|behind|before|in front of)",
    re.IGNORECASE,
)
_WAITED = re.compile(
    r"\b(?:(?:after|for) (?P<number>[a-z-]+|\d+) moves of (?:\w+ )?(?:waiting|sleep\w*|patience|standing|"
    r"rest|silence|idleness)|(?:waited|stood|slept|sat|stayed|lived|waits|stands|sleeps|sits)"
    r" (?:[a-z]+ ){0,4}?for (?P<number2>[a-z-]+|\d+) moves)\b",
    re.IGNORECASE,
)
_THESE = re.compile(
    r"\b(?:these|those|all|his|her|our|your|their) (?P<number>two|three|four|five|six|seven|eight) "
    rf"(?:(?P<color>white|black) )?(?P<kind>{KIND})s\b(?!-|')",
    re.IGNORECASE,
)
_ALONG = re.compile(
    rf"\b(?P<number>an?|the|one|two|three|four) (?:(?P<color>white|black) )?(?P<kind>{KIND})s? "
    r"(?:(?:is|are|stands?|both|now) )*on the (?P<line>long diagonal|[a-h]-file)\b",
    re.IGNORECASE,
)
_HOLDS = re.compile(
    rf"\b(?P<kind>{KIND}) on (?P<square>{SQUARE}) (?:now |still |also )?(?:holds|guards|covers|controls|"
    rf"looks at|attacks|takes) {_N} (?:\w+ )?squares?\b",
    re.IGNORECASE,
)
_JUMPS = re.compile(
    r"\bpawn (?:(?:that|which|who|can|may|could|has|just) )*(?:go|goes|gone|went|jumps?|jumped|moves?|moved|"
    r"steps?|stepped)(?: on| up| ahead)? (?P<number>three|four|five|six) (?:squares|ranks)\b(?! in\b)",
    re.IGNORECASE,
)
_BY = re.compile(
    rf"\b(?P<square>{SQUARE}) (?:(?:is|are|stays|was|now|still|also) )*(?:closed|guarded|held|covered|"
    r"shut|watched|controlled|attacked|hit|defended|protected)(?: off)? by"
    rf" (?:the|his|her|our|a|your|White's|Black's) (?P<kind>{KIND})\b",
    re.IGNORECASE,
)
_WAS = re.compile(
    rf"\b(?P<which>this|that|the|your|our|his) (?P<kind>{KIND}) (?:was|had been) (?:still |just )?"
    r"(?:guarding|holding|watching|covering|protecting|defending|attacking|eyeing|hitting|looking at) "
    rf"(?P<square>{SQUARE})\b",
    re.IGNORECASE,
)
_IS_GONE = re.compile(
    rf"\b(?:one|man|{KIND}) (?:on|from) (?P<square>{SQUARE}) (?:is|has) (?:now |already |long )?gone\b"
    r"(?! (?:to|on|a))",
    re.IGNORECASE,
)
_LONG = (0x8040201008040201, 0x0102040810204080)


def reckoned_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about ranks, distances, waits, numbers of men and squares looked at that cannot be so here."""
    if passage.role in ("idea", "part"):
        return
    for found in _RANK.finditer(passage.text):
        yield from _rank(passage, boards, found)
    for found in _APART.finditer(passage.text):
        yield from _apart(passage, boards, found)
    yield from _waited(passage, boards)
    yield from _numbers(passage, boards)
    yield from _squares(passage, boards)


def _doubt(found: re.Match[str], group: str, message: str, code: str = "prose-count") -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message)


def _ends(place: Place) -> set[int]:
    """Where the last man moved came from and went to."""
    return {chess.parse_square(uci[at : at + 2]) for uci in place.moves[-1:] for at in (0, 2)}


def _kinds(text: str) -> set[int]:
    return {KINDS[one.lower()] for one in re.findall(rf"\b({KIND})s?\b", text, re.IGNORECASE)}


def _men(board: chess.Board, kind: int) -> chess.SquareSet:
    return board.pieces(kind, chess.WHITE) | board.pieces(kind, chess.BLACK)


def _points(passage: Passage, at: int) -> set[int]:
    """The squares that the words at a character may measure from: of the moves at hand, marks, and names."""
    places = [*tight_places(passage, at), *(turn.after for turn in passage.ahead[:2])]
    asked = passage.question
    words = [passage.text, *((asked.text.shown, *asked.answers) if asked else ())]
    names = {one.lower() for said in words for one in re.findall(rf"\b{SQUARE}\b", said, re.IGNORECASE)}
    names |= {name for _, shown in passage.marks for one in shown.marks for name in (one.square, one.to)}
    return {square for place in places for square in _ends(place)} | {
        chess.parse_square(name) for name in names if name
    }


def _rank(passage: Passage, boards: Boards, found: re.Match[str]) -> Iterator[Doubt]:
    """ "Keep to the sixth rank", "a pawn on the seventh": some man meant stands on it or comes to it."""
    first, last = sentence(passage.text, *found.span())
    words, asked = passage.text[first:last], passage.question
    kinds = _kinds(words)
    if not (kinds or passage.replied or asked) or _RULE.search(words):
        return
    here = [boards.of(place) for place in tight_places(passage, found.start())]
    mover = boards.of(asked.place).turn if asked else chess.BLACK
    if _PAWN_ON.search(passage.text[first : found.start()]):
        pawns = [(board, pawn) for board in here for pawn in _men(board, chess.PAWN)]
        squares = {pawn if board.color_at(pawn) else chess.square_mirror(pawn) for board, pawn in pawns}
    else:
        squares = _points(passage, found.start())
        squares |= {man for board in here for man in _men(board, chess.KING) if man // 8 in (0, 7)}
        squares |= {man for board in here for kind in kinds for man in _men(board, kind)}
        if not asked:
            reach = (
                one
                for one in chess.SQUARES
                for board in here
                for kind in kinds
                if can_reach(board, one, kind)
            )
            squares |= set(reach)
        if not mover or re.search(r"\b(?:black|his|her|their)\b", words, re.IGNORECASE):
            squares |= {chess.square_mirror(square) for square in squares}
    if squares and ORDINALS.index(found["nth"].lower()) not in map(chess.square_rank, squares):
        yield _doubt(found, "nth", "Nobody meant here stands on that rank or comes to it.", "prose-square")


def _apart(passage: Passage, boards: Boards, found: re.Match[str]) -> Iterator[Doubt]:
    """ "Two files to his left", "one rank below": some two of the men and squares meant lie so far apart."""
    text, points = passage.text, _points(passage, found.start())
    kinds = {*_kinds(text), chess.KING} if _kinds(text) else {*chess.PIECE_TYPES}
    here = [boards.of(place) for place in tight_places(passage, found.start())]
    points |= {man for board in here for kind in kinds for man in _men(board, kind)}
    on_files = found["what"].lower() == "file"
    lines = {(chess.square_file if on_files else chess.square_rank)(point) for point in points}
    if on_files:
        lines |= {chess.FILE_NAMES.index(one) for one in re.findall(r"\b([a-h])(?:-file| is)\b", text)}
    far = {abs(one - other) for one, other in combinations(lines, 2)}
    if far and count_of(found["number"]) not in far:
        yield _doubt(found, "number", "No two men or squares meant here lie so far apart.")


def _waited(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "After twenty-one moves of waiting": some man of a kind named has stood still for so long."""
    text, here = passage.text, passage.at(len(passage.text))
    if boards.of(Place(here.root)).fullmove_number != 1:
        return
    for found in _WAITED.finditer(text):
        first, last = sentence(text, *found.span())
        group = "number" if found["number"] else "number2"
        kinds, number = _kinds(text[first:last]), count_of(found[group])
        waits: list[float] = []
        for place in (here, Place(here.root, here.moves[:-1])):
            came = {uci[2:4]: ply for ply, uci in enumerate(place.moves)}
            men = [man for kind in kinds for man in _men(boards.of(place), kind)]
            waits += [(len(place.moves) - came.get(chess.square_name(man), 0)) / 2 for man in men]
        if waits and number and not any(abs(wait - number) <= 1.5 for wait in waits):
            yield _doubt(found, group, "No such man has stood still for so long.")


def _numbers(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Numbers of men that are there whatever is supposed of them, or on a line; squares one man holds."""
    text = passage.text
    around = [boards.of(place) for place in (*passage.places(), *(turn.after for turn in passage.ahead))]
    wider = [*around, *(boards.of(place) for place in history(passage)[:4])]
    for found in (*_THESE.finditer(text), *_ALONG.finditer(text)):
        line, kind = found.groupdict().get("line"), KINDS[found["kind"].lower()]
        first, last = sentence(text, *found.span())
        if line and HYPOTHETICAL.search(text[first:last]):
            continue
        sides = [found["color"].lower() == "white"] if found["color"] else chess.COLORS
        lines = (
            [chess.BB_ALL]
            if not line
            else [chess.BB_FILES[ord(line[0]) % 32 - 1]]
            if line[1] == "-"
            else _LONG
        )
        most = max(
            sum(chess.popcount(board.pieces_mask(kind, side) & one) for side in sides)
            for board in (around if line else wider)
            for one in lines
        )
        gone = re.match(r"[^.;:]*\b(?:gone|off|box|traded|exchanged|left)\b", text[found.end() :])
        if (count_of(found["number"]) or 1) > most and not gone:
            yield _doubt(found, "number", f"There are {most} of them.")
    for found in _HOLDS.finditer(text):
        square, kind = chess.parse_square(found["square"].lower()), KINDS[found["kind"].lower()]
        counts = [len(board.attacks(square)) for board in around if board.piece_type_at(square) == kind]
        if counts and count_of(found["number"]) > max(counts):
            yield _doubt(found, "number", f"It looks at {max(counts)}.")
    for found in _JUMPS.finditer(text):
        yield _doubt(found, "number", "No pawn goes so far in one move.")


def _squares(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Squares said to be guarded by a kind of man, or to have been, and squares said to be left."""
    text, places = passage.text, tight_places(passage, 0)
    here = [boards.of(place) for place in places]
    for found in (*_BY.finditer(text), *_WAS.finditer(text)):
        square, kind = chess.parse_square(found["square"].lower()), KINDS[found["kind"].lower()]
        which = found.groupdict().get("which")
        first, last = clause(text, *found.span())
        if not which and HYPOTHETICAL.search(text[first:last]):
            continue
        told = [place for place in passage.replied if place.moves][:1]
        moved = [boards.of(place).piece_type_at(chess.parse_square(place.moves[-1][2:4])) for place in told]
        if which and which.lower() != "the" and moved == [kind]:
            seen = view(kind, chess.parse_square(told[0].moves[-1][:2]))
        else:
            wide = [*here, *(boards.of(place) for place in history(passage)[:6] if which)]
            men = [(board, man) for board in wide for man in _men(board, kind)]
            seen = chess.SquareSet(chess.BB_ALL if not men else 0)
            for board, man in men:
                seen |= board.attacks(man)
        if square not in seen:
            yield _doubt(found, "square", f"No such {found['kind'].lower()} looks there.", "prose-hit")
    for found in _IS_GONE.finditer(text):
        name = found["square"].lower()
        if (
            all(board.piece_at(chess.parse_square(name)) for board in here)
            and not denied(text, found.start())
            and not any(uci[2:4] == name for uci in passage.before.moves)
        ):
            yield _doubt(found, "square", f"Nobody has left {name}.")
