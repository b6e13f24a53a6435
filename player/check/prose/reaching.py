"""Prose against what can be reached: squares nothing has to do with, kinds of men that are gone."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.granted import granted, on_a_trip
from player.check.prose.passages import Boards, Passage
from player.check.prose.standing import can_reach, history
from player.check.prose.words import KIND, KINDS, SQUARE, denied, supposed
from player.facts.place import Place

_SQUARE = re.compile(rf"(?<![\w{{=-]){SQUARE}\b(?!-)")
_TAKES_ON = re.compile(
    r"\b(?:takes?|taking|took|taken|captures?|recaptures?|trades?|traded|exchanged?|exchanges) (?:back"
    rf" )?(?:on )?(?P<square>{SQUARE})\b(?! (?:from|away|out of))",
    re.IGNORECASE,
)
_FILE_FROM = re.compile(rf"\b(?P<file>[a-h])-file,? (?:from|on|at|up from|down from) (?P<square>{SQUARE})\b")
_SIDE_TAKES = re.compile(
    rf"\b(?P<color>White|Black) (?:may |can |could |would |now |still |simply |always )*"
    rf"(?:takes?|captures?|recaptures?)(?: back)? (?:on )?(?P<square>{SQUARE})\b(?! (?:from|away))"
)
_MEN_ON = re.compile(
    rf"\b(?P<kind>men|pieces|pawns|knights|bishops|rooks) on (?P<squares>{SQUARE}(?:(?:, and |, | and"
    rf" ){SQUARE})+)\b"
)
_CAME = re.compile(
    r"\b(?:left|from|since|off|home on|began on|born on|started on|(?:stood|sat|was|were|lived) on) $",
    re.IGNORECASE,
)
_CROWNED = re.compile(r"\b(?:promot\w+|queens?|queening) (?:on|at) $", re.IGNORECASE)
_COMES = re.compile(
    r"\b(?:no|prefers?|plays?|played|push|pushes|steps?|moves?|goes|go|to|or|and|with|on|for|at|in) $",
    re.IGNORECASE,
)
_THE = re.compile(
    r"\b(?:the|his|her|our|your|my|their|White's|Black's) (?:own |white |black |other |same |only"
    rf" )*(?P<kind>{KIND})s?\b(?!'s pawn|'s (?:side|wing|flank))(?!-)",
    re.IGNORECASE,
)


def reaching_doubts(passage: Passage, boards: Boards, named: dict[int, set[str]]) -> Iterator[Doubt]:
    """Doubts about odd squares and absent men; `named` has the squares that other lines name."""
    if passage.role in ("idea", "part"):
        return
    around = [boards.of(place) for place in passage.places()]
    around += [boards.of(turn.after) for turn in passage.ahead]
    text = passage.text
    for found in _TAKES_ON.finditer(text):
        square = chess.parse_square(found["square"].lower())
        if denied(text, found.start()) or any(found.start() <= at < found.end() for at, _ in passage.turns):
            continue
        if not any(
            can_reach(board, square, kind, takes=True) for board in around for kind in chess.PIECE_TYPES
        ) and not any(_landed(place, square) for place in (*passage.places(), *history(passage)[:4])):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-capture",
                f"Nothing can be taken on {found['square']} here.",
            )
    yield from _own_men(passage, around)
    standing = around + [boards.of(place) for place in history(passage)[:2]]
    kinds = {
        kind
        for kind in chess.PIECE_TYPES
        if any(board.pieces_mask(kind, True) | board.pieces_mask(kind, False) for board in standing)
    }
    for found in _THE.finditer(text):
        if KINDS[found["kind"].lower()] not in kinds and not supposed(text, *found.span(), wide=True):
            yield Doubt(
                found.start("kind"),
                found.end("kind"),
                "prose-man",
                f"There is no {found['kind'].lower()} on the board here.",
            )
    yield from _odd(passage, boards, around, named)


def _own_men(passage: Passage, around: list[chess.Board]) -> Iterator[Doubt]:
    """Men of a colour that it has not, captures that it has not, and men on squares that stand empty."""
    text = passage.text
    for found in _SIDE_TAKES.finditer(text):
        white, square = found["color"] == "White", chess.parse_square(found["square"])
        if denied(text, found.end("color")):
            continue
        if not any(can_reach(one, square, kind, white, True) for one in around for kind in chess.PIECE_TYPES):
            message = f"{found['color']} can take nothing on {found['square']} here."
            yield Doubt(found.start(), found.end(), "prose-side", message)
    for found in _FILE_FROM.finditer(text):
        if found["square"][0] != found["file"]:
            yield Doubt(
                found.start("square"), found.end(), "prose-square", f"{found['square']} is not on that file."
            )
    for found in _MEN_ON.finditer(text):
        meant = KINDS.get(found["kind"].lower().removesuffix("s"))
        for one in re.finditer(SQUARE, found["squares"]):
            pieces = [board.piece_at(chess.parse_square(one[0])) for board in around]
            if not any(piece and meant in (None, piece.piece_type) for piece in pieces):
                start = found.start("squares") + one.start()
                yield Doubt(start, start + 2, "prose-man", f"No such man stands on {one[0]} here.")


def _ends(place: Place) -> tuple[int, ...]:
    if not place.moves:
        return ()
    move = chess.Move.from_uci(place.moves[-1])
    return move.from_square, move.to_square


def _landed(place: Place, square: int) -> bool:
    return bool(place.moves) and chess.Move.from_uci(place.moves[-1]).to_square == square


def _odd(
    passage: Passage, boards: Boards, around: list[chess.Board], named: dict[int, set[str]]
) -> Iterator[Doubt]:
    """Squares nobody stands on, no move told near touches, no man spoken of sees, and no line near names."""
    known: chess.SquareSet | None = None
    for found in _SQUARE.finditer(passage.text):
        if any(at == found.start() or at == found.start() - 1 for at, _ in passage.turns):
            continue
        if any(board.piece_type_at(chess.parse_square(found[0])) for board in around):
            continue
        if known is None:
            known = _known(passage, boards, around)
        square = chess.parse_square(found[0])
        if square in known:
            continue
        lead = passage.text[: found.start()]
        if lead.lower().endswith("no "):
            continue
        if _CAME.search(lead) and any(
            square in _ends(place) for place in [*history(passage), passage.before]
        ):
            continue
        if (_COMES.search(lead) or not lead) and any(
            move.to_square == square for move in boards.of(passage.at(found.start())).legal_moves
        ):
            continue
        if _CROWNED.search(lead) and chess.square_rank(square) in (0, 7):
            continue
        home = re.search(rf"\b({KIND}) from $", lead, re.IGNORECASE)
        if home and chess.Board().piece_type_at(square) == KINDS[home[1].lower()]:
            continue
        if granted(passage.text, found, around) or re.search(r"\bcorners?\b", passage.text):
            continue
        if on_a_trip(around, passage.text, found.start()):
            continue
        lines = range(passage.spot.line - 12, passage.spot.line + 16)
        if any(
            found[0] in squares
            for line in lines
            if line != passage.spot.line
            for squares in (named.get(line, ()),)
        ):
            continue
        yield Doubt(
            found.start(), found.end(), "prose-square", f"Nothing told near here has to do with {found[0]}."
        )


def _known(passage: Passage, boards: Boards, around: list[chess.Board]) -> chess.SquareSet:
    known = chess.SquareSet()
    for board in around:
        known |= board.occupied
    places = {*passage.places(), *(turn.after for turn in passage.ahead), *history(passage)[:4]}
    for place in places:
        if not place.moves:
            continue
        move = chess.Move.from_uci(place.moves[-1])
        known |= chess.SquareSet([move.from_square, move.to_square])
        piece = boards.of(place).piece_at(move.to_square)
        if piece is not None:
            empty = chess.Board(None)
            empty.set_piece_at(move.to_square, piece)
            known |= empty.attacks(move.to_square)
            known |= boards.of(place).attacks(move.from_square)
    for _, shown in passage.marks:
        known |= chess.SquareSet(
            [chess.parse_square(name) for mark in shown.marks for name in (mark.square, mark.to) if name]
        )
    named = re.findall(rf"\b(?:({KIND})|wedge)s?\b", passage.text, re.IGNORECASE)
    for kind in {KINDS[(name or "pawn").lower()] for name in named}:
        for board in around:
            for side in chess.COLORS:
                for man in board.pieces(kind, side):
                    known |= board.attacks(man)
                    if kind == chess.PAWN:
                        step = 8 if side else -8
                        known |= chess.SquareSet([to for to in (man + step, man + 2 * step) if 0 <= to < 64])
    return known


def squares_by_line(source: str) -> dict[int, set[str]]:
    """The squares that each line of a script names, in notation or words."""
    out: dict[int, set[str]] = {}
    for number, line in enumerate(source.split("\n"), 1):
        squares = set(re.findall(SQUARE, line))
        if squares:
            out[number] = squares
    return out
