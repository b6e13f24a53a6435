"""Prose against how often squares are looked at: guards, attackers, three against two, room for a king."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import (
    COUNT,
    COUNTS,
    HYPOTHETICAL,
    KIND,
    KINDS,
    SQUARE,
    clause,
    sentence,
    supposed,
)

_GUARDS = re.compile(
    rf"\b(?P<number>{COUNT}|single|nobody|nothing)(?: (?:white|black|single|more|other))?"
    rf" ?(?:(?P<what>guards?|defenders?|attackers?)\b|(?P<verb>guards|defends|attacks) (?=the|{SQUARE}))",
    re.IGNORECASE,
)
_COLOURED = re.compile(
    rf"\b(?:(?P<number>{COUNT}|single) )?(?P<color>white|black) (?:men|man|guards?|attackers?|pieces?)\b"
    rf"(?P<rest>[^.,;:!?]*?\b(?:on|attacks?|guards?|hits?|takes?) (?:the {KIND} on )?(?P<square>{SQUARE}))?",
    re.IGNORECASE,
)
_BETWEEN = re.compile(
    rf"\b(?P<number>{COUNT})(?: single)?(?: empty)? squares? between (?:the kings|them)\b", re.IGNORECASE
)
_NTHS = {"second": 2, "third": 3, "fourth": 4, "fifth": 5}
_NTH = re.compile(
    rf"\b(?P<square>{SQUARE}) a (?P<nth>second|third|fourth|fifth) time\b|"
    r"\ba (?P<nth2>second|third|fourth|fifth) (?:man|guard|attacker|defender|piece) on"
    rf" (?P<square2>{SQUARE})\b",
    re.IGNORECASE,
)
_AGAINST = re.compile(
    r"(?:^|(?<=[.!?:] )|(?<=\bis )|(?<=\bit ))(?P<one>one|two|three|four|five) against"
    r" (?P<two>one|two|three|four|five)\b(?! (?:bishops?|knights?|rooks?|pawns?|men))",
    re.IGNORECASE,
)
_ROOM = re.compile(
    rf"\b(?:there (?:is|are)|(?:he|the king) has) (?:only |just )?(?P<number>{COUNT}) squares? left\b",
    re.IGNORECASE,
)
_TO_GO = re.compile(rf"\b(?P<number>{COUNT}) (?:more )?steps? to go\b", re.IGNORECASE)

Claimed = Mapping[int, set[tuple[str, int]]]
"""By line, the squares that claims speak of and the number of guards or attackers they state."""


def guarding_doubts(passage: Passage, boards: Boards, claimed: Claimed) -> Iterator[Doubt]:
    """Doubts about numbers of men that look at squares; `claimed` has what claims near each line state."""
    yield from _guards(passage, boards, claimed)
    yield from _coloured(passage, boards)
    yield from _weighed(passage, boards)


def _guards(passage: Passage, boards: Boards, claimed: Claimed) -> Iterator[Doubt]:
    """Numbers of guards and attackers: of a square named in the sentence, of the last move's, or claimed."""
    text = passage.text
    if passage.role in ("idea", "part", "back"):
        return
    for found in _GUARDS.finditer(text):
        word = found["number"].lower()
        number = int(word) if word.isdigit() else COUNTS.get(word)
        what = (found["what"] or found["verb"]).lower()
        first, last = sentence(text, *found.span())
        if number is None or (supposed(text, *found.span()) and not passage.replied):
            continue
        squares = {
            chess.parse_square(one[0])
            for one in re.finditer(rf"\b{SQUARE}\b", text[first:last])
            if not any(at <= first + one.start() < at + len(turn.san) for at, turn in passage.turns)
        }
        if not squares:
            squares = {chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", text)}
        for place in (passage.last(found.start()), passage.answer.after if passage.answer else None):
            if place and place.moves:
                squares.add(chess.Move.from_uci(place.moves[-1]).to_square)
        if passage.question is not None:
            squares |= {
                chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", passage.question.text.shown)
            }
        beside = [
            one
            for line in range(passage.spot.line - 2, passage.spot.line + 6)
            for one in claimed.get(line, ())
        ]
        near = {count for _, count in beside}
        squares |= {chess.parse_square(name) for name, _ in beside}
        if found["what"] and text[found.end() : found.end() + 6].startswith((" now:", ":", " here:")):
            said = sorted(
                KINDS[one[1].lower()]
                for one in re.finditer(rf"\ban? ({KIND})\b", text[found.end() : last + 80])
            )
            if len(said) == number and not any(
                sorted(board.piece_type_at(man) or 0 for man in board.attackers(color, square)) == said
                for board in (boards.of(place) for place in passage.places())
                for square in squares
                for color in chess.COLORS
            ):
                yield Doubt(
                    found.start(), found.end(), "prose-count", "Other men than these stand behind it."
                )
                continue
        around = [boards.of(place) for place in passage.places()]
        counts = {
            len(board.attackers(color, square))
            for board in around
            for square in squares
            for color in chess.COLORS
        }
        if squares and number not in counts | near:
            yield Doubt(found.start(), found.end(), "prose-count", f"No square meant here has {word} {what}.")
        elif (
            near
            and number not in near | counts
            and not re.search(SQUARE, text[first:last])
            and passage.role == "told"
        ):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-count",
                f"The claim beside it says {', '.join(map(str, sorted(near)))}.",
            )


def _coloured(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Men of a colour at a square, and squares between the kings."""
    text = passage.text
    if passage.role in ("idea", "part"):
        return
    around = [boards.of(place) for place in passage.places()]
    for found in _COLOURED.finditer(text):
        square = (
            found["square"] or (re.search(rf"\b[Oo]n ({SQUARE})\b", text[: found.start()]) or ["", ""])[1]
        )
        if not square or HYPOTHETICAL.search(
            text[clause(text, *found.span())[0] : found.start()].replace("then", "")
        ):
            continue
        color, at = found["color"].lower() == "white", chess.parse_square(square.lower())
        most = max(len(board.attackers(color, at)) for board in around)
        number = COUNTS.get((found["number"] or "one").lower(), 1)
        if number > most and found["number"] != "no":
            yield Doubt(
                found.start("color"),
                found.end("color"),
                "prose-side",
                f"Not so many {found['color'].lower()} men look at {square}.",
            )
    for found in _ROOM.finditer(text):
        counts = {
            sum(board.piece_type_at(move.from_square) == chess.KING for move in board.legal_moves)
            for board in around
        }
        number = COUNTS.get(found["number"].lower(), -1)
        if number not in counts and not supposed(text, *found.span()):
            yield Doubt(
                found.start("number"),
                found.end(),
                "prose-count",
                "The king has another number of squares here.",
            )
    for found in _TO_GO.finditer(text):
        first, _ = sentence(text, *found.span())
        file = re.search(r"\b([a-h])-(?:file|pawn)\b(?!.*\b[a-h]-)", text[first : found.start()])
        counts = {gone for board in around for gone in _to_go(board, file[1] if file else "")}
        if counts and COUNTS.get(found["number"].lower(), -1) not in counts:
            yield Doubt(found.start("number"), found.end(), "prose-count", "No pawn here has so far to go.")
    for found in _BETWEEN.finditer(text):
        if "them" in found[0] and not re.search(r"\bkings?\b", text[slice(*sentence(text, *found.span()))]):
            continue
        counts = {
            chess.square_distance(white, black) - 1
            for board in around
            if (white := board.king(chess.WHITE)) is not None
            and (black := board.king(chess.BLACK)) is not None
        }
        if counts and COUNTS.get(found["number"].lower(), -1) not in counts:
            yield Doubt(found.start("number"), found.end(), "prose-count", "The kings stand otherwise here.")


def _weighed(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "Three against two" on some square that both sides look at, and "a third time" on the one named."""
    text = passage.text
    if passage.role in ("idea", "part"):
        return
    around = [boards.of(place) for place in passage.places()]
    for found in _AGAINST.finditer(text):
        wanted = sorted((COUNTS[found["one"].lower()], COUNTS[found["two"].lower()]))
        pairs = (
            sorted(len(board.attackers(color, square)) for color in chess.COLORS)
            for board in around
            for square in chess.SQUARES
            if board.attackers_mask(chess.WHITE, square) and board.attackers_mask(chess.BLACK, square)
        )
        if supposed(text, *found.span()) or any(pawns_against(board, wanted) for board in around):
            continue
        if not any(pair == wanted for pair in pairs):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-count",
                "On no square do they stand so many against so many.",
            )
    for found in _NTH.finditer(text):
        number = _NTHS[(found["nth"] or found["nth2"]).lower()]
        square = chess.parse_square((found["square"] or found["square2"]).lower())
        most = max(len(board.attackers(color, square)) for board in around for color in chess.COLORS)
        lone = re.search(r"\bit (?:guards|attacks|hits|covers|defends|protects) $", text[: found.start()])
        if lone and passage.answer and passage.role in ("nudge", "because"):
            after = boards.of(passage.answer.after)
            least = len(after.attackers(not after.turn, square))
            if number < least:
                yield Doubt(found.start(), found.end(), "prose-count", f"It is number {least}.")
                continue
        if number > most and not supposed(text, *found.span()):
            message = f"Nobody has so many men looking at {chess.square_name(square)} here."
            yield Doubt(found.start(), found.end(), "prose-count", message)


def pawns_against(board: chess.Board, wanted: list[int]) -> bool:
    """Whether the sides have so many pawns against each other, in all or on a wing."""
    wings = (
        chess.BB_ALL,
        chess.BB_FILE_A | chess.BB_FILE_B | chess.BB_FILE_C,
        0xF0F0F0F0F0F0F0F0,
        0x0F0F0F0F0F0F0F0F,
    )
    pawns = [int(board.pieces(chess.PAWN, color)) for color in chess.COLORS]
    return any(sorted(chess.popcount(men & wing) for men in pawns) == wanted for wing in wings)


def _to_go(board: chess.Board, file: str) -> Iterator[int]:
    """How far the pawns have to go that stand past the middle, or, where one is named, on a file."""
    for color in chess.COLORS:
        for pawn in board.pieces(chess.PAWN, color):
            left = 7 - chess.square_rank(pawn) if color else chess.square_rank(pawn)
            if chess.FILE_NAMES[chess.square_file(pawn)] == file if file else left <= 4:
                yield left
